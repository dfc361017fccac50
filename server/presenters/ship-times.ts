import { formatAt } from '../../lib/time/index.ts';

/** As the log writes instants into its sentences: `27 May 20:10Z`, with no year. */
const INSTANT = /\b(\d{1,2}) ([A-Z][a-z]{2}) (\d{2}:\d{2})Z/g;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

interface ShipClock {
  readonly shipTimeOffsetMin: number;
  /** The year of an instant is the one in which it lies nearest to this. */
  readonly nearEpochMs: number;
}

/** A sentence of the log by the clock of the ship, UTC behind: `Thu 28 May 08:10 (27 May 20:10 UTC)`. */
export const shipTimesIn = (sentence: string, clock: ShipClock): string =>
  sentence.replaceAll(INSTANT, (found, day: string, month: string, time: string) => {
    const monthIndex = MONTHS.indexOf(month);
    if (monthIndex < 0) return found;
    const [hour = 0, minute = 0] = time.split(':').map(Number);
    const [nearest = Number.NaN] = yearsAround(clock.nearEpochMs)
      .map((year) => Date.UTC(year, monthIndex, Number(day), hour, minute))
      .toSorted((a, b) => Math.abs(a - clock.nearEpochMs) - Math.abs(b - clock.nearEpochMs));
    const utc = `${found.slice(0, -1)} UTC`;
    if (clock.shipTimeOffsetMin === 0) return utc;
    return `${formatAt(nearest, clock.shipTimeOffsetMin, 'ccc d LLL HH:mm')} (${utc})`;
  });

function yearsAround(epochMs: number): readonly number[] {
  const year = new Date(epochMs).getUTCFullYear();
  return [year - 1, year, year + 1];
}
