import type { JSX } from 'preact';
import type { HourReading, HourRow } from '../../server/presenters/strip-model.ts';
import { type Plot, pointOn, tenth } from './plot.ts';

interface HourLinksProps {
  readonly reading: HourReading;
  readonly on: Plot;
  readonly across: readonly [number, number];
  readonly viewBox: string;
  readonly kind: 'desk' | 'phone';
}

/**
 * Lies over a strip: every hour can be pointed at, to read what stands there, and pressed. For the pointer only; who uses
 * keys or listens has the links of the reading, and with script the element over it, which becomes a slider of hours.
 */
export function HourLinks({ reading, on, across, viewBox, kind }: HourLinksProps): JSX.Element {
  return (
    <>
      <svg class={`strip-hours ${kind}`} viewBox={viewBox} aria-hidden="true" focusable="false">
        {reading.rows.map((row, i) => (
          <a key={row.utc} class={i === reading.shownIndex ? 'is-read' : undefined} href={row.href} tabIndex={-1}>
            <path d={boxPath(row, on, across)} />
          </a>
        ))}
      </svg>
      <div class="hour-slider" aria-orientation={on.turned ? 'vertical' : 'horizontal'} hidden />
    </>
  );
}

/** The hour over all lanes, as short as it can be written: there are many. */
function boxPath({ fromEpochMs, toEpochMs }: HourRow, on: Plot, across: readonly [number, number]): string {
  const from = on.along(fromEpochMs);
  const along = tenth(on.along(toEpochMs) - from);
  const wide = tenth(across[1] - across[0]);
  const { x, y } = pointOn(on, from, across[0]);
  return on.turned ? `M${x} ${y}h${wide}v${along}h${-wide}z` : `M${x} ${y}h${along}v${wide}h${-along}z`;
}
