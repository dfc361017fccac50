/** The shape of a job in a passage file; `makeJob` turns it into a job. Figures may be left out where the library has them. */
import { z } from 'zod';

const id = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/)
  .describe('letters, digits, - and _');
/** No control characters: a passage may come by mail, and what it says is printed on terminals. */
const text = z
  .string()
  .min(1)
  .max(400)
  .regex(/^\P{Cc}*$/u, 'text without control characters');
const utc = z.string().describe('ISO 8601 instant with Z or an offset');
const lines = z.array(text).max(40);
const amount = z.number().positive().max(100_000);
const minutes = z.number().positive().max(6000);
const hours = z.number().nonnegative().max(1000);
const level = z.number().nonnegative().max(200);

const rises = (...values: readonly number[]): boolean =>
  values.every((value, index) => index === 0 || (values[index - 1] ?? 0) <= value);

const levelsFile = z
  .strictObject({ ideal: level, caution: level, noGo: level })
  .refine((of) => rises(of.ideal, of.caution, of.noGo), {
    error: 'levels that rise: ideal, then caution, then noGo',
    params: { code: 'levels-order' },
  });

const workFile = z
  .strictObject({ leastMin: minutes, likelyMin: minutes, mostMin: minutes })
  .refine((of) => rises(of.leastMin, of.likelyMin, of.mostMin), {
    error: 'minutes that rise: least, then likely, then most',
    params: { code: 'minutes-order' },
  });

const rate = z.number().positive().max(1_000_000);
const rateFile = z
  .strictObject({
    amount,
    unit: text,
    slowestPerH: rate,
    likelyPerH: rate,
    fastestPerH: rate,
    setUpMin: z.number().nonnegative().max(600).exactOptional().describe('before the first of it; default 0'),
  })
  .refine((of) => rises(of.slowestPerH, of.likelyPerH, of.fastestPerH), {
    error: 'rates that rise: slowest, then likely, then fastest',
    params: { code: 'rates-order' },
  });

const airC = z.number().min(-60).max(60);
const inTheAir = {
  atC: airC.exactOptional().describe('air at which these hours hold; default 20'),
  halvesPerC: z
    .number()
    .positive()
    .max(60)
    .nullable()
    .exactOptional()
    .describe('warmer by so much, it takes half the time; null (default): whatever the air'),
  floorC: airC.nullable().exactOptional().describe('in colder air it does not go on at all'),
  keptAtC: airC.nullable().exactOptional().describe('kept warm below, so the air on deck does not matter'),
};
const waitFile = z
  .strictObject({
    kind: z.enum(['soak', 'cure', 'dry', 'settle']),
    leastH: hours,
    likelyH: hours,
    mostH: hours,
    ...inTheAir,
  })
  .refine((of) => rises(of.leastH, of.likelyH, of.mostH), {
    error: 'hours that rise: least, then likely, then most',
    params: { code: 'hours-order' },
  });

/** Hours of a wait by another product, or where it is kept. */
const ownWaitFile = z.strictObject({
  leastH: hours.exactOptional(),
  likelyH: hours.exactOptional(),
  mostH: hours.exactOptional(),
  ...inTheAir,
});

const sessionFile = z.strictObject({
  longestMin: minutes.exactOptional(),
  restMin: z.number().nonnegative().max(600).exactOptional(),
  leastUsefulMin: minutes.exactOptional(),
  resumeMin: z.number().nonnegative().max(600).exactOptional(),
  makeSafeMin: z.number().nonnegative().max(600).exactOptional(),
});

const limitsFile = z.strictObject({
  deckWindKn: levelsFile.nullable().exactOptional(),
  deckGustNoGoKn: level.nullable().exactOptional(),
  seaHeightM: levelsFile.nullable().exactOptional(),
  steepnessNoGoRatio: z.number().positive().max(1).nullable().exactOptional(),
  daylight: z.enum(['required', 'preferred', 'not-needed']).exactOptional(),
  rain: z.enum(['none', 'any']).exactOptional(),
  airLeastC: z.number().min(-60).max(60).nullable().exactOptional(),
  seaWaterLeastC: z.number().min(-5).max(40).nullable().exactOptional(),
  visibilityLeastNm: z.number().nonnegative().max(50).nullable().exactOptional(),
  dryBeforeH: z
    .number()
    .positive()
    .max(72)
    .nullable()
    .exactOptional()
    .describe('hours without rain before the step begins; none during it either'),
  byEye: lines.exactOptional(),
});

const materialFile = z.strictObject({ item: text, amount, unit: text });

const stepFile = z.strictObject({
  id,
  name: text.exactOptional(),
  place: z.enum(['below', 'cockpit', 'deck', 'foredeck', 'aloft', 'overside']).exactOptional(),
  work: workFile.exactOptional(),
  rate: rateFile.exactOptional().describe('an amount and how much of it is done in an hour; instead of work'),
  stop: z.enum(['anywhere', 'at-end', 'never']).exactOptional(),
  lookout: z.enum(['full', 'glances', 'none']).exactOptional(),
  effort: z.enum(['light', 'moderate', 'heavy']).exactOptional(),
  hands: z.enum(['gross', 'medium', 'fine']).exactOptional(),
  limits: limitsFile.exactOptional(),
  darkFactorRatio: z.number().min(1).max(10).exactOptional(),
  session: sessionFile.nullable().exactOptional(),
  waitAfter: waitFile.nullable().exactOptional(),
  safePointAfter: z.boolean().exactOptional(),
  sailStateAfter: id.nullable().exactOptional(),
  clipTo: text.nullable().exactOptional().describe('where the tether is clipped'),
  materials: z.array(materialFile).max(60).exactOptional(),
  instructions: lines.exactOptional(),
});

const GROUPS = ['preparation', 'sail-handling', 'sail-repair', 'rig', 'steering', 'hull', 'engine', 'systems'] as const;

/**
 * A job of a passage file.
 *
 * With `from` everything left out is the library's. `steps`, where given, are all the steps of the job in their order;
 * a step whose id the library job has takes what it leaves out from there.
 */
export const jobFile = z.strictObject({
  id,
  from: z.string().exactOptional().describe('id of a library job'),
  name: text.exactOptional(),
  priority: z
    .int()
    .min(1)
    .max(9)
    .exactOptional()
    .describe('1 when convenient … 9 the passage depends on it; default 5'),
  after: z.array(z.string()).max(60).exactOptional().describe('jobs to be finished, waits included, before this one'),
  sailStates: z.array(z.string()).max(20).exactOptional().describe('sail states in which it can be worked; empty: any'),
  handlings: z.array(z.string()).min(1).max(30).exactOptional().describe('preferred first'),
  steps: z.array(stepFile).min(1).max(40).exactOptional(),
  limits: limitsFile.exactOptional().describe('set for every step of the job'),
  minutes: z.record(z.string(), workFile).exactOptional().describe('minutes by step id'),
  waits: z.record(z.string(), ownWaitFile).exactOptional().describe('figures of background waits, by step id'),
  amounts: z.record(z.string(), amount).exactOptional().describe('amounts of steps with a rate, by step id'),
  session: sessionFile.exactOptional().describe('set for every step that can be stopped anywhere'),
  lengthM: z.number().positive().max(100).exactOptional().describe('length of the seam'),
  rows: z.int().min(1).max(10).exactOptional().describe('rows of stitches; default 1'),
  cloth: z.string().exactOptional().describe('cloth id of the stitch rates; default tough-laminate'),
  seamStep: id.nullable().exactOptional().describe('step whose minutes and twine follow from lengthM, rows and cloth'),
  group: z.enum(GROUPS).exactOptional().describe('what it is about; default preparation'),
  cautions: lines.exactOptional(),
  pointOfNoReturn: text.nullable().exactOptional(),
  safePoints: lines.exactOptional().describe('states in which she may be left for hours, in words'),
  turnBack: text.nullable().exactOptional().describe('what to do when it must be given up'),
  checksAfter: z
    .array(z.strictObject({ afterMin: z.number().nonnegative().max(6000), look: text }))
    .max(20)
    .exactOptional()
    .describe('what to look at, so many minutes after the end'),
  startEarly: lines.exactOptional().describe('library jobs whose waits are best begun long before this job'),
  goesWith: lines.exactOptional().describe('library jobs worth doing on the same occasion'),
  makes: z
    .array(materialFile)
    .max(20)
    .exactOptional()
    .describe('what is in the locker once it is done, waits included'),
  needsTools: lines.exactOptional().describe('tools it is worked with; they must be on board'),
  provenance: z
    .record(z.string(), text)
    .exactOptional()
    .describe('whose figures: by "*", "*.KEY" or "STEP.KEY"; a source id, or words'),
  notBeforeUtc: utc.exactOptional().describe('no start before this instant'),
  finishByUtc: utc.exactOptional().describe('finished by this instant, or not planned'),
  startUtc: utc.exactOptional().describe('locked: it starts at this instant'),
  lockHandling: z.string().exactOptional().describe('locked: the one handling it is worked under'),
  done: z.boolean().exactOptional().describe('true: all of it is finished'),
  doneSteps: z.array(z.string()).max(40).exactOptional().describe('ids of finished steps, from the first on'),
  doneMin: z
    .number()
    .nonnegative()
    .max(6000)
    .exactOptional()
    .describe('minutes already worked, at the times given, after the finished steps'),
  tools: z
    .array(text)
    .max(40)
    .exactOptional()
    .describe('held until the waits of the job are over; one of each on board'),
});

export type JobFile = z.infer<typeof jobFile>;
export type StepFile = z.infer<typeof stepFile>;
export type LimitsFile = z.infer<typeof limitsFile>;
export type SessionFile = z.infer<typeof sessionFile>;
