import { type Job, type StopNumbers, stopNumbersOf } from '../../jobs/index.ts';
import type { BindingLimit, NearestMiss, Plan, PlanEntry, PlannedJob } from '../../planner/index.ts';
import { okUnless, type Result } from '../../result/index.ts';
import { sendableNote } from '../text/note-text.ts';
import { onScale, wholePercent } from '../text/scaled.ts';
import { sendableTimeProblems } from '../text/sendable-times.ts';
import { toMinute } from '../text/times.ts';
import { LIMIT_CODES, REASON_CODES } from './plan-codes.table.ts';
import type {
  PlanMessage,
  PlanMessageFallback,
  PlanMessageJob,
  PlanMessageLimit,
  PlanMessageMiss,
  Span,
  WorkSpan,
} from './plan-message.ts';

export interface PlanMessageSettings {
  /** Else the number of the plan itself. At most seven digits. */
  readonly planNumber?: number;
  /** Jobs of the passage, for the numbers to stop at of jobs that are not planned; without them those are not sent. */
  readonly jobs?: readonly Job[];
  /** `short`: what to do, how sure, until when to decide, what if not, when to stop; nothing else. */
  readonly detail?: 'full' | 'short';
  /** Send only so many jobs, the first in time; how many are left out is said. */
  readonly mostJobsCount?: number;
  /** After it only conservative defaults; else the end of the forecast. */
  readonly validUntilEpochMs?: number;
  readonly note?: string;
}

/**
 * A published plan as it can be sent: instants to the minute, numbers on the scales of the message, once.
 *
 * @returns the message, or `message.time` for instants outside 2000 to 2099
 */
export function planMessageOf(plan: Plan, settings: PlanMessageSettings = {}): Result<PlanMessage> {
  const isShort = settings.detail === 'short';
  const note = sendableNote(settings.note ?? '');
  const jobs = plan.jobs.map((job) => messageJob(job, plan, settings)).toSorted(byStart);
  const shown = jobs
    .filter(({ status }) => !isShort || status === 'planned' || status === 'conditional')
    .slice(0, settings.mostJobsCount ?? jobs.length);
  const { totals } = plan;
  const tenths = (value: number | null): number | null => (value === null || isShort ? null : onScale(value, 10));
  const message: PlanMessage = {
    kind: 'plan',
    madeEpochMs: at(plan.madeAtUtc),
    planNumber: settings.planNumber ?? plan.planNumber,
    forecastBaseEpochMs: at(plan.forecast.baseTimeUtc),
    validUntilEpochMs:
      settings.validUntilEpochMs === undefined ? at(plan.forecast.endUtc) : toMinute(settings.validUntilEpochMs),
    nextForecastEpochMs: plan.waiting === null || isShort ? null : at(plan.waiting.untilUtc),
    standing: plan.standing === null ? null : plan.standing.kept ? 'kept' : 'changed',
    allDoneProbability: totals.allDoneProbability === null ? null : wholePercent(totals.allDoneProbability),
    expectedDoneCount: tenths(totals.expectedJobsDone),
    deckH: tenths(totals.deckH),
    lostNm: tenths(totals.lostNm),
    sleepHPer24H: tenths(totals.sleepHPer24H),
    unwatchedMin: isShort ? null : onScale(totals.unwatchedMin, 1),
    leftOutCount: jobs.length - shown.length,
    jobs: shown,
    sleeps: isShort ? null : plan.entries.filter(({ kind }) => kind === 'sleep').map(spanOf),
    note: note === '' ? null : note,
  };
  return okUnless(sendableTimeProblems(instantsOf(message), 'plan'), () => message);
}

const at = (utc: string): number => toMinute(Date.parse(utc));

const atOrNull = (utc: string | null): number | null => (utc === null ? null : at(utc));

const spanOf = ({ startUtc, endUtc }: Pick<PlanEntry, 'startUtc' | 'endUtc'>): Span => ({
  startEpochMs: at(startUtc),
  endEpochMs: at(endUtc),
});

/** In the order of their first work; those without any behind, as the plan lists them. */
const byStart = (a: PlanMessageJob, b: PlanMessageJob): number =>
  (a.work[0]?.startEpochMs ?? Number.MAX_VALUE) - (b.work[0]?.startEpochMs ?? Number.MAX_VALUE);

function messageJob(job: PlannedJob, plan: Plan, settings: PlanMessageSettings): PlanMessageJob {
  const isShort = settings.detail === 'short';
  const { startBetween, nearestMiss } = job;
  const binding = job.bindingLimit ?? nearestMiss?.bindingLimit ?? null;
  const definition = settings.jobs?.find(({ id }) => id === job.jobId);
  return {
    jobId: job.jobId,
    status: job.status,
    work: workOf(job, plan),
    waits: isShort ? [] : entriesOf(job, plan, 'wait').map(spanOf),
    probability: job.probability === null ? null : wholePercent(job.probability),
    decideByEpochMs: atOrNull(job.decideByUtc),
    startBetween:
      startBetween === null || isShort
        ? null
        : { firstEpochMs: at(startBetween.firstUtc), lastEpochMs: at(startBetween.lastUtc) },
    fallback: job.fallback === null ? null : messageFallback(job.fallback, isShort),
    bindingLimit: binding === null || isShort ? null : messageLimit(binding),
    stop: stopNumbersFor(job, definition),
    unknownLimits: job.unknownLimits.map((limit) => (isKnownLimit(limit) ? limit : 'other')),
    miss: nearestMiss === null ? null : messageMiss(nearestMiss),
  };
}

const messageFallback = (of: NonNullable<PlannedJob['fallback']>, isShort: boolean): PlanMessageFallback => ({
  startEpochMs: at(of.startUtc),
  lastStartEpochMs: isShort ? null : at(of.lastStartUtc),
  handling: of.handling,
  probability: wholePercent(of.probability),
});

const messageMiss = (of: NearestMiss): PlanMessageMiss => ({
  reason: REASON_CODES.find(({ reason }) => reason === of.reason)?.reason ?? 'other',
  startEpochMs: atOrNull(of.startUtc),
  handling: of.handling,
  probability: of.probability === null ? null : wholePercent(of.probability),
});

const entriesOf = (job: PlannedJob, plan: Plan, kind: PlanEntry['kind']): readonly PlanEntry[] =>
  plan.entries.filter((entry) => entry.kind === kind && entry.jobId === job.jobId);

/** Those of its go check, handling and all; of a job that is not planned, those of its steps. */
function stopNumbersFor({ startCheck }: PlannedJob, definition: Job | undefined): StopNumbers | null {
  if (startCheck === null) return definition === undefined ? null : stopNumbersOf(definition);
  const { deckWindKn, deckGustKn, seaM } = startCheck.stop;
  if (deckWindKn === null && deckGustKn === null && seaM === null) return null;
  return { windKn: deckWindKn, gustKn: deckGustKn, seaM };
}

/** Stretches of work; those that follow each other under the same handling are one. */
function workOf(job: PlannedJob, plan: Plan): readonly WorkSpan[] {
  const spans: WorkSpan[] = [];
  for (const entry of entriesOf(job, plan, 'work')) {
    const span = { ...spanOf(entry), handling: entry.handling };
    const last = spans.at(-1);
    if (last?.endEpochMs === span.startEpochMs && last.handling === span.handling)
      spans[spans.length - 1] = { ...last, endEpochMs: span.endEpochMs };
    else spans.push(span);
  }
  if (spans.length > 0 || job.startUtc === null || job.endUtc === null) return spans;
  return [{ startEpochMs: at(job.startUtc), endEpochMs: at(job.endUtc), handling: job.handling }];
}

const isKnownLimit = (limit: string): boolean => LIMIT_CODES.some((of) => of.limit === limit);

function messageLimit(binding: BindingLimit): PlanMessageLimit | null {
  const of = LIMIT_CODES.find(({ limit }) => limit === binding.limit) ?? LIMIT_CODES.at(-1);
  if (of === undefined) throw new Error('the table of limits is not empty');
  const observed = onScale(binding.observed, of.stepsPerUnitCount);
  const required = onScale(binding.required, of.stepsPerUnitCount);
  return observed === null || required === null ? null : { limit: of.limit, observed, required };
}

const instantsOf = (message: PlanMessage): readonly number[] =>
  [
    message.madeEpochMs,
    message.forecastBaseEpochMs,
    message.validUntilEpochMs,
    message.nextForecastEpochMs,
    ...(message.sleeps ?? []).flatMap(ends),
    ...message.jobs.flatMap((job) => [
      ...job.work.flatMap(ends),
      ...job.waits.flatMap(ends),
      job.decideByEpochMs,
      ...(job.startBetween === null ? [] : [job.startBetween.firstEpochMs, job.startBetween.lastEpochMs]),
      ...(job.fallback === null ? [] : [job.fallback.startEpochMs, job.fallback.lastStartEpochMs]),
      job.miss?.startEpochMs ?? null,
    ]),
  ].filter((epochMs) => epochMs !== null);

const ends = ({ startEpochMs, endEpochMs }: Span): number[] => [startEpochMs, endEpochMs];
