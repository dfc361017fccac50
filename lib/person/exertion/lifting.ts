/** The revised lifting equation: what two hands may lift in a posture. Firm footing is taken as given: on deck it is not. */
import {
  GRIP_RATIOS,
  LIFT_FREQUENCY_HIGH,
  LIFT_FREQUENCY_LOW,
  LIFTING,
  type Grip,
  type LiftingSpell,
} from './lifting.table.ts';
import { requireFinite, requireNotNegative, requireRatio } from '../valid-range.ts';

/** One lift, as the handbook measures it. */
export interface Lift {
  /** Hands in front of the ankles (H). */
  readonly reachM: number;
  /** Hands above the floor where the lift begins (V). */
  readonly heightM: number;
  /** Way up or down (D). */
  readonly wayM: number;
  /** Turn of the body out of the plane ahead (A), either way. */
  readonly twistDeg: number;
  /** How often (FM), 0 … 1: `liftFrequencyRatio`. */
  readonly frequencyRatio: number;
  /** How gripped (CM), 0 … 1: `gripRatio`. */
  readonly gripRatio: number;
}

/**
 * Recommended weight limit [kg], 0 … 23: 23 (0.25/H) (1 − 0.3 |V − 0.75|) (0.82 + 0.045/D) (1 − 0.0032 A) FM CM, in metres
 * and degrees. H and D count as 0.25 m at least. 0, nothing to be lifted by hand: H above 0.63 m, V above 1.75 m, D above
 * 1.75 m, A above 135°.
 *
 * An optimistic bound at sea: it knows two hands, a firm floor and a load that keeps still.
 *
 * @param lift lengths of 0 or more, ratios of 0 … 1; throws outside
 * @see sources.NIOSH_94_110
 */
export function liftLimitKg(lift: Lift): number {
  const { reachM, heightM, wayM, frequencyRatio, gripRatio: grip } = lift;
  requireNotNegative({ reachM, heightM, wayM });
  requireFinite({ twistDeg: lift.twistDeg });
  requireRatio({ frequencyRatio, grip });
  const twistDeg = Math.abs(lift.twistDeg);
  if (isBeyond({ reachM, heightM, wayM, twistDeg })) return 0;
  const least = LIFTING.least.value;
  const reachRatio = least / Math.max(least, reachM);
  const heightRatio = 1 - LIFTING.heightSlope.value * Math.abs(heightM - LIFTING.bestHeight.value);
  const wayRatio = LIFTING.wayConstant.value + LIFTING.wayInverse.value / Math.max(least, wayM);
  const twistRatio = 1 - LIFTING.twistSlope.value * twistDeg;
  return LIFTING.load.value * reachRatio * heightRatio * wayRatio * twistRatio * frequencyRatio * grip;
}

const isBeyond = (of: Pick<Lift, 'reachM' | 'heightM' | 'wayM' | 'twistDeg'>): boolean =>
  of.reachM > LIFTING.farthest.value ||
  of.heightM > LIFTING.highest.value ||
  of.wayM > LIFTING.longestWay.value ||
  of.twistDeg > LIFTING.mostTwist.value;

/**
 * Lifting index: load over limit. Above 1 the risk is raised, from 3 on high. null when the limit is 0: no load is to be
 * lifted so.
 *
 * @param of load and limit [kg, 0 or more]; throws outside
 * @see sources.NIOSH_94_110
 */
export function liftingIndexRatio({ loadKg, limitKg }: { loadKg: number; limitKg: number }): number | null {
  requireNotNegative({ loadKg, limitKg });
  return limitKg === 0 ? null : loadKg / limitKg;
}

/** What a lifting index means: `within` up to 1, `raised` below 3, `high` from 3 on and where nothing may be lifted. */
export function liftingRisk(indexRatio: number | null): 'within' | 'raised' | 'high' {
  if (indexRatio === null) return 'high';
  requireNotNegative({ indexRatio });
  if (indexRatio <= 1) return 'within';
  return indexRatio < LIFTING.hazardousIndex.value ? 'raised' : 'high';
}

/**
 * Frequency multiplier, 0 … 1. Between rows of the table the more frequent one counts; above its end 0.
 *
 * @param of lifts a minute, hands above the floor [m], both 0 or more; throws outside
 * @see sources.NIOSH_94_110, table 5
 */
export function liftFrequencyRatio(of: { liftsPerMin: number; heightM: number; spell: LiftingSpell }): number {
  requireNotNegative({ liftsPerMin: of.liftsPerMin, heightM: of.heightM });
  const rows = of.heightM < LIFTING.bestHeight.value ? LIFT_FREQUENCY_LOW : LIFT_FREQUENCY_HIGH;
  return rows.find(({ mostPerMin }) => of.liftsPerMin <= mostPerMin)?.ratio[of.spell] ?? 0;
}

/**
 * Coupling multiplier, 0.9 … 1.
 *
 * @param of hands above the floor where the lift begins [m, 0 or more]; throws outside
 * @see sources.NIOSH_94_110, table 7
 */
export function gripRatio({ grip, heightM }: { grip: Grip; heightM: number }): number {
  requireNotNegative({ heightM });
  const { lowRatio, highRatio } = GRIP_RATIOS[grip];
  return heightM < LIFTING.bestHeight.value ? lowRatio : highRatio;
}
