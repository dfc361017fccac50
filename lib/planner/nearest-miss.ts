import type { Job } from '../jobs/index.ts';
import { slotEpochMs, formatUtc } from '../time/index.ts';
import type { BlockWindow, JobWindows } from '../windows/index.ts';
import { workingSailState } from '../windows/index.ts';
import { fixedMiss, startSought } from './fixed-miss.ts';
import type { NearestMiss } from './plan.ts';
import type { Preparation } from './prepare.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import type { Finding, StartJudge } from '../reasons/index.ts';
import { findingText, personFindings, startJudge } from '../reasons/index.ts';
import { slotWording } from './slot-wording.ts';
import { gateStateAt, place, restUntil } from './place.ts';
import type { PlanState } from './state.ts';
import { startOfPlan } from './state.ts';
import { amountText, bindingLimit, limitWords, ofHundred, shipTime } from './words.ts';

/** Why a job is not in the plan, and what comes nearest to it. */
export function nearestMissOf(
  preparation: Preparation,
  of: { job: Job; problem: PlanningProblem; state: PlanState; windows: JobWindows },
): NearestMiss {
  const excluded = preparation.excluded.get(of.job.id);
  if (excluded !== undefined) return excluded;
  const missing = unplannedBefore(preparation, of);
  const weather = of.windows.nearestMisses[0];
  if (weather !== undefined) return weatherMiss(preparation, of.job, weather);
  if (of.windows.windows.length === 0) return slowedMiss(preparation, of) ?? noStartMiss(of.job);
  const fixed = fixedMiss(preparation, of);
  if (fixed !== null) return fixed;
  if (missing !== null) return afterMiss(missing);
  if (!fitsBeforeEnd(preparation, of.windows)) return beyondEndMiss(preparation, of.windows);
  return jointMiss(preparation, of);
}

const nothing = { startUtc: null, handling: null, probability: null, bindingLimit: null } as const;

/** No handling it may be worked under exists in a sail state it may be worked in, or the horizon is too short for it. */
function noStartMiss(job: Job): NearestMiss {
  return {
    reason: 'horizon',
    ...nothing,
    text: `"${job.name}" cannot be started at all: no handling serves it in its sail states, or it does not fit before the forecast ends.`,
    wouldHelp: 'Give it a handling that exists in its sail state, or a longer forecast.',
  };
}

const SLOWED_RULES: ReadonlySet<string> = new Set(['pace', 'cold-hands', 'look-out']);

/** The hour at which the work is slowed least, where cold, heat, looking round or pace refuse it at all hours. */
function slowedMiss(preparation: Preparation, of: { job: Job; problem: PlanningProblem }): NearestMiss | null {
  const { problem } = of;
  const units = problem.units.filter(({ job }) => job.id === of.job.id);
  for (const unit of units) {
    const sailStateId = workingSailState(unit.sailStates, problem.startSailStateId);
    const handling = unit.handlings.find(({ sailStates }) => sailStates.includes(sailStateId));
    if (handling === undefined) continue;
    const { session } = unit.block;
    const workMin = session === null ? unit.totalWorkMin : Math.min(session.leastUsefulMin, unit.totalWorkMin);
    const search = { conditions: problem.lag.conditionsAt(0), settings: problem.settings, wantedProbability: 0 };
    const judge = startJudge(
      { block: unit.block, handling, sailStateId, workMin, resumeMin: 0, tiredRatio: 1 },
      search,
    );
    const least = leastSlowed(problem, judge);
    if (least === null) continue;
    const wording = slotWording(preparation);
    const at = shipTime(slotEpochMs(preparation.grid, least.slot), preparation.passage.settings.shipTimeOffsetMin);
    return {
      reason: 'slowed',
      ...nothing,
      startUtc: formatUtc(slotEpochMs(preparation.grid, least.slot)),
      handling: handling.id,
      text: `At no hour can it be worked; nearest ${at}: ${findingText(least.finding, wording)}.`,
      wouldHelp: 'Less work in one go, a warmer or lighter hour in a later forecast, or other time factors, knowingly.',
    };
  }
  return null;
}

function leastSlowed(problem: PlanningProblem, judge: StartJudge): { slot: number; finding: Finding } | null {
  let least: { slot: number; finding: Finding } | null = null;
  for (let slot = problem.fromSlot; slot < problem.untilSlot; slot++) {
    if ((judge.at(slot).referenceSlots[slot] ?? 0) > 0) continue;
    const [finding] = judge.findingsAt(slot);
    if (finding === undefined || !SLOWED_RULES.has(finding.rule)) continue;
    if (least === null || (finding.margin ?? -Infinity) > (least.finding.margin ?? -Infinity))
      least = { slot, finding };
  }
  return least;
}

/** Whether some window begins early enough for its work to be over by the end of the plan. */
function fitsBeforeEnd(preparation: Preparation, windows: JobWindows): boolean {
  const slotsOf = (window: BlockWindow): number => Math.ceil(window.plannedMin / preparation.grid.slotMin);
  return windows.windows.some((window) => window.firstStartSlot + slotsOf(window) <= preparation.untilSlot);
}

function beyondEndMiss(preparation: Preparation, windows: JobWindows): NearestMiss {
  const { grid, untilSlot, passage } = preparation;
  const at = (slotIndex: number): string => shipTime(slotEpochMs(grid, slotIndex), passage.settings.shipTimeOffsetMin);
  const firstStartSlot = Math.min(...windows.windows.map((window) => window.firstStartSlot));
  return {
    reason: 'horizon',
    ...nothing,
    startUtc: formatUtc(slotEpochMs(grid, firstStartSlot)),
    text: `Its first window opens ${at(firstStartSlot)} and its work would end after the plan does (${at(untilSlot)}).`,
    wouldHelp: 'A later end of the plan.',
  };
}

function unplannedBefore(
  preparation: Preparation,
  of: { job: Job; problem: PlanningProblem; state: PlanState },
): Job | null {
  const isDone = (id: string): boolean =>
    of.problem.units.every((unit) => unit.job.id !== id || (of.state.finishedSlot[unit.index] ?? -1) >= 0);
  return preparation.passage.jobs.find((job) => of.job.after.includes(job.id) && !isDone(job.id)) ?? null;
}

function afterMiss(missing: Job): NearestMiss {
  return {
    reason: 'precedence',
    ...nothing,
    text: `It comes after "${missing.name}", which is not planned.`,
    wouldHelp: `What makes "${missing.name}" possible.`,
  };
}

function weatherMiss(preparation: Preparation, job: Job, miss: BlockWindow): NearestMiss {
  const at = shipTime(
    slotEpochMs(preparation.grid, miss.bestStartSlot),
    preparation.passage.settings.shipTimeOffsetMin,
  );
  const broken = miss.margins.find((margin) => margin.margin < 0) ?? miss.binding;
  const common = {
    startUtc: formatUtc(slotEpochMs(preparation.grid, miss.bestStartSlot)),
    handling: miss.handlingId,
    probability: miss.probability,
    bindingLimit: bindingLimit(broken ?? undefined),
  };
  if (!miss.margins.some(({ limit }) => limit === 'handling-wind')) {
    const text = 'The forecast does not hold the wind there, so no start can be called fair.';
    return { reason: 'weather', ...common, bindingLimit: null, text, wouldHelp: 'A forecast that holds it.' };
  }
  if (broken?.limit === 'daylight') {
    const text = `No daylight holds it: ${Math.round(miss.plannedMin)} min with reserve are needed.`;
    return {
      reason: 'light',
      ...common,
      text,
      wouldHelp: 'Divide it at a safe point, or let it be worked in the dark.',
    };
  }
  if (broken === null) {
    return {
      reason: 'weather',
      ...common,
      text: `At best ${ofHundred(miss.probability)} (${at}).`,
      wouldHelp: 'A later forecast.',
    };
  }
  const by =
    broken.margin < 0
      ? `short by ${amountText(-broken.margin, broken.unit)}`
      : `only ${amountText(broken.margin, broken.unit)} to spare`;
  return {
    reason: 'weather',
    ...common,
    text: `Nearest ${at}: ${ofHundred(miss.probability)}; ${limitWords(broken.limit)} ${amountText(broken.observed, broken.unit)} against ${amountText(broken.required, broken.unit)} allowed, ${by}.`,
    wouldHelp: `"${job.name}" would fit if ${amountText(broken.observed, broken.unit)} of ${limitWords(broken.limit)} were acceptable, or in a longer calm.`,
  };
}

/** It has windows, but not beside the rest: by itself it can be placed or not, and that tells which rule stands against it. */
function jointMiss(
  preparation: Preparation,
  of: { job: Job; problem: PlanningProblem; windows: JobWindows },
): NearestMiss {
  const sought = startSought(of);
  const unit = of.problem.units.find((candidate) => candidate.job.id === of.job.id);
  if (sought === null || unit === undefined) return noStartMiss(of.job);
  const { window, slot: startSlot } = sought;
  const startEpochMs = slotEpochMs(preparation.grid, startSlot);
  // The figures of a window are those of its best start.
  const isBest = startSlot === window.bestStartSlot;
  const at = `${shipTime(startEpochMs, preparation.passage.settings.shipTimeOffsetMin)}${isBest ? `, ${ofHundred(window.probability)}` : ''}`;
  const common = {
    startUtc: formatUtc(startEpochMs),
    handling: window.handlingId,
    probability: isBest ? window.probability : null,
    bindingLimit: isBest ? bindingLimit(window.binding ?? undefined) : null,
  };
  const handling = unit.handlings.findIndex(({ id }) => id === window.handlingId);
  const alone = place(of.problem, startOfPlan(of.problem), {
    unit: unit.index,
    handling,
    startSlot,
  });
  if (!alone.ok && alone.refusal === 'alertness') {
    return {
      reason: 'alertness',
      ...common,
      text: `It has a window (${at}), but you would not be fit for it then${unfitText(preparation, of.problem, { unit, startSlot })}.`,
      wouldHelp: 'More sleep before it.',
    };
  }
  return {
    reason: 'joint',
    ...common,
    text: `By itself it has a window (${at}); beside what is planned there is no room left for it, or all together would no longer hold in ${ofHundred(preparation.passage.settings.wantedProbability)}.`,
    wouldHelp: 'A lower wanted probability, a later end, or leaving another job out.',
  };
}

/** `: alertness 6.2, 8.15 needed`, rested until then as well as may be; empty: it is the end of the work that fails. */
function unfitText(preparation: Preparation, problem: PlanningProblem, of: { unit: Unit; startSlot: number }): string {
  const person = restUntil(problem, problem.start, of);
  const epochMs = slotEpochMs(problem.grid, of.startSlot);
  const [finding] = personFindings(of.unit.job.id, {
    state: gateStateAt(problem, person),
    gate: of.unit.gate,
    epochMs,
  });
  return finding === undefined ? '' : `: ${findingText(finding, slotWording(preparation))}`;
}
