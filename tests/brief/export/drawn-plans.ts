/** Plans drawn at random: odd names, any place, any order, sessions, waits and unknowns. */
import fc from 'fast-check';
import type { Plan, PlanEntry, PlannedJob } from '../../../lib/planner/index.ts';
import { formatUtc, MS_PER_MIN } from '../../../lib/time/index.ts';
import { ODD_NAMES, plan as base } from './exports-fixture.ts';

const FROM_EPOCH_MS = Date.UTC(2026, 11, 30, 20);
const name = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 120 }),
  fc.string({ unit: 'grapheme', maxLength: 60 }),
  fc.constantFrom(...ODD_NAMES),
);
const jobId = fc.constantFrom('a', 'b', 'c-c', 'not listed');
const utc = fc.integer({ min: 0, max: 9 * 144 }).map((slot) => formatUtc(FROM_EPOCH_MS + slot * 10 * MS_PER_MIN));
const utcOrNull = fc.option(utc);

const [workEntry] = base.entries.filter(({ kind }) => kind === 'work');
const [plannedJob] = base.jobs.filter(({ fallbackPlan }) => fallbackPlan !== null);
if (workEntry === undefined || plannedJob === undefined) throw new Error('the fixture has lost its jobs');

const entry: fc.Arbitrary<PlanEntry> = fc
  .record({
    startUtc: utc,
    lengthSlots: fc.integer({ min: 1, max: 30 }),
    kind: fc.constantFrom('work' as const, 'sleep' as const, 'lookout' as const, 'wait' as const),
    jobId,
    handling: fc.option(name),
    sailState: name,
    place: fc.constantFrom('below' as const, 'deck' as const, 'aloft' as const),
    lat: fc.oneof(fc.double({ min: -90, max: 90, noNaN: true }), fc.constantFrom(-90, 90, -0)),
    lon: fc.oneof(fc.double({ min: -180, max: 180, noNaN: true }), fc.constantFrom(-180, 180, 179.999_999_9, -0)),
    settleMin: fc.constantFrom(0, 10),
    restAfterMin: fc.constantFrom(0, 55),
  })
  .map(({ lengthSlots, ...drawn }) => ({
    ...workEntry,
    ...drawn,
    jobId: drawn.kind === 'work' || drawn.kind === 'wait' ? drawn.jobId : null,
    endUtc: formatUtc(Date.parse(drawn.startUtc) + lengthSlots * 10 * MS_PER_MIN),
    deckWindKn: drawn.kind === 'work' ? workEntry.deckWindKn : null,
  }));

const job: fc.Arbitrary<PlannedJob> = fc
  .record({
    jobId,
    name,
    status: fc.constantFrom('planned' as const, 'conditional' as const, 'unplanned' as const, 'done' as const),
    startUtc: utcOrNull,
    decideByUtc: utcOrNull,
    goCheck: fc.array(name, { maxLength: 3 }),
    fallback: fc.option(fc.record({ startUtc: utc, lastStartUtc: utc, probability: fc.constant(0.5), handling: name })),
    fallbackPlan: fc.constantFrom(null, plannedJob.fallbackPlan),
    startBetween: fc.option(fc.record({ firstUtc: utc, lastUtc: utc })),
  })
  .map((drawn) => ({ ...plannedJob, ...drawn }));

/** Any plan; each job listed once. */
export const drawnPlan: fc.Arbitrary<Plan> = fc
  .record({
    passageName: name,
    madeAtUtc: utc,
    entries: fc.array(entry, { maxLength: 12 }),
    jobs: fc.uniqueArray(job, { maxLength: 3, selector: (one) => one.jobId }),
    cautions: fc.array(name, { maxLength: 3 }),
  })
  .map((drawn) => ({ ...base, ...drawn }));
