import type { JSX } from 'preact';
import type { TimeAxis } from '../../server/presenters/strip-model.ts';
import { textWidthPx } from './label-rows.ts';
import type { Plot } from './plot.ts';
import { Across } from './shapes.tsx';

/** Hours with their lines from `topPx` down, midnights and days, time from left to right. */
export function DeskTimeAxis(props: { axis: TimeAxis; on: Plot; topPx: number; footPx: number }): JSX.Element {
  const { axis, on, topPx, footPx } = props;
  return (
    <g>
      {axis.ticks.map((tick) => (
        <g key={tick.atEpochMs}>
          <Across plot={on} atEpochMs={tick.atEpochMs} across={[topPx, footPx]} class="hour" />
          <text class="tick" x={on.along(tick.atEpochMs)} y={footPx + 14} text-anchor="middle">
            {tick.text}
          </text>
        </g>
      ))}
      {axis.midnights.map((atEpochMs) => (
        <Across key={atEpochMs} plot={on} atEpochMs={atEpochMs} across={[4, footPx]} class="midnight" />
      ))}
      {axis.days
        .filter((day) => on.along(day.toEpochMs) - on.along(day.fromEpochMs) > textWidthPx(day.text, 12) + 10)
        .map((day) => (
          <text key={day.fromEpochMs} class="day" x={on.along(day.fromEpochMs) + 6} y={13}>
            {day.text}
          </text>
        ))}
    </g>
  );
}

/** A day shorter than this has no name on the phone. */
const DAY_PX = 68;

/** Names of the days beside time that runs down. */
export const PhoneDays = ({ axis, on }: { axis: TimeAxis; on: Plot }): JSX.Element => (
  <g>
    {axis.days
      .map((day) => ({ ...day, shownFromEpochMs: Math.max(day.fromEpochMs, axis.nowEpochMs) }))
      .filter((day) => on.along(day.toEpochMs) - on.along(day.shownFromEpochMs) > DAY_PX)
      .map((day) => (
        <text
          key={day.fromEpochMs}
          class="day"
          transform={`translate(5 ${on.along(day.shownFromEpochMs) + 6}) rotate(90)`}
        >
          {day.text}
        </text>
      ))}
  </g>
);
