import type { Configs } from '../../schedule/index.ts';
import type { PlanningProblem } from '../problem.ts';
import { QUANTUM_NM } from './lag-quanta.ts';

/** Configs of the boat: what is set, and the handling she has just been worked under (none: on her course). */
export interface SailConfigs {
  readonly configs: Configs;
  readonly sailStateIds: readonly string[];
  indexOf(sailStateId: string, handlingId: string | null): number;
  /** Miles that counting in whole quanta leaves out of what is lost by instant t, sailing on in a state; 0 to one quantum. */
  roundingNm(sailStateId: string, t: number): number;
  /** Slots to settle the boat under a handling of one sail state, by config; −1: another sail state. */
  changeSlots(sailStateId: string, handling: { readonly id: string; readonly settleMin: number }): Int16Array;
}

/** Every sail state the plan may pass through, with every handling. Waiting and sleeping, the boat goes back on her course. */
export function sailConfigs(problem: PlanningProblem): SailConfigs {
  const sailStateIds = statesPassed(problem);
  const handlingIds = [...new Set(problem.units.flatMap((unit) => unit.handlings.map(({ id }) => id)))];
  const perState = handlingIds.length + 1;
  const indexOf = (sailStateId: string, handlingId: string | null): number =>
    sailStateIds.indexOf(sailStateId) * perState + (handlingId === null ? 0 : handlingIds.indexOf(handlingId) + 1);
  const count = sailStateIds.length * perState;
  const afterWait = Int32Array.from({ length: count }, (_, config) => config - (config % perState));
  const lostByState = sailStateIds.map((id) => lostQuantaBefore(problem, id));
  const waitQuanta = new Int32Array(count * lostLength(problem));
  for (let config = 0; config < count; config++) {
    const lost = lostByState[Math.floor(config / perState)];
    if (lost !== undefined) waitQuanta.set(lost, config * lostLength(problem));
  }
  const start = indexOf(problem.startSailStateId, null);
  return {
    configs: { count, start, afterWait, waitQuanta },
    sailStateIds,
    indexOf,
    roundingNm: (sailStateId, t) => {
      const span = { fromSlot: problem.fromSlot, toSlot: problem.fromSlot + t };
      const quanta = lostByState[sailStateIds.indexOf(sailStateId)]?.[t] ?? 0;
      return lostNmSailing(problem, sailStateId, span) - quanta * QUANTUM_NM;
    },
    changeSlots: (sailStateId, handling) =>
      Int16Array.from({ length: count }, (_, config) => {
        if (sailStateIds[Math.floor(config / perState)] !== sailStateId) return -1;
        const isSettled = config === indexOf(sailStateId, handling.id);
        return isSettled ? 0 : Math.ceil(handling.settleMin / problem.grid.slotMin);
      }),
  };
}

function statesPassed(problem: PlanningProblem): string[] {
  const changes = problem.units.flatMap(({ block }) => block.sailStateAfter ?? []);
  return [...new Set([problem.startSailStateId, ...changes])];
}

const lostLength = (problem: PlanningProblem): number => problem.untilSlot - problem.fromSlot + 1;

/** Whole quanta behind the nominal voyage at each slot when the rest of the way is sailed in a state; rounded once, not per slot. */
function lostQuantaBefore(problem: PlanningProblem, sailStateId: string): Int32Array {
  return Int32Array.from({ length: lostLength(problem) }, (_, t) =>
    Math.floor(
      lostNmSailing(problem, sailStateId, { fromSlot: problem.fromSlot, toSlot: problem.fromSlot + t }) / QUANTUM_NM,
    ),
  );
}

/** Miles lost between two slots by sailing on in a state. */
export function lostNmSailing(
  problem: PlanningProblem,
  sailStateId: string,
  span: { fromSlot: number; toSlot: number },
): number {
  return problem.lag.lostNm(0, { handling: null, sailStateId, ...span });
}
