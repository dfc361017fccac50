/** Accept some orders and put them in a row: set-up times between neighbours, deadlines, revenue that lateness lowers. */
import type { Choice, Configs, ScheduleProblem } from '../../../../lib/schedule/index.ts';
import { plainProblem, tableOf, wholeTask } from './plain-problem.ts';

/** As published: index 0 is the start, the last index a dummy. */
export interface OrderInstance {
  readonly n: number;
  readonly r: readonly number[];
  readonly p: readonly number[];
  readonly d: readonly number[];
  readonly db: readonly number[];
  readonly e: readonly number[];
  readonly w: readonly number[];
  readonly s: readonly (readonly number[])[];
}

/** Weights have up to five decimals: points of a hundred-thousandth. */
export const POINTS_PER_UNIT = 100_000;

/** Revenue is a cost below 0 of finishing; the config is the order just made, whose set-up times follow. */
export function orderProblem(instance: OrderInstance): ScheduleProblem {
  const orders = Array.from({ length: instance.n }, (_, i) => i + 1);
  const slotCount = Math.max(...instance.db);
  const value = (list: readonly number[], index: number): number => list[index] ?? 0;
  const tasks = orders.map((order) =>
    wholeTask(
      [0, ...orders].filter((before) => before !== order).map((before) => choice(instance, slotCount, before, order)),
      {
        finishCostPoints: Int32Array.from({ length: slotCount + 1 }, (_, t) => {
          const late = Math.max(0, t - value(instance.d, order));
          return -Math.round((value(instance.e, order) - value(instance.w, order) * late) * POINTS_PER_UNIT);
        }),
      },
    ),
  );
  return plainProblem(slotCount, tasks, {
    jobs: tasks.map((_, task) => ({ tasks: [task], priorityWeight: 0, conditional: false })),
    configs: configsOf(instance.n + 1, slotCount),
  });
}

/** The set-up may not begin before the release, so an order has one choice for each order before it. */
function choice({ n, r, p, db, s }: OrderInstance, slotCount: number, before: number, order: number): Choice {
  const setUpSlots = s[before]?.[order] ?? 0;
  const earliest = (r[order] ?? 0) + setUpSlots;
  const durationSlots = p[order] ?? 0;
  return {
    unitCount: 1,
    onlyToFinish: false,
    changeSlots: Int16Array.from({ length: n + 1 }, (_, config) => (config === before ? setUpSlots : -1)),
    configAfter: order,
    configFinished: order,
    gate: null,
    table: tableOf(slotCount, 1, (t) =>
      t < earliest || t + durationSlots > (db[order] ?? 0) ? null : { durationSlots },
    ),
  };
}

export const configsOf = (count: number, slotCount: number): Configs => ({
  count,
  start: 0,
  afterWait: Int32Array.from({ length: count }, (_, config) => config),
  waitQuanta: new Int32Array(count * (slotCount + 1)),
});
