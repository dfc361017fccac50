/** Worlds drawn for properties: smooth weather in a few scenarios, a handful of jobs. */
import fc from 'fast-check';
import type { Job, Place } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { PlanningWeather } from '../../lib/planner/prepare.ts';
import type { SolveSettings } from '../../lib/planner/solve.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import {
  BASE_EPOCH_MS,
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
} from '../planner/little-world.ts';

/** Waves of wind: mean, two swings with their periods and phases. */
export interface DrawnWind {
  readonly meanKn: number;
  readonly swingKn: number;
  readonly periodH: number;
  readonly phaseH: number;
  readonly rippleKn: number;
}

/** Tenths, evenly spread: doubles drawn by the library crowd at the ends of their range. */
export const tenths = (from: number, to: number): fc.Arbitrary<number> =>
  fc.integer({ min: from * 10, max: to * 10 }).map((value) => value / 10);

export const drawnWind: fc.Arbitrary<DrawnWind> = fc.record({
  meanKn: tenths(6, 20),
  swingKn: tenths(0, 12),
  periodH: tenths(9, 40),
  phaseH: tenths(0, 40),
  rippleKn: tenths(0, 3),
});

const windAt = (wind: DrawnWind, hourH: number): number =>
  Math.max(
    0.5,
    wind.meanKn +
      wind.swingKn * Math.sin((2 * Math.PI * (hourH + wind.phaseH)) / wind.periodH) +
      wind.rippleKn * Math.sin((2 * Math.PI * hourH) / 2.7),
  );

export const weatherOf = (wind: DrawnWind, more: (hourH: number) => number = () => 0): LittleWeather => ({
  windKn: (hourH) => windAt(wind, hourH) + more(hourH),
  seaHeightM: (hourH) => windAt(wind, hourH) / 10,
});

export interface DrawnJob {
  readonly priorityWeight: number;
  readonly minutes: number;
  readonly noGoKn: number;
  readonly place: Place;
  readonly afterOther: boolean;
  readonly handlings: readonly string[];
}

const drawnJob: fc.Arbitrary<DrawnJob> = fc.record({
  priorityWeight: fc.integer({ min: 1, max: 9 }),
  minutes: fc.integer({ min: 1, max: 20 }).map((tens) => tens * 10),
  noGoKn: fc.integer({ min: 6, max: 24 }),
  place: fc.constantFrom<Place>('below', 'deck', 'foredeck', 'aloft'),
  afterOther: fc.boolean(),
  handlings: fc.constantFrom(['hold-course'], ['run-off', 'hold-course'], ['hold-course', 'heave-to']),
});

/** Jobs a, b, c …; one that comes after another comes after the one before it. */
export const jobsOf = (drawn: readonly DrawnJob[]): Job[] =>
  drawn.map((job, index) => {
    const id = String.fromCharCode(97 + index);
    const step = { ...littleStep(id, job.minutes, { deckWindKn: onlyNoGo(job.noGoKn) }), place: job.place };
    const after = job.afterOther && index > 0 ? [String.fromCharCode(96 + index)] : [];
    return littleJob(id, [step], { priorityWeight: job.priorityWeight, handlings: job.handlings, after });
  });

export const SEED = 20260601;

/** The plan begins at hour 12. */
export const HORIZON_H = 30;

/** Enough for a proof in most of these worlds. */
export const QUICK_SEARCH: SolveSettings = { search: { beamWidths: [40, 300, Infinity], extensionBudget: 12_000 } };

export interface World {
  readonly winds: readonly DrawnWind[];
  readonly jobs: readonly DrawnJob[];
  readonly boatKn: number;
  readonly wantedProbability: number;
}

export const drawnWorld: fc.Arbitrary<World> = fc.record({
  winds: fc.array(drawnWind, { minLength: 1, maxLength: 5 }),
  jobs: fc.array(drawnJob, { minLength: 2, maxLength: 3 }),
  boatKn: fc.constantFrom(0, 6),
  wantedProbability: fc.constantFrom(0.5, 0.8),
});

export const passageOf = (of: World, jobs: readonly Job[] = jobsOf(of.jobs), baseEpochMs = BASE_EPOCH_MS): Passage =>
  withBoatSpeed(littlePassage(jobs, { wantedProbability: of.wantedProbability }, baseEpochMs), of.boatKn);

export const weatherIn = (of: World, baseEpochMs = BASE_EPOCH_MS): PlanningWeather =>
  littleWeather(
    of.winds.map((wind) => weatherOf(wind)),
    HORIZON_H,
    { baseEpochMs },
  );
