import fc from 'fast-check';
import type { NumberedEntry } from '../../lib/log/index.ts';
import { demoPassage, entryOf } from './demo.ts';

const MIN_MS = 60_000;
const FROM_EPOCH_MS = Date.UTC(2026, 4, 27);

const instantText = (min: number): string => `${new Date(FROM_EPOCH_MS + min * MIN_MS).toISOString().slice(0, 16)}Z`;

const minutes = fc.nat({ max: 72 * 12 }).map((five) => five * 5);

const sleep = fc
  .tuple(minutes, fc.integer({ min: 1, max: 12 * 12 }))
  .map(([min, five]) => ({ kind: 'sleep', atUtc: instantText(min), endUtc: instantText(min + five * 5) }));

const observation = fc.tuple(minutes, fc.integer({ min: 990, max: 1035 })).map(([min, pressureHpa]) => ({
  kind: 'observation',
  atUtc: instantText(min),
  pressureHpa,
}));

const jobs = demoPassage().jobs;

/** Events of the demo's jobs in any order, possible or not. */
export const jobEvent = fc
  .tuple(
    minutes,
    fc.nat(),
    fc.nat(),
    fc.constantFrom('started', 'safe-point', 'stopped', 'done'),
    fc.option(fc.nat({ max: 300 })),
  )
  .map(([min, jobDraw, stepDraw, event, workedMin]) => {
    const job = jobs[jobDraw % jobs.length];
    const step = job?.steps[stepDraw % ((job.steps.length || 1) + 1)];
    const isLeft = event === 'safe-point' || event === 'stopped';
    return {
      kind: 'job',
      atUtc: instantText(min),
      jobId: job?.id ?? '',
      event,
      ...(isLeft && step !== undefined ? { stepId: step.id } : {}),
      ...(event !== 'started' && workedMin !== null ? { workedMin } : {}),
    };
  });

const statement = fc.oneof(sleep, observation, jobEvent);

const numbered = (raws: readonly object[]): NumberedEntry[] =>
  raws.map((raw, index) => ({ number: index + 1, entry: entryOf(raw) }));

const correction = fc
  .tuple(minutes, fc.integer({ min: 1, max: 14 }), fc.option(statement))
  .map(([min, corrects, by]) => ({
    kind: 'correction',
    atUtc: instantText(min),
    corrects,
    by,
  }));

/** Up to a dozen entries, corrections of anything among them. */
export const anyLog = fc
  .array(fc.oneof({ weight: 3, arbitrary: statement }, { weight: 1, arbitrary: correction }), { maxLength: 12 })
  .map(numbered);

/** Entries without corrections. */
export const statements = fc.array(statement, { maxLength: 14 }).map(numbered);

export const sleepsOfMay = fc.array(sleep, { maxLength: 10 }).map(numbered);
