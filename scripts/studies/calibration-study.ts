/** Stated probabilities against what happens in truths drawn anew. */
import { hasBit } from '../../lib/windows/index.ts';
import { dressedWrongly, type WrongModel, WRONG_MODEL_NAMES } from './wrong-models.ts';
import type { WeatherErrors } from './error-paths.ts';
import { drawPassage, START_H, type PassageKind } from './passage.ts';
import {
  jointPlan,
  jointProbability,
  prepared,
  rehearsedOn,
  reportedOn,
  type Preparation,
  type SolveSettings,
  type StudyPlan,
} from './planner.ts';
import type { Statement } from './statistics.ts';
import {
  drawForecast,
  drawOtherMembers,
  drawScenarios,
  drawTruths,
  scenariosOf,
  type StudyForecast,
} from './weather.ts';

/** What is held against the truth. */
export type Claim =
  | 'job, truth as stated'
  | 'all jobs, truth as stated'
  | 'job, truth is another member'
  | `job, truth with ${WrongModel}`
  | 'job with durations drawn, truth as stated';

export type Statements = Map<Claim, Statement[]>;

export interface CalibrationSettings {
  readonly memberCount: number;
  readonly reportingCount: number;
  /** Truths per passage and kind of truth. */
  readonly truthCount: number;
  /** Every so many passages also truths from wrong models, and the rehearsal. */
  readonly othersEveryCount: number;
  readonly solve: SolveSettings;
  /** Kind of passage; default: two or three jobs in eighteen hours, in half-hour slots. */
  readonly kind?: (seed: number) => PassageKind;
}

/** Planned in a fraction of a second. */
const kindFor = (seed: number): PassageKind => ({
  jobCount: { least: 2, most: 3 },
  horizonH: 18,
  slotMin: 30,
  // Low ones too, so that there are low probabilities to look at.
  wantedProbability: [0.3, 0.5, 0.7, 0.85][seed % 4] ?? 0.7,
});

const ROOM_H = 10;

/** Plans one passage and adds what it states, and what came of it, to the statements. */
export function addPassage(seed: number, settings: CalibrationSettings, to: Statements): void {
  const kind = (settings.kind ?? kindFor)(seed);
  const lengthH = START_H + kind.horizonH + ROOM_H;
  const forecast = drawForecast(seed * 8191, { lengthH, memberCount: settings.memberCount });
  const planning = drawScenarios(forecast, seed * 8191 + 1, settings.memberCount);
  const reporting = drawScenarios(forecast, seed * 8191 + 2, settings.reportingCount);
  const preparation = prepared(drawPassage(seed, kind), planning);
  const plan = jointPlan(preparation, reporting, settings.solve);
  if (plan.jobs.length === 0) return;
  const planned = { preparation, plan, forecast, seed, settings };
  const truths = drawTruths(forecast, seed * 8191 + 3, settings.truthCount);
  addStated(planned, truths, to);
  if (seed % settings.othersEveryCount !== 0) return;
  const others = drawOtherMembers(forecast, seed * 8191 + 4, settings.truthCount);
  addJobs(planned, { claim: 'job, truth is another member', truths: others }, to);
  for (const name of WRONG_MODEL_NAMES) {
    const wrong = truths.map((truth) => dressedWrongly(truth, name));
    addJobs(planned, { claim: `job, truth with ${name}`, truths: wrong }, to);
  }
  addRehearsal(planned, to);
}

interface Planned {
  readonly preparation: Preparation;
  readonly plan: StudyPlan;
  readonly forecast: StudyForecast;
  readonly seed: number;
  readonly settings: CalibrationSettings;
}

/** Jobs, and all jobs together, in truths of the distribution the probabilities were found on. */
function addStated(planned: Planned, truths: readonly WeatherErrors[], to: Statements): void {
  const masks = addJobs(planned, { claim: 'job, truth as stated', truths }, to);
  const trialCount = truths.length;
  const trueCount = countWhere(trialCount, (i) => masks.every((mask) => hasBit(mask, i)));
  const stated = jointProbability(planned.plan);
  add(to, 'all jobs, truth as stated', { cluster: planned.seed, stated, trialCount, trueCount });
}

/**
 * Jobs in such truths, and the sets of truths they hold in. The reporting draws go along, because the pace of work is
 * that of the middle scenario and must stay the stated one.
 */
function addJobs(
  planned: Planned,
  against: { readonly claim: Claim; readonly truths: readonly WeatherErrors[] },
  to: Statements,
): Uint32Array[] {
  const { preparation, plan, forecast, seed, settings } = planned;
  const { errors } = drawScenarios(forecast, seed * 8191 + 2, settings.reportingCount);
  const outcome = reportedOn(preparation, plan, scenariosOf(forecast, [...against.truths, ...errors]));
  const masks = outcome.jobs.map(({ mask }) => mask);
  for (const [k, job] of plan.jobs.entries()) {
    const trialCount = against.truths.length;
    const trueCount = countWhere(trialCount, (i) => hasBit(masks[k] ?? new Uint32Array(), i));
    add(to, against.claim, { cluster: seed, stated: job.probability, trialCount, trueCount });
  }
  return masks;
}

/** The rehearsal's probabilities against the same plan carried out once in each of other truths, with durations of their own. */
function addRehearsal({ preparation, plan, forecast, seed, settings }: Planned, to: Statements): void {
  const { truthCount } = settings;
  const scenarios = drawScenarios(forecast, seed * 8191 + 2, settings.reportingCount);
  const said = rehearsedOn(preparation, plan, { scenarios, seed });
  const truths = scenariosOf(forecast, drawTruths(forecast, seed * 8191 + 6, truthCount));
  const real = rehearsedOn(preparation, plan, { scenarios: truths, seed: seed * 8191 + 7 });
  for (const [k, job] of said.jobs.entries()) {
    add(to, 'job with durations drawn, truth as stated', {
      cluster: seed,
      stated: job.doneInsideLimitsProbability,
      trialCount: truthCount,
      // Every truth weighs the same: the share counts them.
      trueCount: Math.round((real.jobs[k]?.doneInsideLimitsProbability ?? 0) * truthCount),
    });
  }
}

const countWhere = (count: number, holds: (index: number) => boolean): number =>
  Array.from({ length: count }, (_, index) => index).filter(holds).length;

function add(to: Statements, claim: Claim, statement: Statement): void {
  const own = to.get(claim) ?? [];
  own.push(statement);
  to.set(claim, own);
}
