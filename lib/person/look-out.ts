/**
 * How far a ship is seen, and how long one may look away until she must be met with open eyes.
 *
 * A yardstick, not a permission: COLREG Rule 5 asks for a look-out at all times, and a vessel without lights, a small
 * one, or ice is seen far later than reckoned here.
 */
import type { GatedStep } from './gates.ts';
import { LIGHT_RANGES_NM, LOOK_OUT } from './look-out.table.ts';

const HALVINGS = 50;

/** Range at which an object comes over the horizon: 2.08 (√eye + √object) [nm, m]; a height below zero throws. */
export function horizonNm({ eyeM, objectM }: { eyeM: number; objectM: number }): number {
  if (!(eyeM >= 0 && objectM >= 0)) throw new Error('heights above the water are zero or more');
  return LOOK_OUT.horizon.value * (Math.sqrt(eyeM) + Math.sqrt(objectM));
}

/**
 * Range at which a light is seen in the visibility of the hour, never further than its range in clear air.
 *
 * Illuminance at the eye falls as K^D / D². K follows from the visibility by the pair the standard gives, 0.8 and 13
 * nm: in 8 nm of visibility a light of 6 nm is seen at 4.9.
 *
 * @param lightNm range in clear air, as Rule 22 prescribes it
 * @see sources.COLREG_1972, Annex I, section 8
 */
export function lightRangeNm({ lightNm, visibilityNm }: { lightNm: number; visibilityNm: number }): number {
  const visibleNm = Math.min(lightNm, visibilityNm);
  if (!(visibleNm > 0)) return 0;
  // Light lost on the way [1/nm]; equal illuminance: 2 ln D + loss · D is the same in both airs.
  const clearLoss = -Math.log(LOOK_OUT.clearAir.value);
  const loss = (clearLoss * LOOK_OUT.clearVisibility.value) / visibilityNm;
  const wanted = 2 * Math.log(lightNm) + clearLoss * lightNm;
  const isSeen = (rangeNm: number): boolean => 2 * Math.log(rangeNm) + loss * rangeNm <= wanted;
  if (isSeen(visibleNm)) return visibleNm;
  let [seenNm, unseenNm] = [0, visibleNm];
  for (let k = 0; k < HALVINGS; k++) {
    const middleNm = (seenNm + unseenNm) / 2;
    if (isSeen(middleNm)) seenNm = middleNm;
    else unseenNm = middleNm;
  }
  return seenNm;
}

export interface Sight {
  /** Height of the eye above the water. */
  readonly eyeM: number;
  /** null: the forecast does not say; the default is taken and the answer marked. */
  readonly visibilityNm: number | null;
  readonly isDark: boolean;
}

export interface DetectionRange {
  readonly detectionNm: number;
  /** false: a default visibility stands in, and a worse one is possible. */
  readonly isVisibilityKnown: boolean;
  readonly limitedBy: 'visibility' | 'light' | 'horizon';
}

/**
 * Range at which a ship is first seen: by day her hull (8 m) over the horizon, in the dark the masthead light of a ship
 * of 50 m and more; neither in less than the visibility allows. Visibility unknown: 8 nm by day, the light's own range in the dark.
 */
export function detectionRange({ eyeM, visibilityNm, isDark }: Sight): DetectionRange {
  const isVisibilityKnown = visibilityNm !== null && !Number.isNaN(visibilityNm);
  const clearNm = isVisibilityKnown ? Math.max(0, visibilityNm) : LOOK_OUT.unknownVisibility.value;
  const lightNm = LIGHT_RANGES_NM[0].mastheadNm;
  const horizon = horizonNm({ eyeM, objectM: LOOK_OUT.shipHeight.value });
  const shipNm = isDark ? Math.min(lightNm, horizon) : horizon;
  const seenNm = isDark && isVisibilityKnown ? lightRangeNm({ lightNm, visibilityNm: clearNm }) : clearNm;
  if (seenNm < shipNm) return { detectionNm: seenNm, isVisibilityKnown, limitedBy: 'visibility' };
  return { detectionNm: shipNm, isVisibilityKnown, limitedBy: isDark && lightNm <= horizon ? 'light' : 'horizon' };
}

export interface Approach {
  readonly detectionNm: number;
  readonly closingKn: number;
  /** Distance at which one must act; absent: 1.5 nm. */
  readonly actNm?: number;
  /** From alarm to clear sight; absent: 3 min. */
  readonly wakeMin?: number;
}

/**
 * Minutes one may look away: 60 (detection − act) / closing − waking, never below zero; zero leaves no time at all.
 *
 * Infinite when nothing comes nearer; {@link lookoutInterval} has a cap. A speed or waking time that is NaN throws.
 */
export function lookoutIntervalMin({ detectionNm, closingKn, ...settings }: Approach): number {
  const spareNm = detectionNm - (settings.actNm ?? LOOK_OUT.actAt.value);
  if (!(spareNm > 0)) return 0;
  if (closingKn <= 0) return Number.POSITIVE_INFINITY;
  const intervalMin = (60 * spareNm) / closingKn - (settings.wakeMin ?? LOOK_OUT.wake.value);
  if (Number.isNaN(intervalMin)) throw new Error('speeds and minutes of a look-out are numbers');
  return Math.max(0, intervalMin);
}

export interface LookoutQuestion extends Sight, Pick<Approach, 'actNm' | 'wakeMin'> {
  readonly ownKn: number;
  /** Speed of the other ship, met head-on; absent: 20 kn. */
  readonly otherKn?: number;
  /** Cap; absent: 20 min. */
  readonly longestMin?: number;
}

export interface LookoutInterval {
  readonly intervalMin: number;
  readonly detectionNm: number;
  readonly closingKn: number;
  readonly isVisibilityKnown: boolean;
  readonly limitedBy: DetectionRange['limitedBy'] | 'cap';
}

/** Longest time without a look all round, with what sets it. */
export function lookoutInterval(question: LookoutQuestion): LookoutInterval {
  const seen = detectionRange(question);
  const closingKn = question.ownKn + (question.otherKn ?? LOOK_OUT.otherSpeed.value);
  const untilActMin = lookoutIntervalMin({ ...question, detectionNm: seen.detectionNm, closingKn });
  const longestMin = question.longestMin ?? LOOK_OUT.longestInterval.value;
  if (untilActMin <= longestMin) return { ...seen, closingKn, intervalMin: untilActMin };
  return { ...seen, closingKn, intervalMin: longestMin, limitedBy: 'cap' };
}

/** Where the work is done, and the longest time without a look. */
export interface WorkWithLooks {
  readonly place: GatedStep['place'];
  readonly intervalMin: number;
}

/**
 * How much longer work takes for the looks between: 1 + look / interval; null: they would take more than half of the
 * time, and the work leaves no room for a look-out.
 *
 * A look takes 20 s outside, at least every 10 min; from below 2.5 min, because one must climb out.
 */
export function lookoutFactorRatio({ place, intervalMin }: WorkWithLooks): number | null {
  const lookMin = leastLookoutIntervalMin(place);
  const workMin = place === 'below' ? intervalMin : Math.min(intervalMin, LOOK_OUT.longestOutside.value);
  return workMin >= lookMin ? 1 + lookMin / workMin : null;
}

/** Interval below which work there leaves no room for a look-out. */
export const leastLookoutIntervalMin = (place: GatedStep['place']): number =>
  place === 'below' ? LOOK_OUT.lookFromBelow.value : LOOK_OUT.lookOutside.value;
