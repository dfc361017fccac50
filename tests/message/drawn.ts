/** Messages and plans drawn for properties. */
import fc from 'fast-check';
import type { Plan, PlannedJob } from '../../lib/planner/index.ts';

/** Draws repeat: fixed seed. */
export const RUNS = { seed: 7, numRuns: 200 } as const;

const MINUTE_MS = 60_000;
const minutes = (from: number, to: number): fc.Arbitrary<number> =>
  fc.integer({ min: from / MINUTE_MS, max: to / MINUTE_MS }).map((value) => value * MINUTE_MS);

/** Instants at which months, years and leap years turn, and any other. */
export const drawnBase: fc.Arbitrary<number> = fc.oneof(
  minutes(Date.UTC(2000, 3, 1), Date.UTC(2098, 0, 1)),
  fc
    .record({
      year: fc.integer({ min: 2001, max: 2097 }),
      month: fc.integer({ min: 0, max: 11 }),
      min: fc.integer({ min: -2000, max: 2000 }),
    })
    .map(({ year, month, min }) => Date.UTC(year, month, 1) + min * MINUTE_MS),
  minutes(Date.UTC(2028, 1, 27), Date.UTC(2028, 2, 2)),
);

const utc = (epochMs: number): string => new Date(epochMs).toISOString();

/** Instants near a plan, and a few far off. */
const near = (base: number): fc.Arbitrary<string> =>
  fc
    .oneof(
      { weight: 8, arbitrary: fc.integer({ min: -1440, max: 14_400 }) },
      { weight: 1, arbitrary: fc.integer({ min: -40_000, max: 40_000 }) },
    )
    // Seconds, which are rounded away once.
    .chain((min) => fc.integer({ min: 0, max: 59 }).map((second) => utc(base + min * MINUTE_MS + second * 1000)));

const id = fc.oneof(
  fc.constantFrom('drop', 'stitch', 'run-off', 'hold-course', 'Job_2', 'sl', 'm-1', '1', 'Ä/b,c;#'),
  fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9_-]{0,20}$/),
);
const probability = fc.double({ min: 0, max: 1, noNaN: true });
const maybe = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(of, { nil: null });
const amount = fc.double({ min: -50, max: 500, noNaN: true });
const LIMITS = ['deck-wind', 'deck-gust', 'sea-height', 'steepness', 'daylight', 'air-temperature', 'unheard-of'];

const binding = (base: number): fc.Arbitrary<NonNullable<PlannedJob['bindingLimit']>> =>
  fc.record({
    limit: fc.constantFrom(...LIMITS),
    observed: amount,
    required: amount,
    unit: fc.constant('kn'),
    margin: amount,
    atUtc: near(base),
  });

const drawnJob = (base: number): fc.Arbitrary<PlannedJob> =>
  fc.record({
    jobId: id,
    name: fc.string(),
    status: fc.constantFrom('planned' as const, 'conditional' as const, 'unplanned' as const, 'done' as const),
    startUtc: maybe(near(base)),
    endUtc: maybe(near(base)),
    handling: maybe(id),
    startBetween: maybe(fc.record({ firstUtc: near(base), lastUtc: near(base) })),
    probability: maybe(probability),
    marginSd: maybe(amount),
    bindingLimit: maybe(binding(base)),
    unknownLimits: fc.array(fc.constantFrom(...LIMITS), { maxLength: 3 }),
    standardCriterion: fc.constant(null),
    why: fc.constant(null),
    whyNotEarlier: fc.constant(null),
    sleepFirst: fc.constant(null),
    notEarlier: fc.constant([]),
    doneInsideLimitsProbability: maybe(probability),
    coreInterruptedProbability: maybe(probability),
    fallback: maybe(fc.record({ startUtc: near(base), lastStartUtc: near(base), probability, handling: id })),
    decideByUtc: maybe(near(base)),
    fallbackPlan: fc.constant(null),
    goCheck: fc.constant([]),
    startCheck: fc.constant(null),
    nearestMiss: maybe(
      fc.record({
        reason: fc.constantFrom('weather', 'light', 'alertness', 'materials', 'joint', 'strange'),
        startUtc: maybe(near(base)),
        handling: maybe(id),
        probability: maybe(probability),
        bindingLimit: maybe(binding(base)),
        text: fc.string(),
        wouldHelp: fc.string(),
      }),
    ),
    wouldBuy: fc.constant([]),
  });

const drawnEntry = (base: number, jobIds: readonly string[]): fc.Arbitrary<Plan['entries'][number]> =>
  fc.record({
    startUtc: near(base),
    endUtc: near(base),
    kind: fc.constantFrom('work' as const, 'sleep' as const, 'lookout' as const, 'wait' as const),
    jobId: fc.constantFrom(null, ...jobIds),
    stepIds: fc.constant([]),
    handling: maybe(id),
    sailState: id,
    place: fc.constant(null),
    lat: fc.constant(-35),
    lon: fc.constant(178),
    deckWindKn: fc.constant(null),
    light: fc.constant('day' as const),
    kssStart: fc.constant(3),
    kssEnd: fc.constant(3),
    settleMin: fc.constant(0),
    factors: fc.constant([]),
    factorsTogetherRatio: fc.constant(null),
    restAfterMin: fc.constant(0),
  });

/** Any plan of up to 40 jobs; ends may lie before beginnings, for the message must carry what it is given. */
export const drawnPlan: fc.Arbitrary<Plan> = drawnBase.chain((base) =>
  fc.array(drawnJob(base), { maxLength: 40, size: 'max' }).chain((jobs) =>
    fc.record({
      planNumber: maybe(fc.nat({ max: 999_999 })),
      seed: fc.constant(1),
      madeAtUtc: fc.constant(utc(base)),
      passageName: fc.string(),
      forecast: fc.record({
        baseTimeUtc: near(base),
        ageH: fc.constant(6),
        members: fc.constant(20),
        missing: fc.constant([]),
        endUtc: near(base),
      }),
      entries: fc.array(
        drawnEntry(
          base,
          jobs.map(({ jobId }) => jobId),
        ),
        { maxLength: 60, size: 'max' },
      ),
      jobs: fc.constant(jobs),
      totals: fc.record({
        allDoneProbability: maybe(probability),
        allDoneProbabilitySd: maybe(probability),
        deckH: amount,
        lostNm: amount,
        sleepHPer24H: amount,
        unwatchedMin: fc.integer({ min: 0, max: 20_000 }),
        expectedJobsDone: maybe(amount),
      }),
      waiting: maybe(
        fc.record({
          untilUtc: near(base),
          plannedJobIds: fc.constant([]),
          allDoneProbability: maybe(probability),
          allDoneProbabilityNow: probability,
          text: fc.string(),
        }),
      ),
      standing: maybe(fc.record({ kept: fc.boolean(), text: fc.string(), overdue: fc.constant([]) })),
      firstFair: fc.constant(null),
      solver: fc.constant({ optimal: true, gap: null, costGapShare: null, labels: 1 }),
      watch: fc.constant({
        gates: {
          hardLeastAlertnessPoints: 9,
          deckLeastAlertnessPoints: 8,
          anyLeastAlertnessPoints: 7,
          hardMostLapses: 5,
          deckMostLapses: 7,
        },
        hours: [],
        sleeps: [],
        lowHours: [],
        days: [],
        priorSleep: [],
        restRules: [],
        notes: [],
      }),
      cautions: fc.constant([]),
    }),
  ),
);

export const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+-/.,:!()?;#';

/** Bodies of any characters a body may hold. */
export const drawnBody = (maxLength: number): fc.Arbitrary<string> =>
  fc
    .array(fc.constantFrom(...Array.from(ALPHABET.slice(0, -2))), { maxLength, size: 'max' })
    .map((characters) => characters.join(''));

export const drawnEnvelope = fc.record({
  kind: fc.constantFrom('plan' as const, 'digest' as const, 'report' as const),
  sender: fc.stringMatching(/^[A-Z0-9]{1,4}$/),
  counterNumber: fc.integer({ min: 1, max: 999_999 }),
  baseEpochMs: drawnBase,
  body: drawnBody(600),
});
