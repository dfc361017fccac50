import type { Forecast, ScenarioSet } from '../forecast/index.ts';
import { buildScenarioSet, coverageProblems, quantityOf, sampleReference, sampleScenarios } from '../forecast/index.ts';
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
  const { preparation, windows } = ready.value;
  const reporting = reportingWeather(input);
  const solution = solve(preparation, reporting, { search: watched(settings.search, input) }, input.standing);
  const publication = {
    preparation,
    solution,
    windows: new Map(windows.map((found) => [found.jobId, found])),
    forecast: {
      memberCount: preparation.weather.weights.length,
      missing: input.forecast.missing,
      notes: input.forecast.notes,
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

/** The windows of every job on the nominal track, without a plan. */
export function prepareWindows(input: PlanInput): Result<{ preparation: Preparation; windows: readonly JobWindows[] }> {
  const [problem, ...others] = beginProblems(input);
  if (problem !== undefined) return failed(problem, ...others);
  const set = buildScenarioSet(input.forecast, { ...scenarioOptions(input.passage), purpose: 'planning' });
  const weather = planningWeather(input.forecast, set);
  const preparation = prepare(input.passage, weather, input.nowEpochMs);
  const search = windowSearch(preparation);
  return ok({ preparation, windows: input.passage.jobs.map((job) => findWindows(job, search)) });
}

function scenarioOptions({ settings }: Passage): Omit<Parameters<typeof buildScenarioSet>[1], 'purpose'> {
  const { errorModel, seed, spreadInflationRatio, gustRatio } = settings;
  return { errorModel, seed, spreadInflationRatio, gustRatio };
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
export function reportingWeather({ passage, forecast }: PlanInput): ReportingWeather {
  const set = buildScenarioSet(forecast, { ...scenarioOptions(passage), purpose: 'reporting' });
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
