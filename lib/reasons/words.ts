/** Small pieces of sentences; every number with its unit. */
import { formatAt } from '../time/index.ts';

/** How findings are read: on whose clock, and by what names. */
export interface Wording {
  /** Ship's time, minutes ahead of UTC. */
  readonly shipTimeOffsetMin: number;
  /** Name of a job, handling or sail state, as it stands inside a sentence; an id without a name stands for itself. */
  readonly nameOf: (id: string) => string;
}

/** `Fri 29 May 11:00` on ship's time. */
export const shipTime = (epochMs: number, wording: Pick<Wording, 'shipTimeOffsetMin'>): string =>
  formatAt(epochMs, wording.shipTimeOffsetMin, 'ccc d LLL HH:mm');

/** `75 of 100`; what is there at all is never none: `1 of 100` at least, and what is not all never `100 of 100`. */
export function ofHundred(share: number): string {
  const rounded = Math.round(share * 100);
  if (share > 0 && rounded === 0) return '1 of 100';
  return share < 1 && rounded === 100 ? '99 of 100' : `${rounded} of 100`;
}

/** `15.4 kn`, `0.045 (ratio)`, `2 h 10 min`. */
export function amountText(value: number, unit: string): string {
  if (unit === 'min') return minutesText(value);
  if (unit === 'ratio') return `${value.toFixed(3)} of its length`;
  if (unit === 'share') return ofHundred(value);
  return `${value.toFixed(1)} ${unit}`;
}

/** `45 min`, `2 h`, `2 h 10 min`. */
export function minutesText(lengthMin: number): string {
  const whole = Math.round(lengthMin);
  const [hours, minutes] = [Math.floor(whole / 60), whole % 60];
  if (hours === 0) return `${minutes} min`;
  return minutes === 0 ? `${hours} h` : `${hours} h ${minutes} min`;
}
