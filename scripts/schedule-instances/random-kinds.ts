/** The tasks of the random family. */
import { type InstanceSpec, slotsOf } from './instance-spec.ts';
import { HANDLINGS, type TaskKind } from './task-kinds.table.ts';

/** Chance that a task waits for one of the four before it. */
const PRECEDENCE_PROBABILITY = 0.15;

export function drawKinds(spec: InstanceSpec, uniform: () => number): readonly TaskKind[] {
  return Array.from({ length: spec.taskCount }, (_, index) => drawKind(index, spec, uniform));
}

function drawKind(index: number, { slotMin }: InstanceSpec, uniform: () => number): TaskKind {
  const isDaywork = uniform() < 0.4;
  const earlier = Array.from({ length: Math.min(4, index) }, (_, i) => index - 1 - i);
  return {
    name: `task ${index + 1}`,
    workMin: slotsOf(30 + 90 * uniform(), slotMin) * slotMin,
    windLimitKn: 13 + 7 * uniform(),
    waveLimitM: 1.7 + 0.9 * uniform(),
    needsLight: isDaywork,
    alertnessPoints: 5 + 2.3 * uniform(),
    handlings: drawTwo(HANDLINGS.length, uniform),
    after: earlier.filter(() => uniform() < PRECEDENCE_PROBABILITY),
    sessions: null,
    mainsail: null,
  };
}

/** Two different numbers below `count`, in order. */
function drawTwo(count: number, uniform: () => number): readonly number[] {
  const first = Math.floor(uniform() * count);
  const other = (first + 1 + Math.floor(uniform() * (count - 1))) % count;
  return [Math.min(first, other), Math.max(first, other)];
}
