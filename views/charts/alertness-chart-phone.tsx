import type { JSX } from 'preact';
import type { WatchChart, WatchLane } from '../../server/presenters/watch-chart-model.ts';
import { BlockShapes } from './block-shapes.tsx';
import { Hatches } from './hatch.tsx';
import { textWidthPx } from './label-rows.ts';
import { plot, tenth, type Plot } from './plot.ts';
import { Across } from './shapes.tsx';
import { PhoneDays } from './time-axis.tsx';
import { spreadLabels } from './spread-labels.ts';
import { acrossScale } from './value-lane.tsx';
import { LowHoursDots, WatchLaneShapes } from './watch-shapes.tsx';

const PREFIX = 'watch-phone';
const WIDTH_PX = 362;
const HEAD_PX = 142;
const FOOT_PX = 18;
const PX_PER_H = 10;
const MS_PER_H = 3_600_000;
const LINE_PX = 12;
const LABEL_PX = 11;
/** A figure nearer than this to the line of now would be struck through by it. */
const TICK_PX = 8;
/** Between two turned lines: their boxes are wider than level ones are high. */
const TURNED_LINE_PX = 13;
/** Two lines of a label. */
const LABEL_GAP_PX = 28;

interface Column {
  readonly fromPx: number;
  readonly toPx: number;
}
const ALERTNESS: Column = { fromPx: 42, toPx: 168 };
const LAPSES: Column = { fromPx: 184, toPx: 246 };
const WORK: readonly [number, number] = [254, 269];
const WORDS_PX = 273;

/** The drawing turned: time runs down the page, lanes are columns. */
export function AlertnessChartPhone({ chart }: { chart: WatchChart }): JSX.Element {
  const { axis } = chart;
  const endPx = HEAD_PX + ((axis.toEpochMs - axis.fromEpochMs) / MS_PER_H) * PX_PER_H;
  const on = plot(axis, [HEAD_PX, endPx], true);
  return (
    <svg
      class="strip watch-phone"
      viewBox={`0 0 ${WIDTH_PX} ${Math.ceil(endPx) + FOOT_PX}`}
      role="img"
      aria-labelledby="watch-phone-title watch-phone-desc"
    >
      <title id="watch-phone-title">{chart.title}</title>
      <desc id="watch-phone-desc">{chart.description}</desc>
      <Hatches prefix={PREFIX} />
      <LowHoursDots id={`${PREFIX}-low`} />
      <TurnedGround chart={chart} on={on} />
      <Lane chart={chart} lane={chart.alertness} on={on} column={ALERTNESS} />
      <Lane chart={chart} lane={chart.lapses} on={on} column={LAPSES} />
      <BlockShapes lane={chart.work} plot={on} across={WORK} />
      <text class="lane-name small" transform={`translate(${WORK[1] - 3} ${HEAD_PX - 5}) rotate(-90)`}>
        {chart.work.name}
      </text>
      <Words chart={chart} on={on} />
      <Across plot={on} atEpochMs={axis.nowEpochMs} across={[0, WIDTH_PX]} class="now" />
      <text class="now-word" x={WORDS_PX + 2} y={on.along(axis.nowEpochMs) - 4}>
        {axis.nowText}
      </text>
    </svg>
  );
}

function TurnedGround({ chart, on }: { chart: WatchChart; on: Plot }): JSX.Element {
  const { axis } = chart;
  return (
    <g>
      {axis.ticks.map(({ atEpochMs, text }) => (
        <g key={atEpochMs}>
          <Across plot={on} atEpochMs={atEpochMs} across={[36, WIDTH_PX]} class="hour" />
          {Math.abs(on.along(atEpochMs) - on.along(axis.nowEpochMs)) > TICK_PX && (
            <text class="tick" x={33} y={on.along(atEpochMs) + 4} text-anchor="end">
              {text}
            </text>
          )}
        </g>
      ))}
      {axis.midnights.map((atEpochMs) => (
        <g key={atEpochMs}>
          <Across plot={on} atEpochMs={atEpochMs} across={[0, 18]} class="midnight" />
          <Across plot={on} atEpochMs={atEpochMs} across={[36, WIDTH_PX]} class="midnight" />
        </g>
      ))}
      {chart.lowHours.map(({ fromEpochMs, toEpochMs }) => (
        <text
          key={fromEpochMs}
          class="low-word"
          text-anchor="middle"
          transform={`translate(${(ALERTNESS.toPx + LAPSES.fromPx) / 2 + 3} ${lowWordPx(chart, on, { fromEpochMs, toEpochMs })}) rotate(-90)`}
        >
          low hours
        </text>
      ))}
      <PhoneDays axis={axis} on={on} />
    </g>
  );
}

/** Middle of the word beside its band; it stands clear of the line of now and inside the axis. */
function lowWordPx({ axis }: WatchChart, on: Plot, span: { fromEpochMs: number; toEpochMs: number }): number {
  const halfPx = textWidthPx('low hours', LABEL_PX) / 2;
  const nowPx = on.along(axis.nowEpochMs);
  const middle = Math.min((on.along(span.fromEpochMs) + on.along(span.toEpochMs)) / 2, on.endPx - halfPx);
  return tenth(Math.abs(middle - nowPx) < halfPx + 4 ? nowPx + halfPx + 4 : middle);
}

function Lane(props: { chart: WatchChart; lane: WatchLane; on: Plot; column: Column }): JSX.Element {
  const { chart, lane, on, column } = props;
  const place = acrossScale(lane, column.fromPx, column.toPx);
  const labelXs = spreadLabels(
    lane.gates.map(({ value }) => place(value)),
    { gapPx: LABEL_GAP_PX, fromPx: column.fromPx + 4, toPx: column.toPx - TURNED_LINE_PX },
  );
  return (
    <g>
      <text class="lane-name small" x={column.fromPx} y={12}>
        {lane.name}
      </text>
      {[lane.unit, ...lane.underName].map((line, row) => (
        <text key={line} class="unit" x={column.fromPx} y={24 + row * LINE_PX}>
          {line}
        </text>
      ))}
      <WatchLaneShapes chart={chart} lane={lane} plot={on} lowPx={column.fromPx} highPx={column.toPx} prefix={PREFIX} />
      {lane.ticks.map((tick) => (
        <text key={tick.value} class="tick" x={place(tick.value)} y={on.endPx + 13} text-anchor="middle">
          {tick.text}
        </text>
      ))}
      {lane.gates.map(({ kind, value, lines }, i) => (
        <g key={kind}>
          <polyline
            class="limit leader"
            points={`${place(value)},${HEAD_PX} ${(labelXs[i] ?? 0) + 4},${HEAD_PX - 8}`}
          />
          {lines.map((line, row) => (
            <text
              key={line}
              class="limit-word"
              transform={`translate(${(labelXs[i] ?? 0) + 2 + row * TURNED_LINE_PX} ${HEAD_PX - 11}) rotate(-90)`}
            >
              {line}
            </text>
          ))}
        </g>
      ))}
    </g>
  );
}

/** Names of the work, each beside where it begins. */
function Words({ chart, on }: { chart: WatchChart; on: Plot }): JSX.Element {
  const words = chart.work.blocks.filter(({ lines }) => lines.length > 0);
  const ys = spreadLabels(
    words.map(({ fromEpochMs }) => on.along(fromEpochMs)),
    { gapPx: 28, fromPx: HEAD_PX, toPx: on.endPx - 16 },
  );
  return (
    <g>
      {words.map(({ fromEpochMs, lines }, i) => {
        const y = ys[i] ?? 0;
        const at = on.along(fromEpochMs) + 1;
        return (
          <g key={`${fromEpochMs} ${lines.join(' ')}`}>
            <polyline class="leader" points={`${WORK[1]},${at} ${WORDS_PX - 3},${at} ${WORDS_PX},${y + 6}`} />
            {lines.map((line, row) => (
              <text key={line} class="block-word" x={WORDS_PX + 2} y={y + 10 + row * LINE_PX}>
                {line}
              </text>
            ))}
          </g>
        );
      })}
    </g>
  );
}
