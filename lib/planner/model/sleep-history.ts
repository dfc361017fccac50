import { gateFindings, type Gate } from '../../person/index.ts';
import type { Choice, RestModel, SlotSleep } from '../../schedule/index.ts';
import { gateStateAt } from '../place.ts';
import type { PersonAtSlot, PlanningProblem } from '../problem.ts';
import { personAfterSleeps, stayAwake } from '../rest.ts';

/**
 * Gates that ask what was slept over days: lapses of the unified model, and the prior sleep rule. S alone does not know
 * it, so the search asks here, with the sleeps placed so far, at both ends of the work.
 *
 * @param gates what bars each choice; choices that are not in it are free
 * @returns null: no choice is barred by such a rule
 */
export function sleepHistoryRule(
  problem: PlanningProblem,
  gates: ReadonlyMap<Choice, Gate>,
): RestModel['refusesHistory'] {
  if (gates.size === 0) return null;
  const asked = new Map([...gates].map(([choice, gate]) => [choice, historyPart(gate)]));
  const sleepless = sleeplessLapses(problem);
  const personAfter = rememberLast((sleeps: readonly SlotSleep[]) => afterSleeps(problem, sleeps));
  return (choice, work, sleeps) => {
    const gate = asked.get(choice);
    if (gate === undefined) return false;
    const slots = [problem.fromSlot + work.beginSlot, problem.fromSlot + work.endSlot];
    // Sleep only lowers lapses: what holds without any need not be asked.
    if (!gate.priorSleepRule && slots.every((slot) => (sleepless[slot] ?? Infinity) <= (gate.mostLapses ?? Infinity)))
      return false;
    const person = personAfter(sleeps);
    return slots.some(
      (slot) => gateFindings(gateStateAt(problem, stayAwake(person, slot, problem.grid.slotMin)), gate).length > 0,
    );
  };
}

/** Whether a gate asks about more than the state of the search holds. */
export const asksHistory = (gate: Gate): boolean => gate.priorSleepRule || gate.mostLapses !== null;

/** What of a gate the state of the search cannot answer. */
const historyPart = (gate: Gate): Gate => ({
  leastAlertnessPoints: Number.NEGATIVE_INFINITY,
  mostLapses: gate.mostLapses,
  noLowHours: false,
  longestAwakeH: null,
  inertiaMultiplierRatio: 0,
  priorSleepRule: gate.priorSleepRule,
});

/** Lapses of someone who does not sleep from the beginning of the plan on, by slot of the passage. */
function sleeplessLapses(problem: PlanningProblem): Float64Array {
  const lapses = new Float64Array(problem.untilSlot + 1);
  for (let slot = problem.fromSlot; slot <= problem.untilSlot; slot++)
    lapses[slot] = gateStateAt(problem, stayAwake(problem.start, slot, problem.grid.slotMin)).lapses;
  return lapses;
}

function afterSleeps(problem: PlanningProblem, planned: readonly SlotSleep[]): PersonAtSlot {
  const sleeps = planned.map(({ fromSlot, toSlot }) => ({
    fromSlot: fromSlot + problem.fromSlot,
    toSlot: toSlot + problem.fromSlot,
  }));
  return personAfterSleeps(problem.start, problem.person, sleeps, problem.grid.slotMin);
}

/** The search asks about the sleeps of one partial plan many times in a row. */
function rememberLast<Key extends object, Value>(of: (key: Key) => Value): (key: Key) => Value {
  let last: { readonly key: Key; readonly value: Value } | null = null;
  return (key) => {
    if (last === null || last.key !== key) last = { key, value: of(key) };
    return last.value;
  };
}
