import type { JSX } from 'preact';
import type { Block, StripModel, ValueLane } from '../../server/presenters/strip-model.ts';
import { WindBarb } from './barb.tsx';
import { BlockShapes } from './block-shapes.tsx';
import { Hatches } from './hatch.tsx';
import { HourLinks } from './hour-links.tsx';
import { Picked } from './picked.tsx';
import { plot, type Plot } from './plot.ts';
import { Across, Box } from './shapes.tsx';
import { PhoneDays } from './time-axis.tsx';
import { spreadLabels } from './spread-labels.ts';
import { acrossScale, ValueLaneShapes } from './value-lane.tsx';

const WIDTH_PX = 362;
/** With more lanes of values than this the barbs make room for them; with one more still, the drawing grows. */
const EASY_LANES = 3;
const MORE_LANE_PX = 36;
/** A figure nearer than this to the end of its lane would stand on the first one of the next. */
const END_TICK_PX = 8;
const LEAST_TICK_PX = 16;
const HEAD_PX = 126;
const FOOT_PX = 18;
const PX_PER_H = 10;
const MS_PER_H = 3_600_000;
const LIGHT: readonly [number, number] = [36, 46];
const VALUES_FROM_PX = 54;
const BLOCK_PX = 15;
/** Room for labels of work: what the longest line needs, within these; the lanes of values take what is left. */
const LABEL_WIDTH_PX = { least: 60, most: 94, perCharacter: 6.4, before: 12 } as const;

interface Column {
  readonly fromPx: number;
  readonly toPx: number;
}

const shares: Readonly<Record<ValueLane['id'], number>> = {
  chance: 26,
  wind: 60,
  sea: 34,
  steepness: 28,
  rain: 30,
  air: 28,
  'sea-water': 28,
  visibility: 28,
  alertness: 30,
};

/** Columns for the lanes of values: their shares of the room, side by side. */
function valueColumns(lanes: readonly ValueLane[], room: Column): Column[] {
  const gapPx = 11;
  const shareSum = lanes.reduce((sum, lane) => sum + shares[lane.id], 0);
  const freePx = room.toPx - room.fromPx - gapPx * (lanes.length - 1);
  let fromPx = room.fromPx;
  return lanes.map((lane) => {
    const column = { fromPx, toPx: fromPx + (freePx * shares[lane.id]) / shareSum };
    fromPx = column.toPx + gapPx;
    return column;
  });
}

/** Where the parts of the drawing begin, across it. */
interface PhoneLayout {
  readonly widthPx: number;
  readonly blocksFromPx: number;
  readonly labelsFromPx: number;
  readonly barbsPx: number | null;
  readonly values: Column;
}

function layout({ values, blocks }: StripModel): PhoneLayout {
  const laneCount = values.length;
  const lines = blocks.flatMap((lane) => lane.blocks).flatMap((block) => block.lines);
  const wantedPx =
    Math.max(0, ...lines.map((line) => line.length)) * LABEL_WIDTH_PX.perCharacter + LABEL_WIDTH_PX.before;
  const labelPx = Math.min(LABEL_WIDTH_PX.most, Math.max(LABEL_WIDTH_PX.least, wantedPx));
  const widthPx = WIDTH_PX + Math.max(0, laneCount - EASY_LANES - 1) * MORE_LANE_PX;
  const blocksFromPx = widthPx - labelPx - blocks.length * BLOCK_PX;
  const hasBarbs = laneCount <= EASY_LANES;
  return {
    widthPx,
    blocksFromPx,
    labelsFromPx: blocksFromPx + blocks.length * BLOCK_PX + 4,
    barbsPx: hasBarbs ? blocksFromPx - 16 : null,
    values: { fromPx: VALUES_FROM_PX, toPx: blocksFromPx - (hasBarbs ? 34 : 10) },
  };
}

/** The strip turned: time runs down the page, lanes are columns. */
export function PhoneStrip({ strip }: { strip: StripModel }): JSX.Element {
  const { axis } = strip;
  const endPx = HEAD_PX + ((axis.toEpochMs - axis.fromEpochMs) / MS_PER_H) * PX_PER_H;
  const on = plot(axis, [HEAD_PX, endPx], true);
  const across = layout(strip);
  const columns = valueColumns(strip.values, across.values);
  const viewBox = `0 0 ${across.widthPx} ${Math.ceil(endPx) + FOOT_PX}`;
  return (
    <div class="strip-stack phone">
      <svg class="strip phone" viewBox={viewBox} role="img" aria-labelledby="phone-title phone-desc">
        <title id="phone-title">{strip.title}</title>
        <desc id="phone-desc">{strip.description}</desc>
        <Hatches prefix="phone" />
        <TurnedGround strip={strip} on={on} widthPx={across.widthPx} />
        {strip.values.map((lane, i) => (
          <PhoneValueLane key={lane.id} lane={lane} on={on} column={columns[i] ?? across.values} />
        ))}
        {across.barbsPx !== null && <Barbs strip={strip} on={on} x={across.barbsPx} />}
        <BlockColumns strip={strip} on={on} fromPx={across.blocksFromPx} />
        <Labels strip={strip} on={on} fromPx={across.labelsFromPx} />
        <Picked strip={strip} on={on} across={[LIGHT[1], across.labelsFromPx - 4]} />
        <Across plot={on} atEpochMs={axis.nowEpochMs} across={[0, across.widthPx]} class="now" />
        <text class="now-word" x={across.labelsFromPx + 2} y={on.along(axis.nowEpochMs) - 4}>
          {axis.nowText}
        </text>
      </svg>
      {strip.reading !== undefined && (
        <HourLinks reading={strip.reading} on={on} across={[0, across.labelsFromPx]} viewBox={viewBox} kind="phone" />
      )}
    </div>
  );
}

function Barbs({ strip, on, x }: { strip: StripModel; on: Plot; x: number }): JSX.Element {
  return (
    <g>
      <ColumnName x={x} lines={['True', 'wind']} />
      {strip.barbs.map((barb) => (
        <WindBarb key={barb.atEpochMs} barb={barb} x={x} y={on.along(barb.atEpochMs)} />
      ))}
    </g>
  );
}

function BlockColumns({ strip, on, fromPx }: { strip: StripModel; on: Plot; fromPx: number }): JSX.Element {
  return (
    <g>
      {strip.blocks.map((lane, i) => {
        const leftPx = fromPx + i * BLOCK_PX;
        return (
          <g key={lane.id}>
            <BlockShapes lane={lane} plot={on} across={[leftPx, leftPx + BLOCK_PX]} />
            <text
              class="lane-name small"
              transform={`translate(${leftPx + BLOCK_PX / 2 + 4} ${HEAD_PX - 5}) rotate(-90)`}
            >
              {lane.name}
            </text>
          </g>
        );
      })}
    </g>
  );
}

function TurnedGround({ strip, on, widthPx }: { strip: StripModel; on: Plot; widthPx: number }): JSX.Element {
  const { axis } = strip;
  return (
    <g>
      {strip.light
        .filter((span) => span.kind === 'night')
        .map((span) => (
          <Box key={span.fromEpochMs} plot={on} span={span} across={[LIGHT[1], widthPx]} class="night-wash" />
        ))}
      {axis.ticks.map((tick) => (
        <g key={tick.atEpochMs}>
          <Across plot={on} atEpochMs={tick.atEpochMs} across={[LIGHT[0], widthPx]} class="hour" />
          <text class="tick" x={33} y={on.along(tick.atEpochMs) + 4} text-anchor="end">
            {tick.text}
          </text>
        </g>
      ))}
      {axis.midnights.map((atEpochMs) => (
        <Across key={atEpochMs} plot={on} atEpochMs={atEpochMs} across={[0, widthPx]} class="midnight" />
      ))}
      {strip.light.map((span) => (
        <Box key={span.fromEpochMs} plot={on} span={span} across={LIGHT} class={`light ${span.kind}`} />
      ))}
      {(strip.moon ?? []).map((span) => (
        <Box
          key={span.fromEpochMs}
          plot={on}
          span={span}
          across={[LIGHT[1] + 1, LIGHT[1] + 4]}
          class={`moon ${span.kind}`}
        />
      ))}
      <PhoneDays axis={axis} on={on} />
    </g>
  );
}

function ColumnName({ x, lines }: { x: number; lines: readonly string[] }): JSX.Element {
  return (
    <g>
      {lines.map((line, i) => (
        <text key={line} class="lane-name small" x={x} y={12 + i * 12} text-anchor="middle">
          {line}
        </text>
      ))}
    </g>
  );
}

function PhoneValueLane({ lane, on, column }: { lane: ValueLane; on: Plot; column: Column }): JSX.Element {
  const place = acrossScale(lane, column.fromPx, column.toPx);
  const labelXs = spreadLabels(
    lane.limits.map((limit) => place(limit.value)),
    { gapPx: 13, fromPx: column.fromPx + 2, toPx: column.toPx },
  );
  return (
    <g>
      <text class="lane-name small" x={column.fromPx} y={12}>
        {lane.shortName}
      </text>
      <text class="unit" x={column.fromPx} y={24}>
        {lane.shortUnit}
      </text>
      <ValueLaneShapes lane={lane} plot={on} lowPx={column.fromPx} highPx={column.toPx} hatchId="phone-unknown" />
      {spacedTicks(lane, place)
        .filter(({ value }) => value === lane.least || place(value) < column.toPx - END_TICK_PX)
        .map((tick) => (
          <text key={tick.value} class="tick" x={place(tick.value)} y={on.endPx + 13} text-anchor="middle">
            {tick.text}
          </text>
        ))}
      {lane.limits.map((limit, i) => (
        <g key={limit.kind}>
          <polyline
            class={`limit ${limit.kind} leader`}
            points={`${place(limit.value)},${HEAD_PX} ${labelXs[i] ?? 0},${HEAD_PX - 8}`}
          />
          <text class="limit-word" transform={`translate(${(labelXs[i] ?? 0) + 4} ${HEAD_PX - 11}) rotate(-90)`}>
            {limit.text}
          </text>
        </g>
      ))}
    </g>
  );
}

/** Every tick, or every other, or every third … as there is room. */
function spacedTicks(lane: ValueLane, place: (value: number) => number): ValueLane['ticks'] {
  const [first, second] = lane.ticks;
  if (first === undefined || second === undefined) return lane.ticks;
  const every = Math.ceil(LEAST_TICK_PX / Math.max(1, place(second.value) - place(first.value)));
  return lane.ticks.filter((_, i) => i % every === 0);
}

/** Names of the work beside its blocks, each on its own lines. */
function Labels({ strip, on, fromPx }: { strip: StripModel; on: Plot; fromPx: number }): JSX.Element {
  const blocks: Block[] = strip.blocks
    .flatMap((lane) => lane.blocks)
    .filter((block) => block.lines.length > 0)
    .toSorted((a, b) => a.fromEpochMs - b.fromEpochMs);
  const ys = spreadLabels(
    blocks.map((block) => on.along(block.fromEpochMs)),
    { gapPx: 28, fromPx: HEAD_PX, toPx: on.endPx - 16 },
  );
  return (
    <g>
      {blocks.map((block, i) => {
        const y = ys[i] ?? 0;
        const at = on.along(block.fromEpochMs);
        return (
          <g key={block.fromEpochMs}>
            <polyline class="leader" points={`${fromPx - 4},${at + 1} ${fromPx},${at + 1} ${fromPx + 3},${y + 6}`} />
            {block.lines.map((line, row) => (
              <text
                key={line}
                class={block.isChosen ? 'block-word chosen' : 'block-word'}
                x={fromPx + 5}
                y={y + 10 + row * 12}
              >
                {line}
              </text>
            ))}
          </g>
        );
      })}
    </g>
  );
}
