import type { PlanEntry, StartLook } from '../../lib/planner/index.ts';
import { lookEnds } from '../../lib/planner/index.ts';
import type { PassageView } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';

interface ClashInput {
  readonly view: PassageView;
  readonly look: StartLook;
  readonly times: TimeTexts;
}

/** What of the plan lies in the way of a start: work and sleep at the same hours, and what must be done before. */
export function startClashes(input: ClashInput): string[] {
  return [...notDoneBefore(input), ...atTheSameTime(input)];
}

function atTheSameTime({ view, look, times }: ClashInput): string[] {
  const endEpochMs = lookEnds(look)?.endEpochMs ?? look.startEpochMs + 1;
  return view.plan.entries
    .filter(({ kind, jobId }) => (kind === 'work' || kind === 'sleep') && jobId !== look.asked.jobId)
    .filter((entry) => epochOf(entry.startUtc) < endEpochMs && epochOf(entry.endUtc) > look.startEpochMs)
    .map((entry) => {
      const span = { fromEpochMs: epochOf(entry.startUtc), toEpochMs: epochOf(entry.endUtc) };
      return `The plan has ${whatOf(entry, view)} from ${times.span(span, 'to')}.`;
    });
}

const whatOf = (entry: PlanEntry, { plan }: PassageView): string =>
  entry.kind === 'sleep' ? 'sleep' : `“${plan.jobs.find(({ jobId }) => jobId === entry.jobId)?.name ?? 'work'}”`;

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
