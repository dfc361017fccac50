import { scaleLinear } from 'd3-scale';
import type { JSX } from 'preact';
import type { ValueLane } from '../../server/presenters/strip-model.ts';
import type { Plot } from './plot.ts';
import { Along, Box, CurveLine, Fan } from './shapes.tsx';

/** Values of a lane to places across it; `lowPx` is where its least value stands. */
export const acrossScale = (
  lane: Pick<ValueLane, 'least' | 'most'>,
  lowPx: number,
  highPx: number,
): ((value: number) => number) => scaleLinear([lane.least, lane.most], [lowPx, highPx]).clamp(true);

/** Fans, curves and limit lines of one lane, without any words. */
export function ValueLaneShapes(props: {
  lane: ValueLane;
  plot: Plot;
  lowPx: number;
  highPx: number;
  hatchId: string;
}): JSX.Element {
  const { lane, plot } = props;
  const place = acrossScale(lane, props.lowPx, props.highPx);
  const sampled = { plot, epochMs: lane.epochMs, place };
  const across = [Math.min(props.lowPx, props.highPx), Math.max(props.lowPx, props.highPx)] as const;
  return (
    <g class={`lane-${lane.id}`}>
      {lane.unknown.map((span) => (
        <g key={span.fromEpochMs} fill={`url(#${props.hatchId})`}>
          <Box plot={plot} span={span} across={across} class="unknown" />
        </g>
      ))}
      {lane.limits
        .filter((limit) => limit.kind === 'gate')
        .map((limit) => (
          <Box
            key="gate"
            plot={plot}
            span={wholeOf(lane)}
            across={ordered(place(limit.value), props.lowPx)}
            class="tired"
          />
        ))}
      {lane.bands.map((band) => (
        <Fan key={band.kind} {...sampled} low={band.low} high={band.high} class={`band ${band.kind}`} />
      ))}
      {lane.limits.map((limit) => (
        <Along key={limit.kind} plot={plot} atPx={place(limit.value)} class={`limit ${limit.kind}`} />
      ))}
      {lane.curves.map((curve) => (
        <CurveLine
          key={curve.kind}
          {...sampled}
          values={curve.values}
          class={curve.kind === 'no-go' ? 'limit no-go' : `curve ${curve.kind}`}
        />
      ))}
      <Along plot={plot} atPx={props.lowPx} class="foot" />
    </g>
  );
}

const ordered = (a: number, b: number): [number, number] => (a < b ? [a, b] : [b, a]);

const wholeOf = (lane: ValueLane): { fromEpochMs: number; toEpochMs: number } => ({
  fromEpochMs: lane.epochMs[0] ?? 0,
  toEpochMs: lane.epochMs.at(-1) ?? 0,
});
