/** A seam sewn by hand: its time with the needle. Rates: common practice, no source. */
import { STITCH_RATES, type StitchRate } from './stitch-rates.table.ts';
import { rateMinutes, type MinutesEstimate } from './work-time.ts';

/** A seam: a tear or a seam of this length, sewn in this many rows. */
export interface Seam {
  readonly lengthM: number;
  readonly rowCount: number;
  /** Cloth id of the rates table. */
  readonly cloth: string;
}

/** Before the needle: lay out, tape the edges, mark the rows, wax and cut the thread. Common practice, no source. */
export const SEAM_SET_UP: MinutesEstimate = { leastMin: 15, likelyMin: 28, mostMin: 50 };

/** After the needle: tie off, cover with tape, look it over. Common practice, no source. */
export const SEAM_FINISH: MinutesEstimate = { leastMin: 8, likelyMin: 14, mostMin: 25 };

/** The rate of a cloth; throws for a cloth that is not in the table (references are checked when a file is read). */
export function stitchRate(cloth: string): StitchRate {
  const found = STITCH_RATES.find((rate) => rate.cloth === cloth);
  if (found === undefined) throw new Error(`no stitch rate for "${cloth}"`);
  return found;
}

/** The rate of a cloth with the sewer's own likely rate; slow and fast keep their proportion to it. */
export function ownStitchRate(cloth: string, likelyMPerH: number): StitchRate {
  const rate = stitchRate(cloth);
  const own = likelyMPerH / rate.likelyMPerH;
  return { ...rate, slowMPerH: rate.slowMPerH * own, likelyMPerH, fastMPerH: rate.fastMPerH * own };
}

/** Minutes with the needle, without setting up and finishing: rows × length × 60 / rate. */
export function needleMinutes(seam: Seam, rate: StitchRate = stitchRate(seam.cloth)): MinutesEstimate {
  return rateMinutes({
    amount: seam.rowCount * seam.lengthM,
    unit: 'm',
    slowPerH: rate.slowMPerH,
    likelyPerH: rate.likelyMPerH,
    fastPerH: rate.fastMPerH,
    setUpMin: 0,
  });
}
