/** The shape of the published JSON of `slatch plan` and `slatch windows`; the types it must agree with are checked here. */
import { z } from 'zod';
import type { GateRule } from '../person/index.ts';
import type { Plan } from '../planner/index.ts';
import { PLAIN_RULES } from '../reasons/index.ts';
import { FACTOR_IDS, LIMIT_IDS } from '../windows/index.ts';
import type { PublishedWindows } from './windows-json.ts';

const utc = z
  .string()
  .refine((text) => !Number.isNaN(Date.parse(text)), 'an instant such as 2026-05-28T18:40Z')
  .describe('instant, ISO 8601 UTC to the minute, such as 2026-05-28T18:40Z');
const probability = z.number().min(0).max(1).describe('share of scenario weight, 0 to 1');
const limitId = z.enum(LIMIT_IDS);
const lines = z.array(z.string());
const GATE_RULES = [
  'alertness',
  'low-hours',
  'awake',
  'inertia',
  'sleep-24h',
  'sleep-48h',
  'awake-beyond-sleep',
  'lapses',
] as const satisfies readonly GateRule[];
const RULE_IDS = [...LIMIT_IDS, ...GATE_RULES, ...PLAIN_RULES] as const;
const id = z.string().describe('id in the passage file');

const bindingLimit = z.strictObject({
  limit: limitId,
  observed: z.number().describe('median over the scenarios at the worst moment, in `unit`'),
  required: z.number().describe('no-go level, in `unit`'),
  unit: z.enum(['kn', 'm', 'ratio', 'light', 'mm/h', '°C', 'yes/no', 'nm']),
  margin: z.number().describe('room on the safe side, in `unit`; negative: beyond the limit'),
  atUtc: utc,
});

const nearestMiss = z.strictObject({
  reason: z.enum([
    'weather',
    'light',
    'alertness',
    'materials',
    'precedence',
    'sail-state',
    'horizon',
    'joint',
    'slowed',
    'orders',
  ]),
  startUtc: utc.nullable(),
  handling: id.nullable(),
  probability: probability.nullable(),
  bindingLimit: bindingLimit.nullable(),
  text: z.string().describe('a sentence with the amount'),
  wouldHelp: z.string().describe('what would buy it'),
});

export const publishedFinding = z
  .strictObject({
    rule: z.enum(RULE_IDS).describe('a limit, a gate of the person, or a rule of order and time'),
    jobId: z.string(),
    observed: z.number().nullable().describe('what is, in `unit`; null: not known'),
    required: z.number(),
    unit: z.string(),
    margin: z.number().nullable().describe('room on the safe side, in `unit`; negative: short by so much'),
    atUtc: utc.nullable(),
    scenarioShare: probability.nullable().describe('share of scenario weight that breaks it'),
    names: z.array(z.string()),
  })
  .describe('what one rule found, with the amount');

const fallbackPlan = z.strictObject({
  decideByUtc: utc,
  allDoneProbability: probability.nullable().describe('on the scenarios searched'),
  entries: z.array(z.strictObject({ jobId: id, startUtc: utc, handling: id })),
  leavesOutJobIds: z.array(id),
  text: z.string(),
});

const checkNumbers = z.strictObject({
  instrumentWindKn: z.number().nullable(),
  deckWindKn: z.number().nullable(),
  instrumentGustKn: z.number().nullable(),
  deckGustKn: z.number().nullable(),
  seaM: z.number().nullable(),
  trueWindKn: z.number().nullable().describe('at 10 m; asked where the handling holds a course'),
});

const startCheck = z
  .strictObject({
    start: checkNumbers.describe('start at or below them: 0.8 of the strictest limit of all steps and of the handling'),
    stop: checkNumbers.describe('stop at them: the strictest limit itself'),
    expected: checkNumbers.describe('medians of the reporting scenarios at the planned start'),
    passProbability: probability.nullable().describe('every known number at or below its start number'),
    passesFromUtc: utc
      .nullable()
      .describe('first fair start, from the planned one on, at which every median is at or below; null: none'),
  })
  .describe('figures of the go check, null where nothing is asked or known');

const plannedJob = z.strictObject({
  jobId: id,
  name: z.string(),
  status: z.enum(['planned', 'conditional', 'unplanned', 'done']),
  startUtc: utc.nullable(),
  endUtc: utc.nullable(),
  handling: id.nullable(),
  startBetween: z
    .strictObject({ firstUtc: utc, lastUtc: utc })
    .nullable()
    .describe('fair start times of the first block, around the planned one'),
  probability: probability.nullable(),
  marginSd: z.number().nullable().describe('least room, in standard deviations of the forecast error'),
  bindingLimit: bindingLimit.nullable(),
  unknownLimits: z.array(limitId),
  standardCriterion: z
    .strictObject({ alphaRatio: z.number().min(0).max(1), met: z.boolean(), text: z.string() })
    .nullable()
    .describe('α-factor method of marine operations, a cross-check'),
  why: z.string().nullable(),
  whyNotEarlier: z.string().nullable(),
  sleepFirst: z
    .strictObject({ weatherFromUtc: utc, findings: z.array(publishedFinding), sleepH: z.number(), text: z.string() })
    .nullable()
    .describe('the earliest start at which the weather would have done, and the watchkeeper would not'),
  notEarlier: z
    .array(z.strictObject({ firstStartUtc: utc, lastStartUtc: utc, finding: publishedFinding.nullable() }))
    .describe('earlier starts in stretches, the latest first, each with what decides against it'),
  doneInsideLimitsProbability: probability
    .nullable()
    .describe('done inside its limits when steps take as long as they take'),
  coreInterruptedProbability: probability.nullable().describe('an unbroken piece of it is caught by a broken limit'),
  fallback: z
    .strictObject({ startUtc: utc, lastStartUtc: utc, probability, handling: id })
    .nullable()
    .describe('next span of fair starts after the planned one'),
  decideByUtc: utc.nullable(),
  fallbackPlan: fallbackPlan.nullable().describe('what is left when its window passes unused'),
  goCheck: lines.describe('what to look at just before starting'),
  startCheck: startCheck.nullable(),
  nearestMiss: nearestMiss.nullable(),
  wouldBuy: z
    .array(z.strictObject({ text: z.string(), startUtc: utc, lastStartUtc: utc, handling: id, probability }))
    .describe('what would open a window for it, each searched anew'),
});

const entryFactor = z.strictObject({
  id: z.enum(['weather', ...FACTOR_IDS]),
  name: z.string(),
  ratio: z.number().positive(),
  basis: z.enum(['published', 'common practice', 'our choice', 'your own']),
  text: z.string().describe('the figures it was made from'),
});

const watch = z.strictObject({
  gates: z
    .strictObject({
      hardLeastAlertnessPoints: z.number(),
      deckLeastAlertnessPoints: z.number(),
      anyLeastAlertnessPoints: z.number(),
      hardMostLapses: z.number(),
      deckMostLapses: z.number(),
    })
    .describe('the lines that bar work: heavy, aloft and overside; other deck work; any work'),
  hours: z.array(
    z.strictObject({
      timeUtc: utc,
      bodyClockH: z.number().min(0).max(24),
      asleep: z.boolean(),
      alertness: z.number().describe('S + C + U of the three-process model'),
      kss: z.number().describe('mean sleepiness, model 5c'),
      kssP90: z.number().describe('nine in ten stay below it'),
      lapses: z.number().describe('unified model of performance; below zero: well rested'),
    }),
  ),
  sleeps: z.array(
    z.strictObject({
      startUtc: utc,
      endUtc: utc,
      lengthMin: z.number().positive(),
      beyondLookoutMin: z.number().nonnegative().describe('minutes beyond the look-out interval'),
      lookoutIntervalMin: z.number().nonnegative().describe('a ship just out of sight may be close after it'),
      lookoutLimitedBy: z.enum(['visibility', 'light', 'horizon', 'cap']),
      isVisibilityKnown: z.boolean().describe('false: the forecast does not hold it, an ordinary haze is taken'),
      alertnessBefore: z.number(),
      alertnessAfter: z.number(),
      forJobId: id.nullable(),
      buys: z.string(),
    }),
  ),
  lowHours: z.array(z.strictObject({ startUtc: utc, endUtc: utc })),
  days: z.array(
    z.strictObject({ fromUtc: utc, toUtc: utc, sleptH: z.number(), wantedH: z.number(), leastH: z.number() }),
  ),
  priorSleep: z
    .array(z.strictObject({ jobId: id, startUtc: utc, text: z.string() }))
    .describe('work at whose end the prior sleep rule is not kept, where it does not bar it'),
  restRules: z
    .array(
      z.strictObject({
        ruleId: z.string(),
        text: z.string(),
        observed: z.number().nullable(),
        required: z.number(),
        unit: z.string(),
        met: z.boolean().nullable().describe('null: the record is too short to say'),
      }),
    )
    .describe('for information: they bind nobody on a private craft'),
  notes: lines,
});

const planEntry = z.strictObject({
  startUtc: utc,
  endUtc: utc,
  kind: z.enum(['work', 'sleep', 'lookout', 'wait']),
  jobId: id.nullable(),
  stepIds: z.array(id),
  handling: id.nullable(),
  sailState: id,
  place: z.enum(['below', 'cockpit', 'deck', 'foredeck', 'aloft', 'overside']).nullable(),
  lat: z.number().min(-90).max(90),
  lon: z.number().min(-180).max(180),
  deckWindKn: z
    .strictObject({ p10: z.number(), p50: z.number(), p90: z.number() })
    .nullable()
    .describe('mean wind over the deck at the start, percentiles over the reporting scenarios'),
  light: z.enum(['day', 'civil', 'nautical', 'night']),
  kssStart: z.number(),
  kssEnd: z.number(),
  settleMin: z.number().nonnegative().describe('minutes before the start to settle the boat under the handling'),
  factors: z.array(entryFactor).describe('why work takes longer than its time at pace 1; factors of 1 left out'),
  factorsTogetherRatio: z.number().positive().nullable().describe('all of them together; null: no work'),
  restAfterMin: z.number().nonnegative().describe('rest of the body before heavy work of another job'),
});

/** A published plan, every key of it. */
export const publishedPlan = z.strictObject({
  planNumber: z.int().positive().nullable().describe('number it is kept under; null: it has none'),
  seed: z.int().nonnegative(),
  madeAtUtc: utc,
  passageName: z.string(),
  forecast: z.strictObject({
    baseTimeUtc: utc,
    ageH: z.number(),
    members: z.int().positive().describe('scenarios the plan was searched on'),
    missing: lines.describe('quantities the forecast does not hold'),
    endUtc: utc,
  }),
  entries: z.array(planEntry),
  jobs: z.array(plannedJob),
  totals: z.strictObject({
    allDoneProbability: probability.nullable(),
    allDoneProbabilitySd: z.number().nonnegative().nullable(),
    deckH: z.number(),
    lostNm: z.number(),
    sleepHPer24H: z.number(),
    unwatchedMin: z.number(),
    expectedJobsDone: z
      .number()
      .nonnegative()
      .nullable()
      .describe('unconditional jobs done inside their limits, on average, when steps take as long as they take'),
  }),
  waiting: z
    .strictObject({
      untilUtc: utc,
      plannedJobIds: z.array(id),
      allDoneProbability: probability.nullable(),
      allDoneProbabilityNow: probability,
      text: z.string(),
    })
    .nullable()
    .describe('what is left when nothing begins before the next forecast'),
  standing: z
    .strictObject({
      kept: z.boolean(),
      text: z.string(),
      overdue: z
        .array(z.strictObject({ jobId: id, startUtc: utc, halfDone: z.boolean(), text: z.string() }))
        .describe('work of it that should have begun by now and is not done, or half done: it is placed anew'),
    })
    .nullable()
    .describe('whether the standing plan was kept; null: there was none'),
  firstFair: z
    .strictObject({ allDoneProbability: probability.nullable(), plannedJobIds: z.array(id) })
    .nullable()
    .describe('each job in its own first fair window, for comparison; null: that places nothing'),
  solver: z.strictObject({
    optimal: z.boolean().describe('proven: no plan is better on the scenarios searched'),
    gap: probability.nullable().describe('joint probability some other plan of as many jobs may have more'),
    costGapShare: probability.nullable().describe('share of the cost some other plan, else equal, may save'),
    labels: z.int().nonnegative(),
  }),
  watch,
  cautions: lines,
}) satisfies z.ZodType<Plan>;

const window = {
  blockIndex: z.int().nonnegative(),
  handling: id,
  firstStartUtc: utc,
  lastStartUtc: utc,
  bestStartUtc: utc,
  surestStarts: z
    .strictObject({ firstUtc: utc, lastUtc: utc })
    .nullable()
    .describe('starts that stay fair when the weather comes earlier or later than forecast; null: none does'),
  probability,
  marginSd: z.number().nullable(),
  bindingLimit: limitId.nullable(),
  standardCriterion: z
    .strictObject({
      limit: limitId,
      alphaRatio: z.number().min(0).max(1),
      met: z.boolean(),
      referenceMin: z.int(),
      leadH: z.number().describe('from the base time of the forecast to the best start'),
    })
    .nullable()
    .describe('α-factor method of marine operations for the tightest limit it applies to, a cross-check'),
  plannedMin: z.int(),
  referenceMin: z.int(),
  conditional: z.boolean(),
  unknownLimits: z.array(limitId),
};

/** Published windows, every key of them. */
const publishedWindowsShape = z.strictObject({
  jobs: z.array(
    z.strictObject({
      jobId: id,
      windows: z.array(z.strictObject(window)),
      nearestMiss: z
        .strictObject({ ...window, shortBy: z.number().nullable(), unit: z.string().nullable() })
        .nullable()
        .describe('best start of a block that has no window; null: every block has one'),
    }),
  ),
}) satisfies z.ZodType<PublishedWindows>;

/** JSON Schema (2020-12) of the JSON of `slatch plan`. */
export const planJsonSchema = (): object => ({
  title: 'Slatch plan',
  description: 'JSON of `slatch plan PASSAGE --json`. Keys carry their unit; instants are ISO 8601 UTC.',
  ...z.toJSONSchema(publishedPlan),
});

/** JSON Schema (2020-12) of the JSON of `slatch windows`. */
export const windowsJsonSchema = (): object => ({
  title: 'Slatch windows',
  description: 'JSON of `slatch windows PASSAGE --json`. Keys carry their unit; instants are ISO 8601 UTC.',
  ...z.toJSONSchema(publishedWindowsShape),
});
