import type { JSX } from 'preact';
import type { StripModel, ValueLane } from '../../server/presenters/strip-model.ts';
import { WindBarb } from './barb.tsx';
import { DeskBlockLane, rowCount } from './desk-block-lane.tsx';
import { LABEL_PX, LABEL_ROW_PX, LEFT_PX, RIGHT_PX, WIDTH_PX } from './desk-places.ts';
import { LaneName } from './desk-lane-name.tsx';
import { Hatches } from './hatch.tsx';
import { HourLinks } from './hour-links.tsx';
import { textWidthPx } from './label-rows.ts';
import { Picked } from './picked.tsx';
import { plot, type Plot } from './plot.ts';
import { Across, Box } from './shapes.tsx';
import { DeskTimeAxis } from './time-axis.tsx';
import { spreadLabels } from './spread-labels.ts';
import { acrossScale, ValueLaneShapes } from './value-lane.tsx';

const heights: Readonly<Record<ValueLane['id'], number>> = {
  chance: 44,
  wind: 132,
  sea: 62,
  steepness: 34,
  rain: 34,
  air: 34,
  'sea-water': 34,
  visibility: 34,
  alertness: 56,
};

interface Placed<T> {
  readonly lane: T;
  readonly topPx: number;
  readonly heightPx: number;
}

/** Lanes under one another, each `gapPx` below the last. */
function stack<T>(
  lanes: readonly T[],
  fromPx: number,
  size: { heightPx: (lane: T) => number; gapPx: number },
): Placed<T>[] {
  let topPx = fromPx;
  return lanes.map((lane) => {
    const placed = { lane, topPx, heightPx: size.heightPx(lane) };
    topPx += placed.heightPx + size.gapPx;
    return placed;
  });
}

const endOf = <T,>(placed: readonly Placed<T>[], fallbackPx: number): number => {
  const last = placed.at(-1);
  return last === undefined ? fallbackPx : last.topPx + last.heightPx;
};

/** The strip with time from left to right. */
export function DeskStrip({ strip }: { strip: StripModel }): JSX.Element {
  const on = plot(strip.axis, [LEFT_PX, RIGHT_PX], false);
  const values = stack(strip.values, 92, { heightPx: (lane) => heights[lane.id], gapPx: 14 });
  const blocks = stack(strip.blocks, endOf(values, 92) + 12, {
    heightPx: (lane) => 24 + rowCount(lane, on) * LABEL_ROW_PX,
    gapPx: 4,
  });
  const footPx = endOf(blocks, endOf(values, 92)) + 4;
  const viewBox = `0 0 ${WIDTH_PX} ${footPx + 20}`;
  return (
    <div class="strip-stack desk">
      <svg class="strip desk" viewBox={viewBox} role="img" aria-labelledby="desk-title desk-desc">
        <title id="desk-title">{strip.title}</title>
        <desc id="desk-desc">{strip.description}</desc>
        <Hatches prefix="desk" />
        <Ground strip={strip} on={on} footPx={footPx} />
        {apart(strip.barbs, on).map((barb) => (
          <WindBarb key={barb.atEpochMs} barb={barb} x={on.along(barb.atEpochMs)} y={72} />
        ))}
        <LaneName y={76} name="True wind" unit="" />
        {values.map((placed) => (
          <DeskValueLane key={placed.lane.id} placed={placed} on={on} />
        ))}
        {blocks.map((placed) => (
          <DeskBlockLane key={placed.lane.id} lane={placed.lane} topPx={placed.topPx} on={on} />
        ))}
        <Picked strip={strip} on={on} across={[50, footPx]} />
        <Now strip={strip} on={on} footPx={footPx} />
      </svg>
      {strip.reading !== undefined && (
        <HourLinks reading={strip.reading} on={on} across={[34, footPx]} viewBox={viewBox} kind="desk" />
      )}
    </div>
  );
}

const LEAST_BARB_GAP_PX = 20;

/** The barbs, or every other, or every third … so that none stands on the next, and none past the end. */
function apart(barbs: StripModel['barbs'], on: Plot): StripModel['barbs'] {
  const [first, second] = barbs;
  if (first === undefined || second === undefined) return barbs;
  const gapPx = Math.max(1, on.along(second.atEpochMs) - on.along(first.atEpochMs));
  const every = Math.ceil(LEAST_BARB_GAP_PX / gapPx);
  return barbs.filter(({ atEpochMs }, i) => i % every === 0 && RIGHT_PX - on.along(atEpochMs) >= LEAST_BARB_GAP_PX / 2);
}

/** Nights, hours, midnights, days and light: what all lanes stand on. */
function Ground({ strip, on, footPx }: { strip: StripModel; on: Plot; footPx: number }): JSX.Element {
  const { axis } = strip;
  return (
    <g>
      {strip.light
        .filter((span) => span.kind === 'night')
        .map((span) => (
          <Box key={span.fromEpochMs} plot={on} span={span} across={[50, footPx]} class="night-wash" />
        ))}
      <DeskTimeAxis axis={axis} on={on} topPx={50} footPx={footPx} />
      <LaneName y={45} name="Light" unit="" />
      {strip.light.map((span) => (
        <g key={span.fromEpochMs}>
          <Box plot={on} span={span} across={[34, 50]} class={`light ${span.kind}`} />
          {on.along(span.toEpochMs) - on.along(span.fromEpochMs) > textWidthPx(span.text, LABEL_PX) + 6 && (
            <text
              class={`light-word ${span.kind}`}
              x={(on.along(span.fromEpochMs) + on.along(span.toEpochMs)) / 2}
              y={46}
              text-anchor="middle"
            >
              {span.text}
            </text>
          )}
        </g>
      ))}
      {(strip.moon ?? []).map((span) => (
        <Box key={span.fromEpochMs} plot={on} span={span} across={[51, 54]} class={`moon ${span.kind}`} />
      ))}
    </g>
  );
}

function Now({ strip, on, footPx }: { strip: StripModel; on: Plot; footPx: number }): JSX.Element {
  const x = on.along(strip.axis.nowEpochMs);
  return (
    <g>
      <Across plot={on} atEpochMs={strip.axis.nowEpochMs} across={[30, footPx]} class="now" />
      <text class="now-word" x={Math.max(LEFT_PX, x - 4)} y={28}>
        {strip.axis.nowText}
      </text>
    </g>
  );
}

function DeskValueLane({ placed, on }: { placed: Placed<ValueLane>; on: Plot }): JSX.Element {
  const { lane, topPx, heightPx } = placed;
  const lowPx = topPx + heightPx;
  const place = acrossScale(lane, lowPx, topPx);
  const labelYs = spreadLabels(
    lane.limits.map((limit) => place(limit.value)),
    { gapPx: 12, fromPx: topPx - 2, toPx: lowPx },
  );
  return (
    <g>
      <LaneName y={topPx + 9} name={lane.name} unit={lane.unit} under={lane.underName} />
      {lane.ticks.map((tick) => (
        <text key={tick.value} class="tick" x={LEFT_PX - 6} y={place(tick.value) + 4} text-anchor="end">
          {tick.text}
        </text>
      ))}
      <ValueLaneShapes lane={lane} plot={on} lowPx={lowPx} highPx={topPx} hatchId="desk-unknown" />
      {lane.limits.map((limit, i) => (
        <g key={limit.kind}>
          <polyline
            class={`limit ${limit.kind} leader`}
            points={`${RIGHT_PX},${place(limit.value)} ${RIGHT_PX + 7},${labelYs[i] ?? 0}`}
          />
          <text class="limit-word" x={RIGHT_PX + 10} y={(labelYs[i] ?? 0) + 4}>
            {limit.text}
          </text>
        </g>
      ))}
      {lane.note !== null && (
        <text class="unit" x={RIGHT_PX + 10} y={topPx + heightPx / 2 + 4}>
          {lane.note}
        </text>
      )}
    </g>
  );
}
