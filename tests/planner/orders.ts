/** Orders of the user for little passages. */
import type { JobOrder, PlanOrders } from '../../lib/passage/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { BASE_EPOCH_MS } from './little-world.ts';

const NO_ORDER: JobOrder = {
  notBeforeEpochMs: null,
  finishByEpochMs: null,
  lockedStartEpochMs: null,
  lockedHandlingId: null,
  isDone: false,
  doneStepIds: [],
  doneMin: 0,
  tools: [],
};

/** Instant of an hour after the base time. */
export const atHour = (hourH: number): number => BASE_EPOCH_MS + hourH * 3_600_000;

/** The passage with orders by job, and hours [from, to) in which nothing, or not this job, is worked. */
export function withOrders(
  passage: Passage,
  orders: Readonly<Record<string, Partial<JobOrder>>>,
  forbidden: readonly (readonly [fromH: number, toH: number, jobId?: string])[] = [],
): Passage {
  const jobs = new Map(Object.entries(orders).map(([id, order]) => [id, { ...NO_ORDER, ...order }]));
  const times: PlanOrders['forbidden'] = forbidden.map(([fromH, toH, jobId]) => ({
    fromEpochMs: atHour(fromH),
    toEpochMs: atHour(toH),
    jobId: jobId ?? null,
  }));
  return { ...passage, orders: { jobs, forbidden: times } };
}
