import type { SpeedRow } from './boat.ts';
import { USUAL_SPEEDS } from './usual-speeds.table.ts';

const GRAVITY_MPS2 = 9.806_65;
const KN_PER_MPS = 3600 / 1852;
/** Waterline of the boat the table is of. */
const TABLE_WATERLINE_M = 10;

/** Waterlines a usual speed table is made for [m]. */
export const WATERLINE_RANGE = { leastM: 4, mostM: 40, usualM: 9 } as const;

/**
 * Speed [kn] of the deep-water wave as long as the waterline: √(g·λ/2π), the dispersion relation of linear wave theory. A hull
 * that pushes its own wave hardly exceeds it.
 */
export const hullSpeedKn = (waterlineM: number): number =>
  Math.sqrt((GRAVITY_MPS2 * waterlineM) / (2 * Math.PI)) * KN_PER_MPS;

/**
 * Speed table of an ordinary loaded cruiser under full sail, as a default: boat and wind scaled alike with the square root of
 * the waterline (Froude's law of similarity); speeds to 0.05 kn, winds to 0.1 kn.
 *
 * @param waterlineM within `WATERLINE_RANGE`
 */
export function usualSpeedTable(waterlineM: number): readonly SpeedRow[] {
  const windRatio = Math.sqrt(waterlineM / TABLE_WATERLINE_M);
  const mostKn = hullSpeedKn(waterlineM);
  return USUAL_SPEEDS.rows.flatMap(({ twaDeg, hullSpeedShare }) =>
    hullSpeedShare.map((share, index) => ({
      twaDeg,
      twsKn: Math.round((USUAL_SPEEDS.twsKn[index] ?? 0) * windRatio * 10) / 10,
      // Down, so that none is above the hull speed.
      boatSpeedKn: Math.floor(share * mostKn * 20) / 20,
    })),
  );
}
