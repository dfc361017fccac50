import { MS_PER_H } from '../time/index.ts';
import type { ErrorSizes } from './error-draws.ts';
import { type ScenarioSet, WEIGHT_SUM } from './scenario-set.ts';

/** What was seen on board, as it bears on a scenario set. */
export interface SeenOfSet {
  /** One per scenario, sum 1 000 000. */
  readonly weights?: Int32Array;
  /** One per scenario, positive later. */
  readonly shiftH?: Float64Array;
  /** When the shift was last seen; without it the shift holds for good, and leads of rising wind are not drawn. */
  readonly seenAtEpochMs?: number;
  /** Shift of the reference run, positive later. */
  readonly referenceShiftH?: number;
  readonly note: string;
}

/** The same scenarios with other weights or with timing seen by the boat. Throws when numbers or sums do not fit. */
export function adjustScenarioSet(set: ScenarioSet, seen: SeenOfSet): ScenarioSet {
  const weights = seen.weights ?? set.weights;
  const seenShiftH = seen.shiftH ?? set.seenShiftH;
  const sum = weights.reduce((total, weight) => total + weight, 0);
  if (weights.length !== set.scenarioCount || sum !== WEIGHT_SUM)
    throw new Error(`${weights.length} weights of sum ${sum} for ${set.scenarioCount} scenarios of ${WEIGHT_SUM}`);
  if (seenShiftH !== null && seenShiftH.length !== set.scenarioCount)
    throw new Error('one shift per scenario is needed');
  return {
    ...set,
    weights,
    seenShiftH,
    seenAtEpochMs: seen.shiftH === undefined ? set.seenAtEpochMs : (seen.seenAtEpochMs ?? null),
    referenceShiftH: seen.referenceShiftH ?? set.referenceShiftH,
    notes: [...set.notes, seen.note],
  };
}

/**
 * The same draws with every error of the model `errorRatio` times as large; the mean advance of rising wind grows with
 * the timing error. A set that takes its forecast at its word stays as it is.
 */
export function widenErrors(set: ScenarioSet, errorRatio: number): ScenarioSet {
  if (set.errors === null) return set;
  const { sizes, draws } = set.errors;
  const wider: ErrorSizes = {
    windSdKn: (leadH) => errorRatio * sizes.windSdKn(leadH),
    seaSdM: (sea) => errorRatio * sizes.seaSdM(sea),
    timingSdH: (leadH) => errorRatio * sizes.timingSdH(leadH),
    directionSdDeg: (leadH) => errorRatio * sizes.directionSdDeg(leadH),
    earlySd: sizes.earlySd,
  };
  return { ...set, errors: { draws, sizes: wider } };
}

/** One standard deviation of the timing error of a set [h] at an instant; null: it takes its forecast at its word. */
export function timingSdAtH(set: ScenarioSet, atEpochMs: number): number | null {
  return set.errors === null ? null : set.errors.sizes.timingSdH(leadOfH(set, atEpochMs));
}

/** Lead of an instant [h] from the base time; before it 0. */
export const leadOfH = ({ forecast }: Pick<ScenarioSet, 'forecast'>, atEpochMs: number): number =>
  Math.max(0, (atEpochMs - forecast.baseEpochMs) / MS_PER_H);
