import type { PlanEntry, StartLook } from '../../lib/planner/index.ts';
import { lookEnds } from '../../lib/planner/index.ts';
import { MS_PER_MIN } from '../../lib/time/index.ts';
import type { PassageView } from './plan-standing.ts';
import { durationText, epochOf, type TimeTexts } from './time-texts.ts';
import { chanceText } from './trial-figures.ts';

interface ClashInput {
  readonly view: PassageView;
  readonly look: StartLook;
  readonly times: TimeTexts;
}

/**
 * What of the plan lies in the way of a start: work and sleep at the same hours, what must be done before, and what comes
 * after and is planned too early for it.
 */
export function startClashes(input: ClashInput): string[] {
  return [...notDoneBefore(input), ...atTheSameTime(input), ...tooEarlyAfter(input)];
}

/** Where the plan has the part that is looked at, and how far off that is. */
export function plannedInstead({ view, look, times }: ClashInput): string {
  const { jobId } = look.asked;
  const job = view.plan.jobs.find((one) => one.jobId === jobId);
  const entry = entriesOf(view, look).at(0) ?? null;
  if (job === undefined || entry === null) return 'The plan does not hold it.';
  const startEpochMs = epochOf(entry.startUtc);
  const sd = view.picture.jobs.find((one) => one.jobId === jobId)?.probabilitySd ?? null;
  const chance = job.probability === null ? '' : `, inside its limits in ${chanceText(job.probability, sd)}`;
  return `The plan starts it at ${times.dayTime(startEpochMs)}${chance}: ${offText(look.startEpochMs - startEpochMs)}.`;
}

function offText(byMs: number): string {
  if (byMs === 0) return 'this is that start';
  return `this start is ${durationText(Math.abs(byMs) / MS_PER_MIN)} ${byMs > 0 ? 'later' : 'earlier'}`;
}

/** Sessions of the part that is looked at, in order. */
const entriesOf = (view: PassageView, look: StartLook): readonly PlanEntry[] =>
  workOf(view, look.asked.jobId, (index) => index === look.asked.blockIndex);

/** Work of a job whose part is wanted, in order; of one that is all one part every piece belongs to it. */
function workOf(view: PassageView, jobId: string, isWanted: (partIndex: number) => boolean): readonly PlanEntry[] {
  const parts = view.names.jobs.find((job) => job.jobId === jobId)?.parts ?? [];
  const partOf = ({ stepIds }: PlanEntry): number =>
    Math.max(
      0,
      parts.findIndex(({ steps }) => steps.some(({ id }) => stepIds.includes(id))),
    );
  return view.plan.entries.filter((entry) => entry.kind === 'work' && entry.jobId === jobId && isWanted(partOf(entry)));
}

function atTheSameTime({ view, look, times }: ClashInput): string[] {
  const endEpochMs = endOf(look);
  return view.plan.entries
    .filter(({ kind, jobId }) => (kind === 'work' || kind === 'sleep') && jobId !== look.asked.jobId)
    .filter((entry) => epochOf(entry.startUtc) < endEpochMs && epochOf(entry.endUtc) > look.startEpochMs)
    .map((entry) => {
      const span = { fromEpochMs: epochOf(entry.startUtc), toEpochMs: epochOf(entry.endUtc) };
      return `The plan has ${whatOf(entry, view)} from ${times.span(span, 'to')}.`;
    });
}

const endOf = (look: StartLook): number => lookEnds(look)?.endEpochMs ?? look.startEpochMs + 1;

const whatOf = (entry: PlanEntry, view: PassageView): string =>
  entry.kind === 'sleep' ? 'sleep' : `“${nameOf(entry.jobId ?? '', view)}”`;

const nameOf = (jobId: string, { plan }: PassageView): string =>
  plan.jobs.find((job) => job.jobId === jobId)?.name ?? 'work';

function notDoneBefore({ view, look, times }: ClashInput): string[] {
  const { asked, afterJobIds, startEpochMs } = look;
  const earlierPart = asked.blockIndex === 0 ? [] : ['The parts before it must be done first.'];
  const jobs = afterJobIds.flatMap((id) => {
    const job = view.plan.jobs.find(({ jobId }) => jobId === id);
    if (job === undefined || job.status === 'done') return [];
    if (job.endUtc === null) return [`“${job.name}” must be done first, and it is not planned.`];
    const endEpochMs = epochOf(job.endUtc);
    if (endEpochMs <= startEpochMs) return [];
    return [`“${job.name}” must be done first; the plan ends it at ${times.dayTime(endEpochMs)}.`];
  });
  return [...earlierPart, ...jobs];
}

/** Later parts of the job, and jobs that come after it, which the plan begins before this part would be done. */
function tooEarlyAfter({ view, look, times }: ClashInput): string[] {
  const { jobId, blockIndex } = look.asked;
  const endEpochMs = endOf(look);
  const end = times.dayTime(endEpochMs);
  const isEarly = (utc: string): boolean => epochOf(utc) < endEpochMs;
  const laterPart = workOf(view, jobId, (index) => index > blockIndex).find(({ startUtc }) => isEarly(startUtc));
  const parts =
    laterPart === undefined
      ? []
      : [
          `The plan begins a later part of it at ${times.dayTime(epochOf(laterPart.startUtc))}; this part would be done at ${end}.`,
        ];
  const jobs = view.names.jobs
    .filter(({ after }) => after.includes(jobId))
    .flatMap((menu) => {
      const startUtc = view.plan.jobs.find((job) => job.jobId === menu.jobId)?.startUtc ?? null;
      if (startUtc === null || !isEarly(startUtc)) return [];
      return [
        `“${menu.name}” comes after it and the plan begins it at ${times.dayTime(epochOf(startUtc))}; this would be done at ${end} at the earliest.`,
      ];
    });
  return [...parts, ...jobs];
}
