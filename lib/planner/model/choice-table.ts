import type { ChoiceTable } from '../../schedule/index.ts';
import type { BlockTable } from '../../windows/index.ts';
import { maskWordCount } from '../../windows/index.ts';
import type { PlanningProblem, Unit, UnitWork } from '../problem.ts';
import { exposurePoints, POINTS_PER_LOST_NM, tiredPoints } from '../score.ts';
import type { LagRows } from './lag-quanta.ts';
import { QUANTUM_NM } from './lag-quanta.ts';
import type { AllowedSpan } from './start-rules.ts';

/** What a table is made for: one unit, worked in one way. */
export interface TabledWork {
  readonly unit: Unit;
  readonly work: Omit<UnitWork, 'lagNm'>;
  readonly allowed: AllowedSpan;
  /** Miles that whole quanta leave out by an instant: of the state it is worked in, and of the state it leaves. */
  readonly roundingBeforeNm: (t: number) => number;
  readonly roundingAfterNm: (t: number) => number;
  /** Starts with a limit unknown are allowed. */
  readonly conditional: boolean;
}

interface Filling {
  readonly problem: PlanningProblem;
  readonly tabled: TabledWork;
  readonly slotCount: number;
  readonly into: ChoiceTable;
}

/** Every start of a unit, at every lag: how long, at what cost, how far behind, and in which scenarios it holds. */
export function choiceTable(problem: PlanningProblem, rows: LagRows, tabled: TabledWork): ChoiceTable {
  const slotCount = problem.untilSlot - problem.fromSlot;
  const size = rows.rowLagNm.length * slotCount;
  const into: ChoiceTable = {
    durationSlots: new Uint16Array(size),
    costPoints: new Int32Array(size),
    lossQuanta: new Int16Array(size),
    masks: Array.from({ length: maskWordCount(problem.weights.length) }, () => new Int32Array(size)),
  };
  for (const [row, lagNm] of rows.rowLagNm.entries()) {
    const table = problem.tableFor(tabled.unit, { ...tabled.work, lagNm });
    const light = problem.lag.conditionsAt(lagNm).light;
    for (let t = 0; t < slotCount; t++) {
      fillStart({ problem, tabled, slotCount, into }, { table, light, lagNm, cellIndex: row * slotCount + t, t });
    }
  }
  return into;
}

function fillStart(
  { problem, tabled, slotCount, into }: Filling,
  of: { table: BlockTable; light: Uint8Array; lagNm: number; cellIndex: number; t: number },
): void {
  const { table, lagNm, cellIndex, t } = of;
  const slot = problem.fromSlot + t;
  const plannedMin = table.plannedMin[slot] ?? Number.NaN;
  if (Number.isNaN(plannedMin) || (table.weight[slot] ?? 0) < problem.neededWeight - 1e-6) return;
  if (!tabled.conditional && (table.unknownBits[slot] ?? 0) !== 0) return;
  const { slotMin } = problem.grid;
  const slots = Math.max(1, Math.ceil(plannedMin / slotMin - 1e-6));
  if (t + slots > slotCount || !tabled.allowed(slot, slot + slots)) return;
  const { handling, sailStateId, tiredRatio } = tabled.work;
  const lostNm = problem.lag.lostNm(lagNm, { handling, sailStateId, fromSlot: slot, toSlot: slot + slots });
  const lossQuanta = Math.round(lostNm / QUANTUM_NM);
  const exposure = exposurePoints(tabled.unit, {
    plannedMin,
    lightIndex: of.light[slot] ?? 0,
    tiredPoints: tiredPoints(tiredRatio),
  });
  // Whole quanta are charged by the search itself; what rounding leaves, of the work and of the way before and after it,
  // is charged here, so that the miles of a plan add up.
  const roundingNm = lostNm - lossQuanta * QUANTUM_NM + tabled.roundingBeforeNm(t) - tabled.roundingAfterNm(t + slots);
  into.durationSlots[cellIndex] = slots;
  into.costPoints[cellIndex] = Math.round(exposure + roundingNm * POINTS_PER_LOST_NM);
  into.lossQuanta[cellIndex] = lossQuanta;
  for (const [word, mask] of into.masks.entries()) mask[cellIndex] = table.masks[slot * table.wordCount + word] ?? 0;
}
