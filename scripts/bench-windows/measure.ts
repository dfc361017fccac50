/** The window table of one job, timed: at lag 0 and for all lags, beside a plain evaluation. */
import { performance } from 'node:perf_hooks';
import type { Handling } from '../../lib/boat/index.ts';
import { DEFAULT_HANDLINGS } from '../../lib/boat/index.ts';
import { blocksOf } from '../../lib/jobs/index.ts';
import { DEFAULT_TIME_FACTORS } from '../../lib/person/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import { conditionsAlong, deckWindUnder } from '../../lib/voyage/index.ts';
import type { BlockWork, TableSettings } from '../../lib/windows/index.ts';
import { findWindows, scenarioMedians, sparseTable, wholeBlockMin } from '../../lib/windows/index.ts';
import { BASE_EPOCH_MS, BENCH_BOAT, BENCH_JOB, benchCourse, benchWeather } from './bench-world.ts';
import { plainTable } from './plain-table.ts';

const LAG_STEP_NM = 8;
const ROUND_COUNT = 20;

export interface BenchSize {
  readonly scenarioCount: number;
  readonly horizonH: number;
  readonly lagCount: number;
}

/** Milliseconds of one size, by what is measured. */
export type BenchRow = Readonly<Record<string, number>>;

const handling = DEFAULT_HANDLINGS.find(({ id }) => id === BENCH_JOB.handlings[0]);
const [block] = blocksOf(BENCH_JOB);
if (handling === undefined || block === undefined) throw new Error('the bench has no work');
/** Steps of the work that is timed. */
export const BENCH_STEP_COUNT = block.steps.length;

const work: BlockWork = {
  block,
  handling,
  sailStateId: 'full-main',
  workMin: wholeBlockMin(block),
  resumeMin: 0,
  tiredRatio: 1,
};

const LOOKOUT = { eyeHeightM: 2.5, otherShipKn: 20, longestMin: 20 };

const settingsFor = (scenarioCount: number): TableSettings => ({
  weights: new Int32Array(scenarioCount).fill(Math.floor(1_000_000 / scenarioCount)),
  baseEpochMs: BASE_EPOCH_MS,
  limitRatio: 0.94,
  contingencyShare: 0.5,
  contingencyLeastMin: 30,
  steadyingWindRule: true,
  ownPaceRatioOf: () => 1,
  gloves: 'none',
  timeFactors: DEFAULT_TIME_FACTORS,
  lookout: LOOKOUT,
});

/** Conditions nobody has asked anything of yet, one for each lag. */
function freshConditions(size: BenchSize, slotMin: number): Conditions[] {
  return Array.from({ length: size.lagCount }, (_, lag) =>
    conditionsAlong({
      course: benchCourse(slotMin, size.horizonH, lag * LAG_STEP_NM),
      boat: BENCH_BOAT,
      deckHeightM: 2,
      sampleScenarios: (points) => benchWeather(size.scenarioCount, points),
      sampleReference: (points) => benchWeather(1, points),
    }),
  );
}

/** What every job at this lag under a handling needs. */
function prepareShared(conditions: Conditions, under: Handling = work.handling): void {
  const { meanKn } = deckWindUnder(conditions, under, work.sailStateId);
  for (const values of [meanKn, conditions.weather.seaHeightM, conditions.weather.windKn])
    scenarioMedians(values, conditions.weather);
}

function timed(run: () => void): number {
  const fromMs = performance.now();
  run();
  return performance.now() - fromMs;
}

/** Conditions under a new name have no scans yet, but share what hangs on their weather. */
const asNew = (conditions: Conditions): Conditions => ({ ...conditions });

/** The best of each lag over the rounds. */
function bestByLag(rounds: readonly (readonly number[])[]): number[] {
  const [first = []] = rounds;
  return first.map((_, lag) => Math.min(...rounds.map((round) => round[lag] ?? Infinity)));
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

function oneRound(size: BenchSize, slotMin: number, settings: TableSettings) {
  const lags = freshConditions(size, slotMin);
  const table = (conditions: Conditions): number => timed(() => sparseTable(work, conditions, settings).whole());
  const shared = lags.map((conditions) => timed(() => prepareShared(conditions)));
  const firstJob = lags.map((conditions) => table(asNew(conditions)));
  const nextJob = lags.map((conditions) => table(asNew(conditions)));
  const atLagZero = lags.slice(0, 1).map(asNew);
  for (const under of DEFAULT_HANDLINGS.filter(({ id }) => BENCH_JOB.handlings.includes(id)))
    for (const conditions of atLagZero) prepareShared(conditions, under);
  const search = { handlings: DEFAULT_HANDLINGS, sailStateId: work.sailStateId, settings };
  const listing = atLagZero.map((conditions) =>
    timed(() => findWindows(BENCH_JOB, { ...search, conditions, wantedProbability: 0.8, fromSlot: 0 })),
  );
  return { shared, firstJob, nextJob, listing };
}

export function measureWindows(size: BenchSize, slotMin: number): BenchRow {
  const settings = settingsFor(size.scenarioCount);
  const rounds = Array.from({ length: ROUND_COUNT }, () => oneRound(size, slotMin, settings));
  const best = (key: keyof (typeof rounds)[number]): number[] => bestByLag(rounds.map((round) => round[key]));
  const [plainAt] = freshConditions({ ...size, lagCount: 1 }, slotMin);
  if (plainAt === undefined) throw new Error('the bench needs a lag');
  prepareShared(plainAt);
  const plainMs = timed(() => plainTable(work, plainAt, settings));
  const [nextJobMs = Number.NaN] = best('nextJob');
  return {
    slotMin,
    sharedMs: sumOf(best('shared')) / size.lagCount,
    firstJobMs: best('firstJob')[0] ?? Number.NaN,
    firstJobAllLagsMs: sumOf(best('firstJob')),
    nextJobMs,
    nextJobAllLagsMs: sumOf(best('nextJob')),
    listingMs: sumOf(best('listing')),
    plainMs,
    timesFaster: plainMs / nextJobMs,
  };
}

/** What the benchmark of everything asks: ours and the plain evaluation in turn, at lag 0 [ms]. */
export interface WindowRound {
  readonly firstJobMs: number;
  readonly nextJobMs: number;
  readonly listingMs: number;
  readonly plainMs: number;
}

/** Ours is short: the best of so many tries counts for a round. */
const TRIES_PER_ROUND = 5;

export function windowRounds(size: BenchSize, slotMin: number, roundCount: number): readonly WindowRound[] {
  const settings = settingsFor(size.scenarioCount);
  const [plainAt] = freshConditions({ ...size, lagCount: 1 }, slotMin);
  if (plainAt === undefined) throw new Error('the bench needs a lag');
  prepareShared(plainAt);
  return Array.from({ length: roundCount }, () => {
    const tries = Array.from({ length: TRIES_PER_ROUND }, () => oneRound({ ...size, lagCount: 1 }, slotMin, settings));
    const best = (key: 'firstJob' | 'nextJob' | 'listing'): number => sumOf(bestByLag(tries.map((one) => one[key])));
    return {
      firstJobMs: best('firstJob'),
      nextJobMs: best('nextJob'),
      listingMs: best('listing'),
      plainMs: timed(() => plainTable(work, plainAt, settings)),
    };
  });
}
