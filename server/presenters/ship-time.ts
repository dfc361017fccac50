import { formatAt, formatUtc, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';

/** An instant of the passage file on the ship's clock, as a form shows it; what is none stays as it is. */
export function shipTimeOf(utc: string, shipTimeOffsetMin: number): string {
  const at = parseUtc(utc, '');
  return at.ok ? formatAt(at.value, shipTimeOffsetMin, "yyyy-MM-dd'T'HH:mm") : utc;
}

/** UTC of a time on the ship's clock; what is none stays as it was written, for the check to name it. */
export function utcOfShipTime(text: string, shipTimeOffsetMin: number): string {
  const onShip = parseUtc(`${text.slice(0, 16)}Z`, '');
  return onShip.ok ? formatUtc(onShip.value - shipTimeOffsetMin * MS_PER_MIN) : text;
}
