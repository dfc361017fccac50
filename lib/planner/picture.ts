import { slotEpochMs } from '../time/index.ts';
import type { Handling } from '../boat/index.ts';
import type { Job } from '../jobs/index.ts';
import { gateFor, strictestGate } from '../person/index.ts';
import { conditionsAlong, deckWindUnder, LIGHTS } from '../voyage/index.ts';
import type { Conditions } from '../voyage/index.ts';
import type { BlockWindow } from '../windows/index.ts';
import { scenarioMedians, scenarioQuantiles, workingSailState } from '../windows/index.ts';
import { intersect } from '../windows/index.ts';
import { hourValues } from './hour-values.ts';
import type {
  DefaultSetting,
  JobPicture,
  LimitLevels,
  PictureLimits,
  PlanPicture,
  Spread,
  StartSpan,
  TrueWindAt,
  WideSpread,
} from './plan-picture.ts';
import type { Publication } from './publish.ts';
import type { Report, ReportedEntry } from './report.ts';
import { probabilityOf } from './report.ts';

const BARB_EVERY_H = 3;

/** What a page draws beside the plan, along the course the plan really sails, on the scenarios it was searched on. */
export function pictureOf(publication: Publication, defaults: readonly DefaultSetting[]): PlanPicture {
  const { preparation, solution, nowEpochMs } = publication;
  const { passage, weather, grid, fromSlot } = preparation;
  const conditions = conditionsAlong({
    course: solution.report.course,
    boat: passage.boat,
    deckHeightM: passage.settings.deckHeightM,
    sampleScenarios: weather.sampleScenarios,
    sampleReference: weather.sampleReference,
  });
  return {
    nowEpochMs,
    clock: passage.fixedNowEpochMs === null ? 'live' : 'fixed',
    shipTimeOffsetMin: passage.settings.shipTimeOffsetMin,
    wantedProbability: passage.settings.wantedProbability,
    slotEpochMs: Float64Array.from({ length: grid.slotCount - fromSlot }, (_, i) => slotEpochMs(grid, fromSlot + i)),
    light: Array.from(conditions.light.subarray(fromSlot), (index) => LIGHTS[index] ?? 'night'),
    alertnessPoints: alertness(publication),
    lapses: lapses(publication),
    bodyClockH: Float32Array.from(preparation.person.todH.subarray(fromSlot, grid.slotCount)),
    seaHeightM: spreadOf(conditions.weather.seaHeightM, conditions, fromSlot),
    rainMmPerH: conditions.weather.rainMmPerH.slice(fromSlot),
    airC: conditions.weather.airC.slice(fromSlot),
    wavePeriodS: conditions.weather.wavePeriodS.slice(fromSlot),
    hours: hourValues(conditions, fromSlot),
    trueWind: trueWind(conditions, fromSlot),
    jobs: passage.jobs.map((job) => jobPicture(publication, conditions, job)),
    handlingNames: Object.fromEntries(passage.boat.handlings.map(({ id, name }) => [id, name])),
    defaults,
  };
}

function alertness({ preparation, solution }: Publication): Float32Array {
  return Float32Array.from(
    solution.report.personBySlot,
    (person) => person.s + (preparation.person.rhythm[person.slot] ?? 0),
  );
}

function lapses({ preparation, solution }: Publication): Float32Array {
  return Float32Array.from(
    solution.report.personBySlot,
    (person) => person.unified.s + (preparation.person.lapsesRhythm[person.slot] ?? 0),
  );
}

function spreadOf(values: Float32Array, { weather }: Conditions, fromSlot: number): Spread {
  const at = (quantileProbability: number): Float32Array =>
    scenarioQuantiles(values, weather, quantileProbability).slice(fromSlot);
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

function wideSpreadOf(values: Float32Array, conditions: Conditions, fromSlot: number): WideSpread {
  const at = (quantileProbability: number): Float32Array =>
    scenarioQuantiles(values, conditions.weather, quantileProbability).slice(fromSlot);
  return { ...spreadOf(values, conditions, fromSlot), p25: at(0.25), p75: at(0.75) };
}

function trueWind(conditions: Conditions, fromSlot: number): TrueWindAt[] {
  const { grid, lat } = conditions.course;
  const medianKn = scenarioMedians(conditions.weather.windKn, conditions.weather);
  const every = Math.round((BARB_EVERY_H * 60) / grid.slotMin);
  const winds: TrueWindAt[] = [];
  for (let i = fromSlot; i < grid.slotCount; i += every) {
    const windKn = medianKn[i] ?? Number.NaN;
    if (Number.isNaN(windKn)) continue;
    const windFromDegTrue = conditions.reference.windFromDegTrue[i] ?? 0;
    winds.push({ atEpochMs: slotEpochMs(grid, i), windKn, windFromDegTrue, lat: lat[i] ?? 0 });
  }
  return winds;
}

function jobPicture(publication: Publication, conditions: Conditions, job: Job): JobPicture {
  const { preparation, solution } = publication;
  const entries = solution.report.entries.filter(({ placed }) => preparation.units[placed.unit]?.job.id === job.id);
  const windows = publication.windows.get(job.id)?.windows ?? [];
  const { handling, sailStateId } = workedAs(publication, job, entries);
  const deck = handling === null ? null : deckWindUnder(conditions, handling, sailStateId);
  const nothing = (): Float32Array => new Float32Array(conditions.weather.windKn.length).fill(Number.NaN);
  return {
    jobId: job.id,
    handling: handling?.id ?? '',
    deckWindKn: wideSpreadOf(deck?.meanKn ?? nothing(), conditions, preparation.fromSlot),
    deckGustKn: scenarioMedians(deck?.gustKn ?? nothing(), conditions.weather).slice(preparation.fromSlot),
    limits: strictestLimits(job),
    leastAlertnessPoints: strictestGate(job.steps.map((step) => gateFor(step, preparation.passage.watchkeeper.gates)))
      .leastAlertnessPoints,
    windows: startSpans(windows, { handling: handling?.id ?? '', blockIndex: 0, publication }),
    ...figures(solution.report, entries, preparation.grid.slotMin),
    lostNm: entries.length === 0 ? null : lostNm(publication, entries),
  };
}

function workedAs(
  publication: Publication,
  job: Job,
  entries: readonly ReportedEntry[],
): { handling: Handling | null; sailStateId: string } {
  const { passage, units } = publication.preparation;
  const [first] = entries;
  if (first !== undefined) {
    const handling = units[first.placed.unit]?.handlings[first.placed.handling] ?? null;
    return { handling, sailStateId: first.placed.sailStateId };
  }
  const miss = publication.windows.get(job.id)?.nearestMisses[0];
  const id = miss?.handlingId ?? job.handlings[0];
  const handling = passage.boat.handlings.find((known) => known.id === id) ?? null;
  return { handling, sailStateId: miss?.sailStateId ?? workingSailState(job.sailStates, passage.start.sailStateId) };
}

function startSpans(
  windows: readonly BlockWindow[],
  of: { handling: string; blockIndex: number; publication: Publication },
): StartSpan[] {
  const { grid } = of.publication.preparation;
  return windows
    .filter((window) => window.handlingId === of.handling && window.blockIndex === of.blockIndex)
    .map((window) => ({
      firstStartEpochMs: slotEpochMs(grid, window.firstStartSlot),
      lastStartEpochMs: slotEpochMs(grid, window.lastStartSlot),
      conditional: window.conditional,
    }))
    .toSorted((a, b) => a.firstStartEpochMs - b.firstStartEpochMs);
}

function figures(
  report: Report,
  entries: readonly ReportedEntry[],
  slotMin: number,
): Pick<JobPicture, 'probabilitySd' | 'plannedMin' | 'referenceMin'> {
  const [first] = entries;
  if (first === undefined) return { probabilitySd: null, plannedMin: null, referenceMin: null };
  const mask = entries.map((entry) => entry.mask).reduce((a, b) => intersect(a, b));
  return {
    probabilitySd: probabilityOf(mask, report).probabilitySd,
    plannedMin: entries.reduce((sum, { placed }) => sum + placed.plannedMin, 0),
    referenceMin: first.placed.referenceSlots * slotMin,
  };
}

/** Miles lost while its entries are worked. */
function lostNm({ preparation }: Publication, entries: readonly ReportedEntry[]): number {
  return entries.reduce((sum, { placed }) => {
    const handling = preparation.units[placed.unit]?.handlings[placed.handling] ?? null;
    const worked = { handling, sailStateId: placed.sailStateId, fromSlot: placed.startSlot, toSlot: placed.endSlot };
    return sum + preparation.lag.lostNm(placed.lagNm, worked);
  }, 0);
}

function strictestLimits(job: Job): PictureLimits {
  const limits = job.steps.map((step) => step.limits);
  const least = (values: readonly (number | null)[]): number | null => {
    const known = values.filter((value) => value !== null);
    return known.length === 0 ? null : Math.min(...known);
  };
  const air = limits.flatMap((limit) => limit.airLeastC ?? []);
  return {
    deckWindKn: strictestLevels(limits.map((limit) => limit.deckWindKn)),
    deckGustNoGoKn: least(limits.map((limit) => limit.deckGustNoGoKn)),
    seaHeightM: strictestLevels(limits.map((limit) => limit.seaHeightM)),
    rain: limits.some((limit) => limit.rain === 'none') ? 'none' : 'any',
    airLeastC: air.length === 0 ? null : Math.max(...air),
  };
}

/** The levels with the lowest no-go. */
function strictestLevels(levels: readonly (LimitLevels | null)[]): LimitLevels | null {
  return levels.filter((level) => level !== null).toSorted((a, b) => a.noGo - b.noGo)[0] ?? null;
}
