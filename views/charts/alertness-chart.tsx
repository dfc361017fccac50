import type { JSX } from 'preact';
import type { WatchChart, WatchLane } from '../../server/presenters/watch-chart-model.ts';
import { DeskBlockLane, rowCount } from './desk-block-lane.tsx';
import { LaneName } from './desk-lane-name.tsx';
import { LABEL_PX, LABEL_ROW_PX, LEFT_PX, RIGHT_PX, WIDTH_PX } from './desk-places.ts';
import { Hatches } from './hatch.tsx';
import { textWidthPx } from './label-rows.ts';
import { plot, type Plot } from './plot.ts';
import { Across } from './shapes.tsx';
import { DeskTimeAxis } from './time-axis.tsx';
import { spreadLabels } from './spread-labels.ts';
import { acrossScale } from './value-lane.tsx';
import { LowHoursDots, WatchLaneShapes } from './watch-shapes.tsx';

const PREFIX = 'watch-desk';
const ALERTNESS = { topPx: 50, heightPx: 150 } as const;
const LAPSES_PX = 72;
const GAP_PX = 14;
const WORK_PX = 24;
/** Two lines of a label. */
const LABEL_GAP_PX = 27;
const LINE_PX = 12;

/** Alertness, work and lapses with time from left to right. */
export function AlertnessChart({ chart }: { chart: WatchChart }): JSX.Element {
  const on = plot(chart.axis, [LEFT_PX, RIGHT_PX], false);
  const workTopPx = ALERTNESS.topPx + ALERTNESS.heightPx + 6;
  const lapses = {
    topPx: workTopPx + WORK_PX + rowCount(chart.work, on) * LABEL_ROW_PX + GAP_PX,
    heightPx: LAPSES_PX,
  };
  const footPx = lapses.topPx + lapses.heightPx + 4;
  return (
    <svg
      class="strip watch-desk"
      viewBox={`0 0 ${WIDTH_PX} ${footPx + 20}`}
      role="img"
      aria-labelledby="watch-desk-title watch-desk-desc"
    >
      <title id="watch-desk-title">{chart.title}</title>
      <desc id="watch-desk-desc">{chart.description}</desc>
      <Hatches prefix={PREFIX} />
      <LowHoursDots id={`${PREFIX}-low`} />
      <Ground chart={chart} on={on} footPx={footPx} />
      <Lane chart={chart} lane={chart.alertness} on={on} {...ALERTNESS} />
      <DeskBlockLane lane={chart.work} topPx={workTopPx} on={on} />
      <Lane chart={chart} lane={chart.lapses} on={on} {...lapses} />
      <Across plot={on} atEpochMs={chart.axis.nowEpochMs} across={[30, footPx]} class="now" />
      <text class="now-word" x={Math.max(LEFT_PX, on.along(chart.axis.nowEpochMs) - 4)} y={28}>
        {chart.axis.nowText}
      </text>
    </svg>
  );
}

/** Hours, midnights, days, and the low hours by their word. */
function Ground({ chart, on, footPx }: { chart: WatchChart; on: Plot; footPx: number }): JSX.Element {
  const { axis } = chart;
  return (
    <g>
      <DeskTimeAxis axis={axis} on={on} topPx={ALERTNESS.topPx} footPx={footPx} />
      {lowWords(chart, on).map(({ key, x }) => (
        <text key={key} class="low-word" x={x} y={ALERTNESS.topPx - 6} text-anchor="middle">
          low hours
        </text>
      ))}
    </g>
  );
}

/** A word over each band, beside the line of now, left out where it would touch the one before it. */
function lowWords({ lowHours, axis }: WatchChart, on: Plot): { key: number; x: number }[] {
  const halfPx = textWidthPx('low hours', LABEL_PX) / 2;
  const nowPx = on.along(axis.nowEpochMs);
  const words: { key: number; x: number }[] = [];
  for (const { fromEpochMs, toEpochMs } of lowHours) {
    const middle = (on.along(fromEpochMs) + on.along(toEpochMs)) / 2;
    const inside = Math.min(RIGHT_PX - halfPx, Math.max(LEFT_PX + halfPx, middle));
    const x = Math.abs(inside - nowPx) < halfPx + 4 ? nowPx + halfPx + 4 : inside;
    if (x - halfPx > (words.at(-1)?.x ?? 0) + halfPx + 4) words.push({ key: fromEpochMs, x });
  }
  return words;
}

function Lane(props: { chart: WatchChart; lane: WatchLane; on: Plot; topPx: number; heightPx: number }): JSX.Element {
  const { chart, lane, on, topPx } = props;
  const lowPx = topPx + props.heightPx;
  const place = acrossScale(lane, lowPx, topPx);
  const labelYs = spreadLabels(
    lane.gates.map(({ value }) => place(value)),
    { gapPx: LABEL_GAP_PX, fromPx: topPx + 2, toPx: lowPx - LINE_PX / 2 },
  );
  return (
    <g>
      <LaneName y={topPx + 9} name={lane.name} unit={lane.unit} under={lane.underName} />
      {lane.ticks.map((tick) => (
        <text key={tick.value} class="tick" x={LEFT_PX - 6} y={place(tick.value) + 4} text-anchor="end">
          {tick.text}
        </text>
      ))}
      <WatchLaneShapes chart={chart} lane={lane} plot={on} lowPx={lowPx} highPx={topPx} prefix={PREFIX} />
      {lane.gates.map(({ kind, value, lines }, i) => (
        <g key={kind}>
          <polyline class="limit leader" points={`${RIGHT_PX},${place(value)} ${RIGHT_PX + 7},${labelYs[i] ?? 0}`} />
          {lines.map((line, row) => (
            <text key={line} class="limit-word" x={RIGHT_PX + 10} y={(labelYs[i] ?? 0) - 2 + row * LINE_PX}>
              {line}
            </text>
          ))}
        </g>
      ))}
    </g>
  );
}
