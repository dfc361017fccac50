/**
 * The body clock: local solar time less a lag.
 *
 * Each day the phase moves 30 % of the gap that is left (Ingre et al. 2014, eq. 1.10, as given by a public
 * re-implementation); sailing east at a steady 20 min of solar time a day the lag settles at 66.7 min before the daily
 * step and 46.7 min after it.
 */
import { wrap180Deg } from '../../units/index.ts';
import { MS_PER_H } from '../../time/index.ts';

const LEFT_AFTER_A_DAY_RATIO = 0.7;
const SOLAR_MIN_PER_LON_DEG = 4;

const wrap24H = (todH: number): number => ((todH % 24) + 24) % 24;

/** Hour of the body clock [0, 24). A positive lag is a body behind local solar time, as after sailing east. */
export const bodyClockH = (epochMs: number, lon: number, lagMin: number): number =>
  wrap24H(epochMs / MS_PER_H + (lon * SOLAR_MIN_PER_LON_DEG - lagMin) / 60);

/** Solar time gained [min] by going from one longitude to another the short way, east positive. */
const solarShiftMin = (fromLonDeg: number, toLonDeg: number): number =>
  wrap180Deg(toLonDeg - fromLonDeg) * SOLAR_MIN_PER_LON_DEG;

/** The lag after solar time moved by a shift and the body had some hours to follow. */
export const nextLagMin = (of: { lagMin: number; solarShiftMin: number; elapsedH: number }): number =>
  (of.lagMin + of.solarShiftMin) * LEFT_AFTER_A_DAY_RATIO ** (of.elapsedH / 24);

/**
 * Body-clock hours along a way.
 *
 * @param points in order of time; the lag follows from each to the next
 * @param startLagMin lag at the first point
 * @returns one hour in [0, 24) per point
 */
export function bodyClockAlong(points: readonly { epochMs: number; lon: number }[], startLagMin: number): Float64Array {
  const todH = new Float64Array(points.length);
  let lagMin = startLagMin;
  points.forEach((point, index) => {
    const before = points[index - 1];
    if (before !== undefined)
      lagMin = nextLagMin({
        lagMin,
        solarShiftMin: solarShiftMin(before.lon, point.lon),
        elapsedH: (point.epochMs - before.epochMs) / MS_PER_H,
      });
    todH[index] = bodyClockH(point.epochMs, point.lon, lagMin);
  });
  return todH;
}
