/** All figures of one seam together. */
import { sewingTime, type SewingRhythm, type SewingTime } from './pace-loss.ts';
import { needleMinutes, type Seam } from './seam.ts';
import type { StitchRate } from './stitch-rates.table.ts';
import {
  lockCount,
  needleCount,
  needlefulCount,
  stitchCount,
  twineM,
  USUAL_STITCH,
  type StitchGeometry,
} from './stitches.ts';
import type { MinutesEstimate } from './work-time.ts';

/** A seam and how it is to be sewn. */
export interface SeamPlan {
  readonly seam: Seam;
  /** Rate of its cloth, or the sewer's own. */
  readonly rate: StitchRate;
  /** null: usual stitches, 5 mm apart, thread 6 times the row. */
  readonly geometry: StitchGeometry | null;
  readonly strand: 'single' | 'double';
  readonly rhythm: SewingRhythm;
  readonly hasPaceLoss: boolean;
}

/** What a seam takes. */
export interface SeamWork {
  readonly stitchCount: number;
  readonly lockCount: number;
  readonly twineM: number;
  readonly needlefulCount: number;
  readonly needleCount: number;
  /** One row at the rate, without pace loss. */
  readonly row: MinutesEstimate;
  /** All rows with the needle; pace loss as planned. */
  readonly needle: MinutesEstimate;
  /** The same laid out in sessions. */
  readonly least: SewingTime;
  readonly likely: SewingTime;
  readonly most: SewingTime;
}

/** Counts, twine and times of a seam; what is refused is said by `seamFigureProblems`, `clothProblems`. */
export function seamWork(plan: SeamPlan): SeamWork {
  const { seam, rate, geometry, strand, rhythm, hasPaceLoss } = plan;
  const fresh = needleMinutes(seam, rate);
  const laidOut = (freshMin: number): SewingTime => sewingTime(freshMin, rhythm, hasPaceLoss);
  const [least, likely, most] = [laidOut(fresh.leastMin), laidOut(fresh.likelyMin), laidOut(fresh.mostMin)];
  return {
    stitchCount: stitchCount(seam, geometry?.pitchMm ?? USUAL_STITCH.pitchMm),
    lockCount: lockCount(seam),
    twineM: twineM(seam, geometry, strand),
    needlefulCount: needlefulCount(seam, geometry),
    needleCount: needleCount(seam),
    row: needleMinutes({ ...seam, rowCount: 1 }, rate),
    needle: { leastMin: least.needleMin, likelyMin: likely.needleMin, mostMin: most.needleMin },
    least,
    likely,
    most,
  };
}
