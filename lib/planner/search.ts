import { outlookOf } from './outlook.ts';
import type { UnitOutlook } from './unit-outlook.ts';
import { unitOutlook } from './unit-outlook.ts';
import type { BlockTable } from '../windows/index.ts';
import { isSubset, weightOf, weightOfBoth } from '../windows/index.ts';
import { place } from './place.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import { compareScores, scoreOf } from './score.ts';
import type { Decision, PlanState } from './state.ts';
import { readySlot, startOfPlan } from './state.ts';

/** How broad the search is. */
export interface SearchSettings {
  /** Plans kept per number of entries. */
  readonly planCount: number;
  /** Of them with the same jobs done. */
  readonly plansPerKindCount: number;
  /** Starts tried per unit and handling. */
  readonly startCount: number;
}

export interface Searched {
  /** Best first; plans of every length, since not everything can always be done. */
  readonly best: readonly PlanState[];
  readonly labelCount: number;
}

/**
 * Beam search, one entry at a time, over which unit comes next, how it is handled and when it starts.
 *
 * Every state is a legal plan, so there is always an answer. Plans are ranked by what can still become of them
 * (outlook), and a plan is dropped when another with the same jobs done is free earlier, better rested, holds in all of
 * its scenarios and costs no more.
 */
export function searchPlans(problem: PlanningProblem, settings: SearchSettings): Searched {
  const outlooks = problem.units.map((unit) => unitOutlook(problem, unit));
  const start = startOfPlan(problem);
  let frontier: PlanState[] = [start];
  const best: Ranked[] = [];
  let labelCount = 1;
  while (frontier.length > 0) {
    const children = frontier.flatMap((state) => childrenOf(problem, state, settings));
    labelCount += children.length;
    keepBest(problem, best, [...frontier, ...children]);
    frontier = narrowed(problem, children, { outlooks, settings });
  }
  return { best: best.map((ranked) => ranked.state), labelCount };
}

interface Ranked {
  readonly state: PlanState;
  readonly score: ReturnType<typeof scoreOf>;
}

const KEPT_PLANS = 6;

function keepBest(problem: PlanningProblem, best: Ranked[], states: readonly PlanState[]): void {
  for (const state of states) {
    const score = scoreOf(problem, state);
    const last = best.at(-1);
    if (best.length >= KEPT_PLANS && last && compareScores(score, last.score) >= 0) continue;
    best.push({ state, score });
    best.sort((a, b) => compareScores(a.score, b.score));
    if (best.length > KEPT_PLANS) best.pop();
  }
}

function childrenOf(problem: PlanningProblem, state: PlanState, settings: SearchSettings): PlanState[] {
  const children: PlanState[] = [];
  for (const unit of problem.units) {
    if ((state.finishedSlot[unit.index] ?? -1) >= 0) continue;
    const ready = readySlot(state, problem, unit);
    if (ready === null) continue;
    for (let handling = 0; handling < unit.handlings.length; handling++) {
      children.push(...startedAt(problem, state, { unit, handling, ready }, settings));
    }
  }
  return children;
}

/** The plan with one more entry; null when a rule refuses it or too few scenarios are left. */
export function tryPlace(problem: PlanningProblem, state: PlanState, decision: Decision): PlanState | null {
  const placement = place(problem, state, decision);
  if (!placement.ok) return null;
  const { placed } = placement;
  const weight =
    placed.unknownBits === 0 ? weightOf(placement.state.mask, problem.weights) : weightOf(placed.mask, problem.weights);
  return weight >= problem.neededWeight - 1e-6 ? placement.state : null;
}

/** How long after the first start of a run the next one is tried. */
const SPREAD_MIN = 120;

/**
 * The plans that follow from starting a unit: in every run of fair starts at the first that no rule refuses, some time
 * after it, and whenever more scenarios hold than at any start before.
 */
function startedAt(
  problem: PlanningProblem,
  state: PlanState,
  next: { unit: Unit; handling: number; ready: number },
  settings: SearchSettings,
): PlanState[] {
  const table = tableNow(problem, state, next);
  if (table === null) return [];
  const children: PlanState[] = [];
  const spreadSlots = Math.ceil(SPREAD_MIN / problem.grid.slotMin);
  let record = -1;
  let earliestEnd = Infinity;
  let tryFrom = next.ready;
  for (let i = next.ready; i < problem.untilSlot && children.length < settings.startCount; i++) {
    const weight = weightOfBoth(state.mask, table.masks, {
      wordOffsetIndex: i * table.wordCount,
      weights: problem.weights,
    });
    const isFair = (table.referenceSlots[i] ?? 0) > 0 && weight >= problem.neededWeight - 1e-6;
    if (!isFair) tryFrom = i + 1;
    // Pace is set at the start, so a later start may be over earlier.
    const end = i + (table.plannedMin[i] ?? 0) / problem.grid.slotMin;
    if (!isFair || (i < tryFrom && weight <= record && end >= earliestEnd)) continue;
    const child = tryPlace(problem, state, { unit: next.unit.index, handling: next.handling, startSlot: i });
    if (child === null) continue;
    children.push(child);
    record = Math.max(record, weight);
    earliestEnd = Math.min(earliestEnd, end);
    tryFrom = i + spreadSlots;
  }
  return children;
}

/** How the unit would fare from the present lag, rested; null: not under this handling with what is set. */
function tableNow(
  problem: PlanningProblem,
  state: PlanState,
  next: { unit: Unit; handling: number },
): BlockTable | null {
  const handling = next.unit.handlings[next.handling];
  if (handling === undefined || !handling.sailStates.includes(state.sailStateId)) return null;
  const leftMin = state.leftMin[next.unit.index] ?? 0;
  const workMin = Math.min(leftMin, next.unit.block.session?.longestMin ?? Infinity);
  const { sailStateId, lagNm } = state;
  return problem.tableFor(next.unit, { handling, sailStateId, workMin, resumeMin: 0, tiredRatio: 1, lagNm });
}

function narrowed(
  problem: PlanningProblem,
  children: readonly PlanState[],
  by: { outlooks: readonly UnitOutlook[]; settings: SearchSettings },
): PlanState[] {
  const ranked = children.map((state) => ({
    state,
    key: progressKey(problem, state),
    outlook: outlookOf(problem, state, by.outlooks),
  }));
  ranked.sort(
    (a, b) =>
      b.outlook.priorityWeight - a.outlook.priorityWeight ||
      steps(problem, b.outlook.jointWeight) - steps(problem, a.outlook.jointWeight) ||
      a.state.slot - b.state.slot ||
      a.state.exposurePoints - b.state.exposurePoints ||
      compareKeys(a.key, b.key),
  );
  const byKey = new Map<string, PlanState[]>();
  const turns: { state: PlanState; turnIndex: number; rankIndex: number }[] = [];
  for (const [rankIndex, { state, key }] of ranked.entries()) {
    const same = byKey.get(key) ?? [];
    if (same.length >= by.settings.plansPerKindCount || same.some((other) => dominates(other, state))) continue;
    turns.push({ state, turnIndex: same.length, rankIndex });
    same.push(state);
    byKey.set(key, same);
  }
  // The best of every kind first, then the second best: a kind that looks worse now may be the only one that ends well.
  turns.sort((a, b) => a.turnIndex - b.turnIndex || a.rankIndex - b.rankIndex);
  return turns.slice(0, by.settings.planCount).map(({ state }) => state);
}

const steps = (problem: PlanningProblem, weight: number): number => Math.floor(weight / problem.toleranceWeight);

const compareKeys = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

/** Plans of one kind: the same work done, the same sail set, on the same day. */
function progressKey(problem: PlanningProblem, state: PlanState): string {
  const dayIndex = Math.floor(((state.slot - problem.fromSlot) * problem.grid.slotMin) / (24 * 60));
  return `${dayIndex} ${state.sailStateId} ${state.leftMin.join(' ')}`;
}

function dominates(a: PlanState, b: PlanState): boolean {
  return (
    a.slot <= b.slot &&
    a.person.s >= b.person.s - 0.05 &&
    a.exposurePoints <= b.exposurePoints + 1 &&
    a.lagNm <= b.lagNm + 1 &&
    isSubset(b.mask, a.mask)
  );
}
