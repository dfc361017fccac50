import type { JSX } from 'preact';
import type { CoverageTimes } from '../../server/presenters/coverage/coverage-times.ts';
import { ALONG_PX, BAR_PX, type CoverageLayout, coverageLayout, type LaidLine } from './coverage-layout.ts';
import { Hatches } from './hatch.tsx';
import { textWidthPx } from './label-rows.ts';
import type { Plot } from './plot.ts';
import { Across, Box } from './shapes.tsx';

interface ChartProps {
  readonly times: CoverageTimes;
  readonly where: 'desk' | 'phone';
  readonly title: string;
  readonly description: string;
}

const WIDTH_PX = { desk: 1040, phone: 350 } as const;
/** Steps nearer together than this are not drawn one by one. */
const LEAST_STEP_PX = 2.5;

/** Files and quantities as bars along the hours. The tables beside it say the same. */
export function CoverageChart({ times, where, title, description }: ChartProps): JSX.Element {
  const layout = coverageLayout(times, WIDTH_PX[where]);
  const id = (name: string): string => `hours-${where}-${name}`;
  return (
    <svg
      class={`strip reach ${where}`}
      viewBox={`0 0 ${layout.widthPx} ${layout.heightPx}`}
      role="img"
      aria-labelledby={`${id('title')} ${id('desc')}`}
    >
      <title id={id('title')}>{title}</title>
      <desc id={id('desc')}>{description}</desc>
      <Hatches prefix={id('hatch')} />
      <Days times={times} layout={layout} />
      <MarkLines layout={layout} />
      {layout.lines.map((line) => (
        <LineShapes key={line.line.key} laid={line} on={layout.on} hatchId={id('hatch-unknown')} />
      ))}
      <MarkWords layout={layout} />
    </svg>
  );
}

function Days({ times, layout }: { times: CoverageTimes; layout: CoverageLayout }): JSX.Element {
  const { on, topPx, footPx } = layout;
  const widthOf = (day: CoverageTimes['days'][number]): number => on.along(day.toEpochMs) - on.along(day.fromEpochMs);
  const isShort = times.days.some((day) => widthOf(day) > 20 && widthOf(day) < textWidthPx(day.text, 12.5) + 8);
  const textOf = (text: string): string => (isShort ? text.slice(0, 3) : text);
  return (
    <g>
      {times.midnights.map((atEpochMs) => (
        <Across key={atEpochMs} plot={on} atEpochMs={atEpochMs} across={[topPx, footPx]} class="midnight" />
      ))}
      {times.days
        .filter((day) => widthOf(day) > textWidthPx(textOf(day.text), 12.5) + 6)
        .map((day) => (
          <text key={day.fromEpochMs} class="day" x={on.along(day.fromEpochMs) + 3} y={footPx + 14}>
            {textOf(day.text)}
          </text>
        ))}
    </g>
  );
}

function LineShapes({ laid, on, hatchId }: { laid: LaidLine; on: Plot; hatchId: string }): JSX.Element {
  const { line, barPx, alongPx } = laid;
  const bar = [barPx, barPx + BAR_PX] as const;
  const along = [alongPx, alongPx + ALONG_PX] as const;
  return (
    <g>
      {laid.heading !== '' && (
        <text class="reach-heading" x={2} y={laid.headingPx}>
          {laid.heading}
        </text>
      )}
      {laid.words.map(({ text, y, isNote }) => (
        <text key={y} class={isNote ? 'reach-note' : 'reach-name'} x={2} y={y}>
          {text}
        </text>
      ))}
      {line.held.map((span) => (
        <Box key={span.fromEpochMs} plot={on} span={span} across={bar} class="reach-held" />
      ))}
      <g fill={`url(#${hatchId})`}>
        {line.gaps.map((span) => (
          <Box key={span.fromEpochMs} plot={on} span={span} across={bar} class="reach-gap" />
        ))}
      </g>
      <path class="reach-steps" d={stepsPath(line.steps, on, barPx)} />
      {line.baseEpochMs !== null && (
        <circle class="reach-base" cx={on.along(line.baseEpochMs)} cy={barPx + BAR_PX / 2} r="4.5" />
      )}
      {line.along?.known.map((span) => (
        <Box key={span.fromEpochMs} plot={on} span={span} across={along} class="reach-known" />
      ))}
      <g fill={`url(#${hatchId})`}>
        {line.along?.silent.map((span) => (
          <Box key={span.fromEpochMs} plot={on} span={span} across={along} class="reach-silent" />
        ))}
      </g>
    </g>
  );
}

/** One tick for each step, from the foot of the bar half up; none where they would run together. */
function stepsPath(steps: readonly number[], on: Plot, barPx: number): string {
  const places = steps.map((atEpochMs) => on.along(atEpochMs));
  const meanPx = ((places.at(-1) ?? 0) - (places[0] ?? 0)) / Math.max(1, places.length - 1);
  if (places.length > 1 && meanPx < LEAST_STEP_PX) return '';
  return places.map((x) => `M${x} ${barPx + BAR_PX}v-${BAR_PX / 2}`).join('');
}

const MarkLines = ({ layout: { marks, on, topPx, footPx } }: { layout: CoverageLayout }): JSX.Element => (
  <g>
    {marks.map(({ mark, y }) => (
      <Across
        key={mark.text}
        plot={on}
        atEpochMs={mark.atEpochMs}
        across={[Math.min(topPx, y - 8), footPx]}
        class={`reach-mark ${mark.kind}`}
      />
    ))}
  </g>
);

const MarkWords = ({ layout: { marks } }: { layout: CoverageLayout }): JSX.Element => (
  <g>
    {marks.map(({ mark, x, y, anchor }) => (
      <text
        key={mark.text}
        class={mark.kind === 'now' ? 'now-word' : 'reach-word'}
        x={anchor === 'end' ? x - 4 : x + 4}
        y={y}
        text-anchor={anchor}
      >
        {mark.text}
      </text>
    ))}
  </g>
);
