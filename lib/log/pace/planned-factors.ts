import type { Plan, PlanEntry } from '../../planner/index.ts';
import { MS_PER_MIN } from '../../time/index.ts';
import { instantOf } from '../effective.ts';
import type { WorkPiece } from './pieces.ts';

/** What of a kept plan says how much slower than at pace 1 the work was reckoned to go. */
export interface PlanWithFactors extends Pick<Plan, 'madeAtUtc'> {
  readonly entries: readonly Pick<
    PlanEntry,
    'kind' | 'jobId' | 'stepIds' | 'startUtc' | 'endUtc' | 'factors' | 'factorsTogetherRatio'
  >[];
}

/**
 * Time factors (wind and sea, cold, dark, tiredness …; own pace taken out) a piece of work was planned with: of the last
 * plan made before it ended whose work on these steps lies in the same hours, by the minutes they share.
 *
 * @returns null: no plan speaks of this work in these hours
 */
export function plannedFactorsRatio(
  piece: WorkPiece,
  of: { readonly jobId: string; readonly plans: readonly PlanWithFactors[] },
): number | null {
  const fromEpochMs = piece.startEpochMs ?? piece.endEpochMs - (piece.workedMin ?? 0) * MS_PER_MIN;
  const plans = of.plans
    .map((plan) => ({ plan, madeEpochMs: instantOf(plan.madeAtUtc) }))
    .filter(({ madeEpochMs }) => madeEpochMs <= piece.endEpochMs)
    .toSorted((a, b) => b.madeEpochMs - a.madeEpochMs);
  for (const { plan } of plans) {
    const shared = plan.entries.flatMap((entry) => {
      if (entry.kind !== 'work' || entry.jobId !== of.jobId || entry.factorsTogetherRatio === null) return [];
      if (!piece.steps.some(({ id }) => entry.stepIds.includes(id))) return [];
      const toEpochMs = Math.min(piece.endEpochMs, instantOf(entry.endUtc));
      const sharedMin = (toEpochMs - Math.max(fromEpochMs, instantOf(entry.startUtc))) / MS_PER_MIN;
      return sharedMin > 0 ? [{ sharedMin, ratio: withoutOwnPace(entry.factors, entry.factorsTogetherRatio) }] : [];
    });
    const sharedMin = shared.reduce((sumMin, part) => sumMin + part.sharedMin, 0);
    if (sharedMin > 0) return shared.reduce((sum, part) => sum + part.ratio * (part.sharedMin / sharedMin), 0);
  }
  return null;
}

const withoutOwnPace = (factors: PlanEntry['factors'], togetherRatio: number): number =>
  togetherRatio / (factors.find(({ id }) => id === 'own-pace')?.ratio ?? 1);
