import { z } from 'zod';
import { blocksOf } from '../jobs/index.ts';
import type { Passage } from '../passage/index.ts';
import type { OwnEntry, OwnPlan } from '../planner/index.ts';
import type { Problem, Result } from '../result/index.ts';
import { didYouMean, ok, okUnless } from '../result/index.ts';
import { parseUtc } from '../time/index.ts';
import type { ReadAs } from './json-shape.ts';
import { pathText, readJson, readShape } from './json-shape.ts';

/** A plan made by hand, as it is written down. */
const ownPlanFile = z.strictObject({
  entries: z.array(
    z.strictObject({
      jobId: z.string(),
      startUtc: z.string(),
      handling: z.string().nullish(),
      blockIndex: z.int().min(0).nullish(),
    }),
  ),
  sleeps: z.array(z.strictObject({ startUtc: z.string(), endUtc: z.string() })).optional(),
});

/** What is needed of the JSON of `slatch plan`; the rest of it is left alone. */
const madePlan = z.looseObject({
  madeAtUtc: z.string(),
  entries: z.array(
    z.looseObject({
      kind: z.string(),
      jobId: z.string().nullable(),
      startUtc: z.string(),
      endUtc: z.string(),
      handling: z.string().nullable(),
      stepIds: z.array(z.string()),
    }),
  ),
});

type OwnFile = z.infer<typeof ownPlanFile>;

/**
 * Reads a plan made by hand, or the JSON of `slatch plan`.
 *
 * @param file named in the problems
 * @returns the plan, or all of `own-plan.not-json`, `own-plan.key-unknown`, `own-plan.missing`, `own-plan.value`, or of
 *   `own-plan.job-unknown`, `own-plan.handling-unknown`, `own-plan.block-unknown`, `own-plan.sleep`, `time.not-an-instant`
 */
export function readOwnPlan(text: string, file: string, passage: Passage): Result<OwnPlan> {
  const as = { file, kind: 'own-plan' };
  const json = readJson(text, as);
  if (!json.ok) return json;
  const read = isMadePlan(json.value) ? fromMade(json.value, as, passage) : readShape(ownPlanFile, json.value, as);
  return read.ok ? checked(read.value, as, passage) : read;
}

const isMadePlan = (value: unknown): boolean => typeof value === 'object' && value !== null && 'madeAtUtc' in value;

/** Work and sleep of a plan of ours; look-outs and waits are what lies between. */
function fromMade(value: unknown, as: ReadAs, passage: Passage): Result<OwnFile> {
  const read = readShape(madePlan, value, as);
  if (!read.ok) return read;
  const { entries } = read.value;
  return ok({
    entries: entries.flatMap(({ kind, jobId, startUtc, handling, stepIds }) =>
      kind === 'work' && jobId !== null
        ? [{ jobId, startUtc, handling, blockIndex: blockOf(passage, { jobId, stepIds }) }]
        : [],
    ),
    sleeps: entries.filter(({ kind }) => kind === 'sleep').map(({ startUtc, endUtc }) => ({ startUtc, endUtc })),
  });
}

/** The block that holds the first of the steps; null: left to the order of the entries. */
function blockOf(passage: Passage, of: { jobId: string; stepIds: readonly string[] }): number | null {
  const job = passage.jobs.find((known) => known.id === of.jobId);
  const [stepId] = of.stepIds;
  if (job === undefined || stepId === undefined) return null;
  return blocksOf(job).find((block) => block.steps.some((step) => step.id === stepId))?.index ?? null;
}

function checked(read: OwnFile, as: ReadAs, passage: Passage): Result<OwnPlan> {
  const entries = read.entries.map((entry, index) => readEntry(entry, { as, index, passage }));
  const sleeps = (read.sleeps ?? []).map((sleep, index) => readSleep(sleep, { as, index }));
  const inOrder = sleeps
    .flatMap((sleep) => (sleep.ok ? [sleep.value] : []))
    .toSorted((a, b) => a.startEpochMs - b.startEpochMs);
  const problems = [
    ...entries.flatMap((entry) => (entry.ok ? [] : entry.problems)),
    ...sleeps.flatMap((sleep) => (sleep.ok ? [] : sleep.problems)),
    ...overlaps(inOrder, as),
  ];
  return okUnless(problems, () => ({
    entries: entries.flatMap((entry) => (entry.ok ? [entry.value] : [])),
    sleeps: inOrder,
  }));
}

function readEntry(
  entry: OwnFile['entries'][number],
  at: { as: ReadAs; index: number; passage: Passage },
): Result<OwnEntry> {
  const where = (key: string): string => pathText(at.as, ['entries', at.index, key]);
  const start = parseUtc(entry.startUtc, where('startUtc'));
  const { jobs, boat } = at.passage;
  const job = jobs.find((known) => known.id === entry.jobId);
  const jobIds = jobs.map((known) => known.id);
  const handlingIds = boat.handlings.map((known) => known.id);
  const handlingId = entry.handling ?? null;
  const blockIndex = entry.blockIndex ?? null;
  const blockCount = job === undefined ? 0 : blocksOf(job).length;
  const problems = [
    ...(start.ok ? [] : start.problems),
    ...(job === undefined ? [unknown('job', entry.jobId, { known: jobIds, where: where('jobId') })] : []),
    ...(handlingId === null || handlingIds.includes(handlingId)
      ? []
      : [unknown('handling', handlingId, { known: handlingIds, where: where('handling') })]),
    ...(job === undefined || blockIndex === null || blockIndex < blockCount
      ? []
      : [blockUnknown(blockIndex, { blockCount, where: where('blockIndex') })]),
  ];
  return okUnless(problems, () => ({
    jobId: entry.jobId,
    startEpochMs: start.ok ? start.value : 0,
    handlingId,
    blockIndex,
  }));
}

function readSleep(
  sleep: { startUtc: string; endUtc: string },
  at: { as: ReadAs; index: number },
): Result<OwnPlan['sleeps'][number]> {
  const where = pathText(at.as, ['sleeps', at.index]);
  const start = parseUtc(sleep.startUtc, `${where}.startUtc`);
  const end = parseUtc(sleep.endUtc, `${where}.endUtc`);
  const problems = [start, end].flatMap((instant) => (instant.ok ? [] : instant.problems));
  if (start.ok && end.ok && end.value <= start.value)
    problems.push(sleepProblem(where, 'It does not end after it starts.'));
  return okUnless(problems, () => ({
    startEpochMs: start.ok ? start.value : 0,
    endEpochMs: end.ok ? end.value : 0,
  }));
}

const overlaps = (sleeps: OwnPlan['sleeps'], as: ReadAs): Problem[] =>
  sleeps
    .slice(1)
    .flatMap((sleep, k) =>
      sleep.startEpochMs < (sleeps[k]?.endEpochMs ?? 0)
        ? [sleepProblem(pathText(as, ['sleeps']), 'Two sleeps lie over each other.')]
        : [],
    );

const sleepProblem = (where: string, what: string): Problem => ({
  code: 'own-plan.sleep',
  where,
  what,
  expected: 'sleeps that end after they start, one after the other',
  remedy: 'Correct its hours.',
});

function unknown(kind: string, id: string, at: { known: readonly string[]; where: string }): Problem {
  const near = didYouMean(id, at.known);
  return {
    code: `own-plan.${kind}-unknown`,
    where: at.where,
    what: `The passage has no ${kind} "${id}".`,
    expected: at.known.length === 0 ? `a passage with a ${kind}` : `one of ${at.known.join(', ')}`,
    remedy: near === null ? 'Name one of them.' : `Did you mean "${near}"?`,
  };
}

const blockUnknown = (blockIndex: number, at: { blockCount: number; where: string }): Problem => ({
  code: 'own-plan.block-unknown',
  where: at.where,
  what: `The job has no block ${blockIndex}.`,
  expected: `a whole number from 0 to ${at.blockCount - 1}`,
  remedy: 'Leave it out: blocks are then taken in their order.',
});
