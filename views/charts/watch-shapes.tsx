import type { JSX } from 'preact';
import type { WatchChart, WatchLane } from '../../server/presenters/watch-chart-model.ts';
import type { Plot } from './plot.ts';
import { Along, Box, CurveLine } from './shapes.tsx';
import { acrossScale } from './value-lane.tsx';

/** Dots for the low hours: no other band of a drawing is dotted. */
export function LowHoursDots({ id }: { id: string }): JSX.Element {
  return (
    <defs>
      <pattern id={id} width={5} height={5} patternUnits="userSpaceOnUse">
        <circle class="low-dot" cx={2.5} cy={2.5} r={0.9} />
      </pattern>
    </defs>
  );
}

/** Bands, gate lines and curve of one lane, without any words. `lowPx`: where its least value stands. */
export function WatchLaneShapes(props: {
  chart: Pick<WatchChart, 'sleeps' | 'lowHours'>;
  lane: WatchLane;
  plot: Plot;
  lowPx: number;
  highPx: number;
  prefix: string;
}): JSX.Element {
  const { chart, lane, plot, prefix } = props;
  const place = acrossScale(lane, props.lowPx, props.highPx);
  const across = [Math.min(props.lowPx, props.highPx), Math.max(props.lowPx, props.highPx)] as const;
  return (
    <g class={`watch-${lane.id}`}>
      {chart.sleeps.map((span) => (
        <Box key={span.fromEpochMs} plot={plot} span={span} across={across} class="block sleep">
          <title>{span.title}</title>
        </Box>
      ))}
      {chart.lowHours.map((span) => (
        <g key={span.fromEpochMs} fill={`url(#${prefix}-low)`}>
          <Box plot={plot} span={span} across={across} class="low-hours">
            <title>{span.title}</title>
          </Box>
        </g>
      ))}
      {lane.unknown.map((span) => (
        <g key={span.fromEpochMs} fill={`url(#${prefix}-unknown)`}>
          <Box plot={plot} span={span} across={across} class="unknown" />
        </g>
      ))}
      {lane.gates.map(({ kind, value }) => (
        <Along key={kind} plot={plot} atPx={place(value)} class={`limit gate-${kind}`} />
      ))}
      <CurveLine plot={plot} epochMs={lane.epochMs} place={place} values={lane.values} class="curve median" />
      <Along plot={plot} atPx={props.lowPx} class="foot" />
    </g>
  );
}
