import type { Forecast, ScenarioSet, ScenarioSetOptions } from '../forecast/index.ts';
import {
  buildScenarioSet,
  coverageProblems,
  quantityOf,
  sampleReference,
  sampleScenarios,
  thinScenarios,
} from '../forecast/index.ts';
import type { Passage } from '../passage/index.ts';
import type { Problem, Result } from '../result/index.ts';
import { failed, ok } from '../result/index.ts';
import { formatUtc, MS_PER_H } from '../time/index.ts';
import type { JobWindows } from '../windows/index.ts';
import { findWindows } from '../windows/index.ts';
import { picturedDefaults } from './defaults.ts';
import type { PlanPicture } from './plan-picture.ts';
import type { Plan } from './plan.ts';
import { pictureOf } from './picture.ts';
import type { PlanningWeather, Preparation } from './prepare.ts';
import { prepare } from './prepare.ts';
import { windowSearch } from './prepare-windows.ts';
import { publish } from './publish.ts';
import type { ReportingWeather } from './report.ts';
import type { FoundSoFar, SearchSettings } from './search.ts';
import type { SolveSettings } from './solve.ts';
import { DEFAULT_SOLVE, solve } from './solve.ts';

/** What a plan is made from. *Now* is an input: two runs on the same input are identical. */
export interface PlanInput {
  readonly passage: Passage;
  readonly forecast: Forecast;
  readonly nowEpochMs: number;
  /** The plan that stands; it is kept unless a better one is found. */
  readonly standing?: Plan;
  /**
   * What was seen on board, put to a scenario set of the forecast: weights, timing, and what is said of it in its notes.
   * Used for the set that is searched, the windows, and the fresh draws probabilities are told on.
   */
  readonly seenWeather?: (set: ScenarioSet, purpose: ScenarioSetOptions['purpose']) => ScenarioSet;
  /** Called now and then with the share of the search done (0..1). */
  readonly onProgress?: (searchShare: number) => void;
  /** Called with each plan better than those before it in the same search. */
  readonly onFound?: (found: FoundSoFar) => void;
  /** True ends the search; the best plan so far is the answer. */
  readonly isCancelled?: () => boolean;
}

export interface Planned {
  readonly plan: Plan;
  readonly picture: PlanPicture;
  readonly windows: readonly JobWindows[];
  readonly preparation: Preparation;
}

/** Least of a forecast still ahead for planning to make sense. */
const LEAST_AHEAD_H = 1;

/** Makes the plan of a passage, or says why none can be made. A passage on which no job can be done still gets a plan. */
export function planPassage(input: PlanInput, settings: SolveSettings = DEFAULT_SOLVE): Result<Planned> {
  const ready = prepareWindows(input);
  if (!ready.ok) return ready;
  const { preparation, windows, seenNotes } = ready.value;
  const reporting = reportingWeather(input);
  const solution = solve(preparation, reporting, { search: watched(settings.search, input) }, input.standing);
  const publication = {
    preparation,
    solution,
    windows: new Map(windows.map((found) => [found.jobId, found])),
    forecast: {
      memberCount: preparation.weather.weights.length,
      missing: input.forecast.missing,
      notes: [...input.forecast.notes, ...seenNotes],
    },
    nowEpochMs: input.nowEpochMs,
    isHurried: input.isCancelled?.() === true,
  };
  return ok({
    plan: publish(publication),
    picture: pictureOf(publication, picturedDefaults(input.passage)),
    windows,
    preparation,
  });
}

function watched(search: SearchSettings, { onProgress, onFound, isCancelled }: PlanInput): SearchSettings {
  return {
    ...search,
    ...(onFound === undefined ? {} : { onFound }),
    ...(onProgress === undefined ? {} : { onProgress }),
    ...(isCancelled === undefined ? {} : { isCancelled }),
  };
}

/** The windows of every job on the nominal track. */
interface PreparedWindows {
  readonly preparation: Preparation;
  readonly windows: readonly JobWindows[];
  /** What was seen on board says of the forecast. */
  readonly seenNotes: readonly string[];
}

/** The windows of every job on the nominal track, without a plan. */
export function prepareWindows(input: PlanInput): Result<PreparedWindows> {
  const [problem, ...others] = beginProblems(input);
  if (problem !== undefined) return failed(problem, ...others);
  const { set, seenNotes } = seenSet(input, 'planning');
  const weather = planningWeather(input.forecast, set);
  const preparation = prepare(input.passage, weather, input.nowEpochMs);
  const search = windowSearch(preparation);
  return ok({ preparation, windows: input.passage.jobs.map((job) => findWindows(job, search)), seenNotes });
}

/** So many times the scenarios are drawn and weighed before they are thinned again: weights alone would leave few. */
const WEIGHED_RATIO = 8;

/** The set of a purpose as the boat has seen it, and what was said of that. */
function seenSet(
  { passage, forecast, seenWeather }: PlanInput,
  purpose: ScenarioSetOptions['purpose'],
): { readonly set: ScenarioSet; readonly seenNotes: readonly string[] } {
  const { errorModel, seed, spreadInflationRatio, gustRatio } = passage.settings;
  const options = { errorModel, seed, spreadInflationRatio, gustRatio, purpose };
  const forecastSet = buildScenarioSet(forecast, options);
  if (seenWeather === undefined) return { set: forecastSet, seenNotes: [] };
  const usualCount = forecastSet.scenarioCount;
  const isThinned = purpose === 'planning' && errorModel !== 'none';
  const many = isThinned
    ? buildScenarioSet(forecast, { ...options, drawCount: WEIGHED_RATIO * usualCount })
    : forecastSet;
  const seen = seenWeather(many, purpose);
  const seenNotes = seen.notes.filter((note) => !many.notes.includes(note));
  // Nothing seen, nothing changed: the plan is the one made without a log.
  const isUnchanged = seen.seenShiftH === null && seen.weights === many.weights;
  return {
    set: isUnchanged ? forecastSet : thinScenarios(seen, isThinned ? usualCount : seen.scenarioCount),
    seenNotes,
  };
}

function planningWeather(forecast: Forecast, set: ScenarioSet): PlanningWeather {
  return {
    baseEpochMs: forecast.baseEpochMs,
    endEpochMs: forecast.endEpochMs,
    weights: set.weights,
    sampleScenarios: (points) => sampleScenarios(set, points),
    sampleReference: (points) => sampleReference(set, points),
  };
}

/** Fresh draws a finished plan of the passage is judged on. */
export function reportingWeather(input: PlanInput): ReportingWeather {
  const { set } = seenSet(input, 'reporting');
  const members = [...new Set(set.sources.map((source) => source.memberId))];
  const isEnsemble = members.length > 1;
  return {
    weights: set.weights,
    sampleScenarios: (points) => sampleScenarios(set, points),
    memberIndex: Int32Array.from(set.sources, (source, w) => (isEnsemble ? members.indexOf(source.memberId) : w)),
  };
}

/** The wind must be known where and when the plan begins, and nobody has slept yet what lies beyond. */
function beginProblems({ passage, forecast, nowEpochMs }: PlanInput): Problem[] {
  const fromEpochMs = Math.max(nowEpochMs, passage.start.epochMs);
  return [...windProblems({ passage, forecast }, fromEpochMs), ...sleepProblems(passage, fromEpochMs)];
}

function windProblems({ passage, forecast }: Pick<PlanInput, 'passage' | 'forecast'>, fromEpochMs: number): Problem[] {
  const toEpochMs = fromEpochMs + LEAST_AHEAD_H * MS_PER_H;
  const windWhere = `forecast, ${quantityOf('wind').name}`;
  return coverageProblems(forecast, { positions: [passage.start.position], fromEpochMs, toEpochMs }).filter(
    ({ code, where }) => code === 'forecast.no-wind' || where === windWhere,
  );
}

/** Sleeps of the record that end after the plan begins: the plan would count on sleep nobody has had. */
function sleepProblems({ watchkeeper, defaultsUsed }: Passage, fromEpochMs: number): Problem[] {
  if (defaultsUsed.includes('watchkeeper.sleeps')) return [];
  return watchkeeper.sleeps
    .filter(({ endEpochMs }) => endEpochMs > fromEpochMs)
    .map(({ startEpochMs, endEpochMs }) => ({
      code: 'plan.sleep-after-now',
      where: `watchkeeper.sleeps, ${formatUtc(startEpochMs)} to ${formatUtc(endEpochMs)}`,
      what: `The sleep ends after the plan begins at ${formatUtc(fromEpochMs)}: it has not been slept yet.`,
      expected: 'sleeps that are over',
      remedy: 'Correct its end, leave it out, or plan from a later instant: sleep still to come is placed by the plan.',
    }));
}
