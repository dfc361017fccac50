import { itemKey, needleCount, twineM, type MaterialShort } from '../../stock/index.ts';
import type { Job, JobSeam } from '../job.ts';
import { SUBSTITUTES, type Substitute } from './substitutes.table.ts';

/** A way to do without what is missing. */
export interface Offer {
  readonly id: string;
  readonly instead: string;
  readonly because: string;
  readonly provenance: string;
  /** What it saves of the item; null: all of it, or it cannot be worked out. */
  readonly saves: { readonly amount: number; readonly unit: string } | null;
  /** Whether that is enough; null: not known. */
  readonly isEnough: boolean | null;
}

/** What a job may do without a tool. */
export const offersForTool = (tool: string, job: Job): Offer[] =>
  substitutesFor(tool, job)
    .filter(({ saves }) => saves === null)
    .map((substitute) => offerOf(substitute, null));

/** What a job may do without some of a material; what can be worked out with its saving. */
export const offersForMaterial = (short: MaterialShort, job: Job): Offer[] =>
  substitutesFor(short.item, job).flatMap((substitute) => {
    if (substitute.saves === null) return [offerOf(substitute, null)];
    const savedAmount = job.seam === null ? 0 : savedByARow(job.seam, short.item);
    if (savedAmount <= 0) return [];
    const isEnough = savedAmount >= short.shortAmount;
    return [offerOf(substitute, { saves: { amount: savedAmount, unit: short.unit }, isEnough })];
  });

const substitutesFor = (item: string, job: Job): Substitute[] =>
  SUBSTITUTES.filter(
    ({ insteadOf, jobs, groups }) =>
      insteadOf.some((name) => itemKey(name) === itemKey(item)) &&
      (jobs.length === 0 || jobs.includes(job.from ?? job.id)) &&
      (groups.length === 0 || groups.includes(job.group)),
  );

const offerOf = (
  { id, instead, because, provenance }: Substitute,
  figures: Pick<Offer, 'saves' | 'isEnough'> | null,
): Offer => ({ id, instead, because, provenance, saves: null, isEnough: null, ...figures });

/** What one row less takes less; 0 where there is only one. */
function savedByARow(seam: JobSeam, item: string): number {
  if (seam.rowCount < 2) return 0;
  const less = { ...seam, rowCount: seam.rowCount - 1 };
  return itemKey(item) === 'needles' ? needleCount(seam) - needleCount(less) : twineM(seam) - twineM(less);
}
