import type { PlannedJob } from '../../lib/planner/index.ts';
import { didYouMean, failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatUtc, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';
import { nextJob } from './choose-job.ts';
import type { PassageView } from './plan-standing.ts';
import type { JobMenu } from './shown-names.ts';

/** What the windows page is about. */
export interface ChosenWindows {
  readonly jobId: string;
  readonly partIndex: number;
  /** null: the part is worked under no handling with the sail that is set then. */
  readonly handlingId: string | null;
}

interface AskedTexts {
  readonly job: string | null;
  /** 1 for the first part. */
  readonly part: string | null;
  readonly handling: string | null;
}

/** The job, part and handling asked for; what was left out is that of the plan, else the first there is. */
export function chosenWindows(view: PassageView, asked: AskedTexts): Result<ChosenWindows> {
  const jobId = asked.job ?? nextJob(view.plan, view.picture.nowEpochMs)?.jobId ?? view.names.jobs[0]?.jobId ?? '';
  const menu = view.names.jobs.find((job) => job.jobId === jobId);
  if (menu === undefined) return failed(unknownJob(jobId, view.names.jobs));
  const partIndex = asked.part === null ? 0 : partIndexOf(asked.part);
  const part = menu.parts[partIndex];
  if (part === undefined) return failed(unknownPart(asked.part ?? '', menu));
  if (asked.handling !== null && !part.handlingIds.includes(asked.handling)) {
    return failed(unknownHandling(asked.handling, menu, partIndex));
  }
  const planned = view.plan.jobs.find((job) => job.jobId === jobId);
  return ok({ jobId, partIndex, handlingId: asked.handling ?? usualHandling(part.handlingIds, planned) });
}

const partIndexOf = (text: string): number => (/^[1-9]\d{0,2}$/.test(text) ? Number(text) - 1 : -1);

/** Planned, else that of the nearest miss, else the preferred one. */
function usualHandling(handlingIds: readonly string[], planned: PlannedJob | undefined): string | null {
  const wanted = [planned?.handling, planned?.nearestMiss?.handling];
  return handlingIds.find((id) => wanted.includes(id)) ?? handlingIds[0] ?? null;
}

/**
 * The start asked for [epoch ms], as an instant in UTC or on the ship's clock; null: none.
 *
 * @returns `time.not-an-instant` where it cannot be read
 */
export function chosenStart(
  { picture }: PassageView,
  asked: { utc: string | null; ship: string | null },
): Result<number | null> {
  if (asked.utc !== null) return parseUtc(asked.utc, 'start');
  if (asked.ship === null) return ok(null);
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(asked.ship)) return failed(notShipTime(asked.ship));
  const onShip = parseUtc(`${asked.ship}Z`, 'ship');
  return onShip.ok ? ok(onShip.value - picture.shipTimeOffsetMin * MS_PER_MIN) : failed(notShipTime(asked.ship));
}

/** Address of the windows page for what is chosen, and for a start. */
export function windowsHref(chosen: ChosenWindows, startEpochMs: number | null = null): string {
  const query = new URLSearchParams({ job: chosen.jobId, part: String(chosen.partIndex + 1) });
  if (chosen.handlingId !== null) query.set('handling', chosen.handlingId);
  // A colon needs no escape in a query, and the address stays one that a person can read and type.
  const start = startEpochMs === null ? '' : `&start=${formatUtc(startEpochMs)}`;
  return `/windows?${query.toString()}${start}`;
}

function unknownJob(jobId: string, jobs: readonly JobMenu[]): Problem {
  const ids = jobs.map((job) => job.jobId);
  return {
    code: 'windows.job-unknown',
    where: 'job',
    what: `This passage has no job “${jobId}”.`,
    expected: `one of ${ids.join(', ')}`,
    remedy: meant(didYouMean(jobId, ids)),
  };
}

const unknownPart = (text: string, { name, parts }: JobMenu): Problem => ({
  code: 'windows.part-unknown',
  where: 'part',
  what: `“${name}” has no part “${text}”.`,
  expected: parts.length === 1 ? '1' : `a whole number from 1 to ${parts.length}`,
  remedy: meant(null),
});

function unknownHandling(handlingId: string, { name, parts }: JobMenu, partIndex: number): Problem {
  const ids = parts[partIndex]?.handlingIds ?? [];
  return {
    code: 'windows.handling-unknown',
    where: 'handling',
    what: `“${name}” is not worked under “${handlingId}” with the sail that is set then.`,
    expected:
      ids.length === 0 ? 'another sail state: no handling of this job exists under it' : `one of ${ids.join(', ')}`,
    remedy: meant(didYouMean(handlingId, ids)),
  };
}

const meant = (near: string | null): string =>
  near === null ? 'Choose from the lists on the windows page.' : `Did you mean “${near}”?`;

const notShipTime = (text: string): Problem => ({
  code: 'time.not-an-instant',
  where: 'ship',
  what: `“${text}” is not a time on the ship’s clock.`,
  expected: 'date, T and time, such as 2026-05-28T13:50',
  remedy: 'Choose date and time on the windows page.',
});
