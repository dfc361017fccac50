import { gateFindings, kssFromAlertness, tiredFactorRatio } from '../person/index.ts';
import { gateStateAt } from './place.ts';
import type { PersonAtSlot, PlanningProblem, SlotSleep } from './problem.ts';
import { LOOKOUT_MIN } from './rest.ts';
import type { Placed } from './state.ts';
import { timelineOf } from './timeline.ts';

type Work = Pick<Placed, 'unit' | 'startSlot' | 'endSlot' | 'settleSlots' | 'tiredRatio'>;

/**
 * Sleep a plan must hold on to.
 *
 * The search places the least sleep that opens the gates, in pieces wherever they are cheapest. Between two works the
 * pieces are given up for whole sleeps where these bring the person through every gate that follows, and no more tired
 * than planned: first for the usual policy of rest alone (`rest.ts`), else for as much sleep as was searched, in sleeps
 * as long as the traffic allows, up to the same waking.
 */
export function wholeSleep(
  problem: PlanningProblem,
  of: { work: readonly Work[]; plannedSleeps: readonly SlotSleep[] },
): readonly SlotSleep[] {
  let kept = of.plannedSleeps;
  let fromSlot = problem.fromSlot;
  for (const entry of of.work) {
    const gap = { fromSlot, toSlot: entry.startSlot };
    fromSlot = entry.endSlot;
    const inGap = kept.filter((sleep) => sleep.fromSlot >= gap.fromSlot && sleep.fromSlot < gap.toSlot);
    if (inGap.length === 0) continue;
    const others = kept.filter((sleep) => !inGap.includes(sleep));
    const better = [others, inOrder([...others, ...packed(problem, inGap, gap.fromSlot)])].find((sleeps) =>
      isFitThroughout(problem, of.work, sleeps),
    );
    kept = better ?? kept;
  }
  return kept;
}

const inOrder = (sleeps: readonly SlotSleep[]): SlotSleep[] => sleeps.toSorted((a, b) => a.fromSlot - b.fromSlot);

/** At least as much sleep as some pieces, in the longest sleeps allowed, a look round between them, up to the last waking. */
function packed(problem: PlanningProblem, pieces: readonly SlotSleep[], fromSlot: number): SlotSleep[] {
  const { longestSleepSlots } = problem.person;
  const lookoutSlots = Math.ceil(LOOKOUT_MIN / problem.grid.slotMin);
  let leftSlots = pieces.reduce((sum, sleep) => sum + sleep.toSlot - sleep.fromSlot, 0);
  let toSlot = pieces.at(-1)?.toSlot ?? fromSlot;
  const sleeps: SlotSleep[] = [];
  while (leftSlots > 0 && toSlot > fromSlot) {
    const start = Math.max(fromSlot, toSlot - longestSleepSlots);
    sleeps.push({ fromSlot: start, toSlot });
    leftSlots -= toSlot - start;
    toSlot = start - lookoutSlots;
  }
  return sleeps.toReversed();
}

function isFitThroughout(
  problem: PlanningProblem,
  work: readonly Work[],
  plannedSleeps: readonly SlotSleep[],
): boolean {
  const { atStarts, atEnds } = timelineOf({
    start: problem.start,
    facts: problem.person,
    slotMin: problem.grid.slotMin,
    placed: work,
    units: problem.units,
    plannedSleeps,
    lookoutSlots: Math.ceil(LOOKOUT_MIN / problem.grid.slotMin),
    toSlot: work.at(-1)?.endSlot ?? problem.fromSlot,
  });
  return work.every((entry, k) => {
    const [start, end] = [atStarts[k], atEnds[k]];
    return start !== undefined && end !== undefined && isFit(problem, entry, { start, end });
  });
}

function isFit(problem: PlanningProblem, entry: Work, of: { start: PersonAtSlot; end: PersonAtSlot }): boolean {
  const gate = problem.units[entry.unit]?.gate;
  if (gate === undefined) return false;
  const alertness = of.start.s + (problem.person.rhythm[of.start.slot] ?? 0);
  const tiredRatio = tiredFactorRatio(kssFromAlertness(alertness), problem.person.watchkeeper.timeFactors);
  const passes = (person: PersonAtSlot): boolean => gateFindings(gateStateAt(problem, person), gate).length === 0;
  return tiredRatio !== null && tiredRatio <= entry.tiredRatio + 1e-9 && passes(of.start) && passes(of.end);
}
