import { JOB_DEFAULTS, readinessOf, STEP_DEFAULTS, type Job, type JobReadiness } from '../../../lib/jobs/index.ts';
import { LOCKER_ITEM_DEFAULTS, type LockerItem } from '../../../lib/stock/index.ts';

/** A job of one step that takes so many metres of twine, or other things. */
export function jobOf(id: string, needs: number | Job['steps'][number]['materials'], more: Partial<Job> = {}): Job {
  const materials = typeof needs === 'number' ? [{ item: 'twine', amount: needs, unit: 'm' }] : needs;
  const work = { leastMin: 30, likelyMin: 30, mostMin: 30 };
  const step = { ...STEP_DEFAULTS, id: 'work', name: 'Work', place: 'deck', work, materials } as const;
  return { ...JOB_DEFAULTS, id, name: `Do ${id}`, steps: [step], ...more };
}

export const pieces = (item: string, amount = 1) => ({ item, amount, unit: 'pieces' });

export const line = (item: string, onBoardAmount: number, more: Partial<LockerItem> = {}): LockerItem => ({
  ...LOCKER_ITEM_DEFAULTS,
  item,
  unit: 'pieces',
  onBoardAmount,
  ...more,
});

export const twine = (onBoardAmount: number, keepAmount = 0): LockerItem =>
  line('twine', onBoardAmount, { unit: 'm', keepAmount });

export const tool = (item: string, more: Partial<LockerItem> = {}): LockerItem =>
  line(item, 1, { kind: 'tool', ...more });

interface Order {
  readonly isDone?: boolean;
  readonly doneStepIds?: readonly string[];
  readonly tools?: readonly string[];
}

/** Readiness by job id. */
export function readiness(
  jobs: readonly Job[],
  items: readonly LockerItem[],
  orders: Readonly<Record<string, Order>> = {},
): ReadonlyMap<string, JobReadiness> {
  const progress = new Map(
    Object.entries(orders).map(([id, order]) => [id, { isDone: false, doneStepIds: [], tools: [], ...order }]),
  );
  return new Map(readinessOf({ jobs, locker: { items }, progress }).map((found) => [found.jobId, found]));
}

export const statuses = (found: ReadonlyMap<string, JobReadiness>): unknown =>
  Object.fromEntries([...found].map(([id, { status }]) => [id, status]));
