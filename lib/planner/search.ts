import type { UnitOutlook } from './outlook.ts';
import { outlookOf, unitOutlook } from './outlook.ts';
import { isSubset, weightOf, weightOfBoth } from '../windows/index.ts';
import { place } from './place.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import { compareScores, scoreOf } from './score.ts';
import type { Decision, PlanState } from './state.ts';
import { readySlot, startOfPlan } from './state.ts';

/** How broad the search is. */
export interface SearchSettings {
  /** Plans kept per number of entries. */
  readonly width: number;
  /** Of them with the same jobs done. */
  readonly widthPerProgress: number;
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
  let frontier: PlanState[] = [startOfPlan(problem)];
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
      for (const startSlot of startsToTry(problem, state, { unit, handling, ready }, settings)) {
        const child = tryPlace(problem, state, { unit: unit.index, handling, startSlot });
        if (child !== null) children.push(child);
      }
    }
  }
  return children;
}

/** The plan with one more entry; null when a rule refuses it or too few scenarios are left. */
export function tryPlace(problem: PlanningProblem, state: PlanState, decision: Decision): PlanState | null {
  const placement = place(problem, state, decision);
  if (!placement.ok) return null;
  const { placed } = placement;
  const weight = placed.unknownBits === 0 ? weightOf(placement.state.mask, problem.weights) : weightOf(placed.mask, problem.weights);
  return weight >= problem.neededWeight - 1e-6 ? placement.state : null;
}

/**
 * Starts worth trying: the first that keeps enough scenarios, every later one that keeps more than any before it, and
 * the best of each later run of fair starts.
 */
function startsToTry(
  problem: PlanningProblem,
  state: PlanState,
  next: { unit: Unit; handling: number; ready: number },
  settings: SearchSettings,
): number[] {
  const handling = next.unit.handlings[next.handling];
  if (handling === undefined || !handling.sailStates.includes(state.sailStateId)) return [];
  const leftMin = state.leftMin[next.unit.index] ?? 0;
  const workMin = Math.min(leftMin, next.unit.block.session?.longestMin ?? Infinity);
  const table = problem.tableFor(next.unit, {
    handling,
    sailStateId: state.sailStateId,
    workMin,
    resumeMin: 0,
    tiredRatio: 1,
    lagNm: state.lagNm,
  });
  const starts: number[] = [];
  let record = -1;
  let inRun = false;
  let runBest = { slot: -1, weight: -1 };
  for (let i = next.ready; i < problem.grid.slotCount && starts.length < settings.startCount; i++) {
    const weight = weightOfBoth(state.mask, table.masks, { offsetWords: i * table.words, weights: problem.weights });
    const fair = (table.referenceSlots[i] ?? 0) > 0 && weight >= problem.neededWeight - 1e-6;
    if (fair && weight > runBest.weight) runBest = { slot: i, weight };
    if (fair && (!inRun || weight > record)) starts.push(i);
    if (fair) record = Math.max(record, weight);
    if (!fair && inRun) {
      if (!starts.includes(runBest.slot)) starts.push(runBest.slot);
      runBest = { slot: -1, weight: -1 };
    }
    inRun = fair;
  }
  return starts;
}

function narrowed(
  problem: PlanningProblem,
  children: readonly PlanState[],
  by: { outlooks: readonly UnitOutlook[]; settings: SearchSettings },
): PlanState[] {
  const ranked = children.map((state) => ({ state, key: progressKey(state), outlook: outlookOf(problem, state, by.outlooks) }));
  ranked.sort(
    (a, b) =>
      b.outlook.priorityWeight - a.outlook.priorityWeight ||
      steps(problem, b.outlook.jointWeight) - steps(problem, a.outlook.jointWeight) ||
      a.state.slot - b.state.slot ||
      a.state.exposurePoints - b.state.exposurePoints ||
      compareKeys(a.key, b.key),
  );
  const kept: PlanState[] = [];
  const byKey = new Map<string, PlanState[]>();
  for (const { state, key } of ranked) {
    const same = byKey.get(key) ?? [];
    if (kept.length >= by.settings.width) break;
    if (same.length >= by.settings.widthPerProgress || same.some((other) => dominates(other, state))) continue;
    same.push(state);
    byKey.set(key, same);
    kept.push(state);
  }
  return kept;
}

const steps = (problem: PlanningProblem, weight: number): number => Math.floor(weight / problem.toleranceWeight);

const compareKeys = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

const progressKey = (state: PlanState): string => `${state.sailStateId} ${state.leftMin.join(' ')}`;

function dominates(a: PlanState, b: PlanState): boolean {
  return (
    a.slot <= b.slot &&
    a.person.s >= b.person.s - 0.05 &&
    a.exposurePoints <= b.exposurePoints + 1 &&
    a.lagNm <= b.lagNm + 1 &&
    isSubset(b.mask, a.mask)
  );
}
