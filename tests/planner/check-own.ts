/** Plans made by hand in a little world: a boat that lies still, the plan begins at 12:00 UTC, 10:00 by the sun, wind over the deck is the forecast's. */
import type { Job } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { OwnEntry } from '../../lib/planner/own-plan-input.ts';
import type { OwnPlanCheck } from '../../lib/planner/own-plan.ts';
import { checkOwnPlan } from '../../lib/planner/own-plan.ts';
import { prepare } from '../../lib/planner/prepare.ts';
import type { LittleWeather } from './little-world.ts';
import { BASE_EPOCH_MS, littleJob, littlePassage, littleStep, littleWeather, withBoatSpeed } from './little-world.ts';

type PlanOrders = Passage['orders'];
type JobOrder = PlanOrders['jobs'] extends ReadonlyMap<string, infer Order> ? Order : never;

/** Instant of an hour after the base time. */
export const at = (hourH: number): number => BASE_EPOCH_MS + hourH * 3_600_000;
export const calm: LittleWeather = { windKn: () => 8, gustKn: () => 9, seaHeightM: () => 1 };
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

interface World {
  readonly scenarios?: readonly LittleWeather[];
  readonly orders?: Readonly<Record<string, Partial<JobOrder>>>;
  readonly forbidden?: PlanOrders['forbidden'];
  readonly change?: (passage: Passage) => Passage;
  readonly wantedProbability?: number;
}

/** Checks a plan made by hand: job and hour of each start, hours of each sleep. */
export function check(
  jobs: readonly Job[],
  entries: readonly (readonly [jobId: string, hourH: number, rest?: Partial<OwnEntry>])[],
  world: World & { sleeps?: readonly (readonly [fromH: number, toH: number])[] } = {},
): OwnPlanCheck {
  const orders = {
    jobs: new Map(Object.entries(world.orders ?? {}).map(([id, order]) => [id, { ...NO_ORDER, ...order }])),
    forbidden: world.forbidden ?? [],
  };
  const settings = { deckHeightM: 10, wantedProbability: world.wantedProbability ?? 0.8 };
  const plain = { ...withBoatSpeed(littlePassage(jobs, settings), 0), orders };
  const weather = littleWeather(world.scenarios ?? [calm], 96);
  const preparation = prepare(world.change?.(plain) ?? plain, weather, at(12));
  const reporting = { ...weather, memberIndex: Int32Array.from(weather.weights, (_, w) => w) };
  return checkOwnPlan(preparation, reporting, {
    entries: entries.map(([jobId, hourH, rest]) => ({
      jobId,
      startEpochMs: at(hourH),
      handlingId: null,
      blockIndex: null,
      ...rest,
    })),
    sleeps: (world.sleeps ?? []).map(([fromH, toH]) => ({ startEpochMs: at(fromH), endEpochMs: at(toH) })),
  });
}

/** Rules that speak against an entry, with their room. */
export const rulesOf = (checked: OwnPlanCheck, index: number): unknown[] =>
  (checked.entries[index]?.findings ?? []).map(({ rule, margin }) => [
    rule,
    margin === null ? null : Math.round(margin * 1000) / 1000,
  ]);

/** A job of one hour that nothing limits. */
export const hour = (id: string, rest: Partial<Job> = {}) => littleJob(id, [littleStep(id, 60)], rest);
