import { handle, type Handling } from '../lib/boat/index.ts';
import type { Passage } from '../lib/passage/index.ts';
import type { Plan, PlanEntry, PlanPicture } from '../lib/planner/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../lib/time/index.ts';
import { measureTrack, type MeasuredTrack, nearestOnTrack, positionAtNm } from '../lib/track/index.ts';
import { velocityToward } from '../lib/weather/index.ts';
import { degFromRad, wrap360Deg } from '../lib/units/index.ts';
import type { RunOff, SailedWay } from './presenters/map/sailed-way.ts';
import { epochOf } from './presenters/time-texts.ts';

/** With the wind as far aft as this she runs: she needs sea room to leeward. Common practice, no source. */
const RUNS_FROM_TWA_DEG = 135;

/** Track of a passage, place now, and the way made good by work that runs before the wind. */
export function sailedWay(
  passage: Passage,
  made: { plan: Plan; picture: PlanPicture; now: SailedWay['now'] },
): SailedWay {
  const { plan, picture, now } = made;
  const track = measureTrack(passage.track);
  const runs = plan.entries.flatMap((entry): RunOff[] => {
    const handling = passage.boat.handlings.find(({ id }) => id === entry.handling);
    if (entry.kind !== 'work' || entry.jobId === null || handling === undefined || !runsOff(handling)) return [];
    const run = runOf({ passage, handling, entry, track, winds: picture.trueWind });
    return run === null ? [] : [run];
  });
  return { track: passage.track, now, runs };
}

const runsOff = ({ heading }: Handling): boolean =>
  heading.kind === 'wind-angle' && heading.twaDeg >= RUNS_FROM_TWA_DEG;

interface Worked {
  readonly passage: Passage;
  readonly handling: Handling;
  readonly entry: PlanEntry;
  readonly track: MeasuredTrack;
  readonly winds: PlanPicture['trueWind'];
}

function runOf({ passage, handling, entry, track, winds }: Worked): RunOff | null {
  const startEpochMs = epochOf(entry.startUtc);
  const wind = windAt(winds, startEpochMs);
  if (wind === null || entry.jobId === null) return null;
  const { courseTowardDegTrue } = positionAtNm(track, nearestOnTrack(track, entry).alongNm);
  const { eastKn, northKn } = handle(passage.boat, handling, {
    ...wind,
    courseTowardDegTrue,
    sailStateId: entry.sailState,
  }).velocity;
  const plannedMin = (epochOf(entry.endUtc) - startEpochMs) / MS_PER_MIN;
  const { contingencyShare, contingencyLeastMin } = passage.settings;
  return {
    jobId: entry.jobId,
    startUtc: entry.startUtc,
    towardDegTrue: wrap360Deg(degFromRad(Math.atan2(eastKn, northKn))),
    speedKn: Math.hypot(eastKn, northKn),
    heldMin: entry.settleMin + plannedMin + Math.max(contingencyShare * plannedMin, contingencyLeastMin),
  };
}

/** Winds of a plan stand three hours apart where they are known. */
const WIND_EVERY_MS = 3 * MS_PER_H;

/**
 * Median wind at an instant between the two that stand nearest, its direction as a vector; null: none is known within
 * three hours before or after.
 */
export function windAt(
  winds: PlanPicture['trueWind'],
  epochMs: number,
): { readonly twsKn: number; readonly windFromDegTrue: number } | null {
  const near = winds.filter(({ atEpochMs }) => Math.abs(atEpochMs - epochMs) <= WIND_EVERY_MS);
  const before = near.findLast(({ atEpochMs }) => atEpochMs <= epochMs) ?? near[0];
  const after = near.find(({ atEpochMs }) => atEpochMs >= epochMs) ?? before;
  if (before === undefined || after === undefined) return null;
  const spanMs = after.atEpochMs - before.atEpochMs;
  const share = spanMs === 0 ? 0 : (epochMs - before.atEpochMs) / spanMs;
  const from = velocityToward({ speedKn: 1 - share, towardDegTrue: before.windFromDegTrue });
  const to = velocityToward({ speedKn: share, towardDegTrue: after.windFromDegTrue });
  return {
    twsKn: before.windKn + (after.windKn - before.windKn) * share,
    windFromDegTrue: wrap360Deg(degFromRad(Math.atan2(from.eastKn + to.eastKn, from.northKn + to.northKn))),
  };
}
