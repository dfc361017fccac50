import { type Boat, type Handling, handle, type Motion } from '../../boat/index.ts';
import type { Job } from '../../jobs/index.ts';
import type { Passage } from '../../passage/index.ts';
import type { JobPicture, Plan, PlanEntry, PlannedJob, PlanPicture, TrueWindAt } from '../../planner/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../time/index.ts';
import { measureTrack, nearestOnTrack, positionAtNm } from '../../track/index.ts';
import { type ExportNames, exportNames } from '../export/index.ts';

/** What a deck sheet is made from. */
export interface SheetInput {
  readonly plan: Plan;
  /** The hours the plan lies in. */
  readonly picture: PlanPicture;
  /** As it stands now, the log read. */
  readonly passage: Passage;
  readonly jobId: string;
  readonly nowEpochMs: number;
}

/** One piece of work of the plan. */
export interface WorkEntry {
  readonly entry: PlanEntry;
  readonly startEpochMs: number;
  readonly endEpochMs: number;
}

/** Everything the parts of a sheet ask about its job. */
export interface SheetWork extends SheetInput {
  readonly job: Job;
  readonly planned: PlannedJob;
  /** null: the picture does not know the job. */
  readonly shown: JobPicture | null;
  readonly names: ExportNames;
  /** Its work in order of time; empty: it is not planned. */
  readonly entries: readonly WorkEntry[];
  /** Planned, else that of the nearest miss, else the job's first; null: the boat has none of them. */
  readonly handling: Handling | null;
  readonly sailStateId: string;
  /** When and how it begins; null: it is not planned. */
  readonly begin: Begin | null;
}

export interface Begin {
  readonly startEpochMs: number;
  /** End of the last piece of work. */
  readonly endEpochMs: number;
  /** The same with the contingency of its first part. */
  readonly downByEpochMs: number;
  readonly at: { readonly lat: number; readonly lon: number };
  /** Median true wind at 10 m expected about then; null: the forecast does not hold it. */
  readonly wind: TrueWindAt | null;
  /** How the boat moves in that wind; null without wind or handling. */
  readonly motion: Motion | null;
  /** The same in the wind that one scenario in ten goes beyond: what sea room is reckoned with. */
  readonly motionP90: Motion | null;
}

export function sheetWork(input: SheetInput, job: Job, planned: PlannedJob): SheetWork {
  const { plan, picture, passage } = input;
  const entries = workEntries(plan, job.id);
  const shown = picture.jobs.find(({ jobId }) => jobId === job.id) ?? null;
  const [first] = entries;
  const handlingId =
    first?.entry.handling ?? planned.handling ?? planned.nearestMiss?.handling ?? job.handlings[0] ?? '';
  const handling = passage.boat.handlings.find(({ id }) => id === handlingId) ?? null;
  const sailStateId = first?.entry.sailState ?? sailStateFor(job, handling, passage);
  return {
    ...input,
    job,
    planned,
    shown,
    names: exportNames(passage),
    entries,
    handling,
    sailStateId,
    begin: first === undefined ? null : beginOf(input, { first, entries, shown, handling }),
  };
}

const workEntries = (plan: Plan, jobId: string): readonly WorkEntry[] =>
  plan.entries
    .filter(({ kind, jobId: id }) => kind === 'work' && id === jobId)
    .map((entry) => ({ entry, startEpochMs: Date.parse(entry.startUtc), endEpochMs: Date.parse(entry.endUtc) }))
    .toSorted((a, b) => a.startEpochMs - b.startEpochMs);

/** A state the job and its handling both exist in: the one that is set, if it will do. */
function sailStateFor(job: Job, handling: Handling | null, { start }: Passage): string {
  const fits = (id: string): boolean =>
    (job.sailStates.length === 0 || job.sailStates.includes(id)) && (handling?.sailStates.includes(id) ?? true);
  const states = [start.sailStateId, ...job.sailStates, ...(handling?.sailStates ?? [])];
  return states.find(fits) ?? start.sailStateId;
}

interface Beginning {
  readonly first: WorkEntry;
  readonly entries: readonly WorkEntry[];
  readonly shown: JobPicture | null;
  readonly handling: Handling | null;
}

function beginOf({ picture, passage }: SheetInput, { first, entries, shown, handling }: Beginning): Begin {
  const { startEpochMs, entry } = first;
  const endEpochMs = entries.at(-1)?.endEpochMs ?? first.endEpochMs;
  const firstMs = first.endEpochMs - startEpochMs;
  const contingencyMs = Math.max(0, (shown?.referenceMin ?? 0) * MS_PER_MIN - firstMs);
  const at = { lat: entry.lat, lon: entry.lon };
  const wind = windNear(picture.trueWind, startEpochMs);
  const boat = passage.boat;
  const moving = { boat, handling, courseTowardDegTrue: courseAt(passage, at), sailStateId: entry.sailState };
  const strong = wind === null ? null : windP90(picture, startEpochMs, wind);
  return {
    startEpochMs,
    endEpochMs,
    downByEpochMs: endEpochMs + contingencyMs,
    at,
    wind,
    motion: motionIn({ ...moving, wind }),
    motionP90: motionIn({ ...moving, wind: strong }),
  };
}

/** The barbs stand about three hours apart: further off none is near. */
const NEAR_MS = 2 * MS_PER_H;

function windNear(winds: readonly TrueWindAt[], atEpochMs: number): TrueWindAt | null {
  const offMs = (wind: TrueWindAt): number => Math.abs(wind.atEpochMs - atEpochMs);
  const [nearest] = winds.toSorted((a, b) => offMs(a) - offMs(b));
  return nearest === undefined || offMs(nearest) > NEAR_MS ? null : nearest;
}

/** From the same direction; null: not known then. */
function windP90({ slotEpochMs, hours }: PlanPicture, atEpochMs: number, wind: TrueWindAt): TrueWindAt | null {
  const windKn = hours.trueWindKn.p90[slotEpochMs.findLastIndex((epochMs) => epochMs <= atEpochMs)] ?? Number.NaN;
  return Number.isNaN(windKn) ? null : { ...wind, windKn };
}

function courseAt({ track }: Passage, at: Begin['at']): number {
  const measured = measureTrack(track);
  return positionAtNm(measured, nearestOnTrack(measured, at).alongNm).courseTowardDegTrue;
}

function motionIn(of: {
  boat: Boat;
  handling: Handling | null;
  wind: TrueWindAt | null;
  courseTowardDegTrue: number;
  sailStateId: string;
}): Motion | null {
  if (of.handling === null || of.wind === null) return null;
  return handle(of.boat, of.handling, {
    twsKn: of.wind.windKn,
    windFromDegTrue: of.wind.windFromDegTrue,
    courseTowardDegTrue: of.courseTowardDegTrue,
    sailStateId: of.sailStateId,
  });
}
