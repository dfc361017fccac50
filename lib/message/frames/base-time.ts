import { MS_PER_MIN } from '../../time/index.ts';

/** `YYMMDDHHMM` UTC, in this century. */
export const BASE_TIME_LENGTH_COUNT = 10;
const FIRST_EPOCH_MS = Date.UTC(2000, 0, 1);
const END_EPOCH_MS = Date.UTC(2100, 0, 1);

/** Whether an instant is a whole minute of this century. */
export const isBaseTime = (epochMs: number): boolean =>
  Number.isInteger(epochMs / MS_PER_MIN) && epochMs >= FIRST_EPOCH_MS && epochMs < END_EPOCH_MS;

/** `2605271800`; throws for an instant that is no base time. */
export function formatBaseTime(epochMs: number): string {
  if (!isBaseTime(epochMs)) throw new Error('a base time is a whole minute from 2000 to 2099');
  return new Date(epochMs).toISOString().slice(2, 16).replaceAll(/[-T:]/g, '');
}

/** The instant [epoch ms] of ten digits; null: there is none. */
export function parseBaseTime(text: string): number | null {
  const match = /^(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)$/.exec(text);
  if (match === null) return null;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0] = match.slice(1).map(Number);
  const epochMs = Date.UTC(2000 + year, month - 1, day, hour, minute);
  // 31 April would become 1 May.
  return formatBaseTime(epochMs) === text ? epochMs : null;
}
