import type { PlanEntry } from '../../lib/planner/index.ts';
import type { PassageView } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { timesText } from './watch-amounts.ts';
import { lowerFirst, upperFirst } from './word-lines.ts';

/** Why one piece of work takes longer than its time at pace 1. */
export interface LongerWork {
  readonly key: string;
  readonly what: string;
  /** `Fri 07:30` */
  readonly when: string;
  /** `× 1.32 together (cold hands 1.12, gloves 1.15 …)` */
  readonly together: string;
  readonly product: string;
  readonly factors: readonly FactorRow[];
}

export interface FactorRow {
  readonly id: string;
  readonly name: string;
  readonly times: string;
  readonly from: string;
  readonly basis: string;
}

/** Work with time factors, in order of time. */
export const longerWork = ({ plan }: PassageView, times: TimeTexts): LongerWork[] =>
  plan.entries
    .filter(({ kind, factors }) => kind === 'work' && factors.length > 0)
    .toSorted((a, b) => epochOf(a.startUtc) - epochOf(b.startUtc))
    .map((entry) => ({
      key: `${entry.startUtc} ${entry.jobId ?? ''}`,
      what: plan.jobs.find(({ jobId }) => jobId === entry.jobId)?.name ?? 'Work',
      when: times.dayTime(epochOf(entry.startUtc)),
      together: togetherText(entry),
      product: productText(entry),
      factors: entry.factors.map(({ id, name, ratio, text, basis }) => ({
        id,
        name: upperFirst(name),
        times: timesText(ratio),
        from: text,
        basis,
      })),
    }));

const NAMED_FACTORS = 2;

/** The factors that change most are named; the others stand in the list. */
function togetherText({ factors, factorsTogetherRatio }: PlanEntry): string {
  const named = factors.toSorted((a, b) => Math.abs(b.ratio - 1) - Math.abs(a.ratio - 1)).slice(0, NAMED_FACTORS);
  const names = named.map(({ name, ratio }) => `${lowerFirst(name)} ${timesText(ratio).slice(2)}`).join(', ');
  const rest = factors.length > NAMED_FACTORS ? ' …' : '';
  const together = factorsTogetherRatio === null ? 'unknown together' : `${timesText(factorsTogetherRatio)} together`;
  return `${together} (${names}${rest})`;
}

const productText = ({ factorsTogetherRatio }: PlanEntry): string =>
  factorsTogetherRatio === null
    ? 'All together: unknown.'
    : `All together ${timesText(factorsTogetherRatio)}: what takes an hour at pace 1 takes ${Math.round(factorsTogetherRatio * 60)} min. Each factor is a mean over the steps.`;
