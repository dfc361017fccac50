import { isLowHour } from '../../person/index.ts';
import { slotEpochMs } from '../../time/index.ts';
import type { PlanningProblem, Unit } from '../problem.ts';

/** Whether the user's orders and the body clock let a unit be worked in [beginSlot, endSlot]. */
export type AllowedSpan = (beginSlot: number, endSlot: number) => boolean;

/** Not before, finished by, locked, forbidden hours; and, for hard work, not in the low hours of the body clock. */
export function allowedSpan(problem: PlanningProblem, unit: Unit, handlingId: string): AllowedSpan {
  const { grid, orders, person } = problem;
  const order = orders.jobs.get(unit.job.id);
  const slotOf = (epochMs: number): number => (epochMs - grid.firstEpochMs) / (grid.slotMin * 60_000);
  const notBefore = slotOf(order?.notBeforeEpochMs ?? Number.NEGATIVE_INFINITY);
  const finishBy = slotOf(order?.finishByEpochMs ?? Number.POSITIVE_INFINITY);
  const forbidden = orders.forbidden
    .filter(({ jobId }) => jobId === null || jobId === unit.job.id)
    .map(({ fromEpochMs, toEpochMs }) => ({ fromSlot: slotOf(fromEpochMs), toSlot: slotOf(toEpochMs) }));
  const locked = lockedSlot(problem, unit);
  const isLow = (slot: number): boolean => unit.gate.noLowHours && isLowHour(person.todH[slot] ?? 0);
  if (
    order?.lockedHandlingId !== null &&
    order?.lockedHandlingId !== undefined &&
    order.lockedHandlingId !== handlingId
  )
    return () => false;
  return (begin, end) =>
    begin >= notBefore &&
    end <= finishBy &&
    (locked === null || begin === locked) &&
    !isLow(begin) &&
    !isLow(end) &&
    !forbidden.some(({ fromSlot, toSlot }) => begin < toSlot && end > fromSlot);
}

/** Slot the first work of a job is locked to; null: free. */
export function lockedSlot({ grid, orders, units }: PlanningProblem, unit: Unit): number | null {
  const lockedEpochMs = orders.jobs.get(unit.job.id)?.lockedStartEpochMs ?? null;
  const isFirst = units.find(({ job }) => job.id === unit.job.id)?.index === unit.index;
  if (lockedEpochMs === null || !isFirst) return null;
  return Math.round((lockedEpochMs - slotEpochMs(grid, 0)) / (grid.slotMin * 60_000));
}
