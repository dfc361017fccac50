import { greatCircle, type Position } from '../geo/index.ts';
import { radFromDeg } from '../units/index.ts';
import { placeOnLeg, type MeasuredLeg, type MeasuredTrack } from './measured-track.ts';

/** Distance between the first looks along a leg [nm]; a leg bends little within it. */
const LOOK_NM = 60;

/** The search stops when the place is known to this [nm]: 2 m. */
const EXACT_NM = 0.001;

/** Golden section: each step keeps this share of the span. */
const GOLDEN_RATIO = (Math.sqrt(5) - 1) / 2;

/**
 * Place on the track nearest to a position.
 *
 * @returns `alongNm` from the start; `offNm` great-circle distance from it, positive to starboard of the track's
 *   course. Of equally near places the first along the track.
 */
export function nearestOnTrack(measured: MeasuredTrack, position: Position): { alongNm: number; offNm: number } {
  let best = { alongNm: 0, distanceNm: Infinity, leg: measured.legs[0] };
  for (const leg of measured.legs) {
    const { onLegNm, distanceNm } = nearestOnLeg(leg, position);
    if (distanceNm < best.distanceNm - 1e-9) best = { alongNm: leg.startNm + onLegNm, distanceNm, leg };
  }
  if (best.leg === undefined) throw new Error('a track has at least one leg');
  const foot = placeOnLeg(best.leg, best.alongNm - best.leg.startNm);
  const bearingDegTrue = greatCircle(foot.position, position).courseTowardDegTrue;
  const isStarboard = Math.sin(radFromDeg(bearingDegTrue - foot.courseTowardDegTrue)) >= 0;
  return { alongNm: best.alongNm, offNm: isStarboard ? best.distanceNm : -best.distanceNm };
}

function nearestOnLeg(leg: MeasuredLeg, position: Position): { onLegNm: number; distanceNm: number } {
  const distanceAtNm = (onLegNm: number): number => greatCircle(placeOnLeg(leg, onLegNm).position, position).distanceNm;
  const stepCount = Math.max(1, Math.ceil(leg.lengthNm / LOOK_NM));
  const stepNm = leg.lengthNm / stepCount;
  let nearestIndex = 0;
  let nearestNm = Infinity;
  for (let i = 0; i <= stepCount; i++) {
    const distanceNm = distanceAtNm(i * stepNm);
    if (distanceNm < nearestNm) [nearestIndex, nearestNm] = [i, distanceNm];
  }
  const span = { fromNm: Math.max(0, nearestIndex - 1) * stepNm, toNm: Math.min(stepCount, nearestIndex + 1) * stepNm };
  const onLegNm = leastWithin(span, distanceAtNm);
  const distanceNm = distanceAtNm(onLegNm);
  // The end of a leg is met exactly where nothing nearer lies within it.
  return distanceNm < nearestNm ? { onLegNm, distanceNm } : { onLegNm: nearestIndex * stepNm, distanceNm: nearestNm };
}

/** Where a function with one valley is least, by golden section. */
function leastWithin(
  span: { readonly fromNm: number; readonly toNm: number },
  atNm: (onLegNm: number) => number,
): number {
  let [lowNm, highNm] = [span.fromNm, span.toNm];
  let [leftNm, rightNm] = [highNm - GOLDEN_RATIO * (highNm - lowNm), lowNm + GOLDEN_RATIO * (highNm - lowNm)];
  let [left, right] = [atNm(leftNm), atNm(rightNm)];
  while (highNm - lowNm > EXACT_NM) {
    if (left <= right) {
      [highNm, rightNm, right] = [rightNm, leftNm, left];
      leftNm = highNm - GOLDEN_RATIO * (highNm - lowNm);
      left = atNm(leftNm);
    } else {
      [lowNm, leftNm, left] = [leftNm, rightNm, right];
      rightNm = lowNm + GOLDEN_RATIO * (highNm - lowNm);
      right = atNm(rightNm);
    }
  }
  return (lowNm + highNm) / 2;
}
