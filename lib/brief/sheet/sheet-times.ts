import { formatAt } from '../../time/index.ts';

/** Instants as a sheet writes them. */
export interface SheetTimes {
  /** `Fri 14:00` on the ship's clock. */
  readonly ship: (epochMs: number) => string;
  /** `Fri 14:00 (02:00 UTC)`; the weekday of UTC only where it is another. */
  readonly both: (epochMs: number) => string;
  /** `Fri 29 May 2026 14:00 ship’s time, Fri 29 May 02:00 UTC` */
  readonly whole: (epochMs: number) => string;
}

export function sheetTimes(shipTimeOffsetMin: number): SheetTimes {
  const ship = (epochMs: number): string => formatAt(epochMs, shipTimeOffsetMin, 'ccc HH:mm');
  const utc = (epochMs: number): string => {
    const isSameDay = formatAt(epochMs, shipTimeOffsetMin, 'ccc') === formatAt(epochMs, 0, 'ccc');
    return formatAt(epochMs, 0, isSameDay ? 'HH:mm' : 'ccc HH:mm');
  };
  return {
    ship,
    both: (epochMs) => `${ship(epochMs)} (${utc(epochMs)} UTC)`,
    whole: (epochMs) =>
      `${formatAt(epochMs, shipTimeOffsetMin, 'ccc d LLL yyyy HH:mm')} ship’s time, ${formatAt(epochMs, 0, 'ccc d LLL HH:mm')} UTC`,
  };
}

/** `50 min`, `4 h`, `4 h 10 min` */
export function lengthText(lengthMin: number): string {
  const whole = Math.round(lengthMin);
  if (whole < 60) return `${whole} min`;
  return whole % 60 === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${whole % 60} min`;
}

/** The first letter small, no full stop at the end: to stand inside a sentence. */
export const inside = (text: string): string => (text.charAt(0).toLowerCase() + text.slice(1)).replace(/\.$/, '');

/** `095° true` */
export const courseText = (degTrue: number): string => `${String(Math.round(degTrue) % 360).padStart(3, '0')}° true`;
