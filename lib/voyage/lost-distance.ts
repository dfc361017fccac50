import type { Handling } from '../boat/index.ts';
import { handle, sailCourse } from '../boat/index.ts';
import type { Conditions } from './conditions.ts';

/** How the boat is sailed for a while: along the track in a sail state, or under a handling. */
export interface SailedAs {
  /** null: holding the course. */
  readonly handling: Handling | null;
  readonly sailStateId: string;
}

/**
 * Miles lost against the nominal voyage, summed from the first slot: `sum[i]` is lost before slot i.
 *
 * Lost in a slot = what the nominal voyage makes good along the track minus what this way of sailing makes good, both in
 * the reference weather. The miles run off to one side are regained on the way to the next waypoint and count only
 * there (the plan chosen is sailed again with true positions).
 *
 * @returns `slotCount + 1` values [nm]
 */
export function lostNmSums(conditions: Conditions, nominalAlongNm: Float64Array, sailedAs: SailedAs): Float64Array {
  const { slotCount, slotMin } = conditions.course.grid;
  const sums = new Float64Array(slotCount + 1);
  for (let i = 0; i < slotCount; i++) {
    const nominalNm = (nominalAlongNm[i + 1] ?? nominalAlongNm[i] ?? 0) - (nominalAlongNm[i] ?? 0);
    const madeGoodNm = madeGoodKn(conditions, sailedAs, i) * (slotMin / 60);
    sums[i + 1] = (sums[i] ?? 0) + (nominalNm - madeGoodNm);
  }
  return sums;
}

function madeGoodKn(conditions: Conditions, sailedAs: SailedAs, i: number): number {
  const twsKn = conditions.reference.windKn[i] ?? Number.NaN;
  if (Number.isNaN(twsKn)) return 0;
  const wind = {
    twsKn,
    windFromDegTrue: conditions.reference.windFromDegTrue[i] ?? 0,
    courseTowardDegTrue: conditions.course.courseTowardDegTrue[i] ?? 0,
  };
  if (sailedAs.handling === null) {
    return sailCourse(conditions.boat, sailedAs.sailStateId, wind).alongTrackKn;
  }
  return handle(conditions.boat, sailedAs.handling, { ...wind, sailStateId: sailedAs.sailStateId }).alongTrackKn;
}
