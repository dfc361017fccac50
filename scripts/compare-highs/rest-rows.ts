/**
 * Alertness in the linear model. S only needs bounds from above, because every rule asks for enough of it: awake, S after a
 * slot is at most a s + b of waking; asleep, of sleep, which is never less while S is below what sleep tends to.
 */
import type { RestModel } from '../../lib/schedule/index.ts';
import type { LinearProgram, Term } from './linear-program.ts';
import type { SleepStart, WorkStart } from './starts.ts';

interface Line {
  readonly slope: number;
  readonly constant: number;
}

/** A function of one slot that is a straight line in S, as both models of approach are. */
const lineOf = (step: (s: number) => number): Line => ({ slope: step(1) - step(0), constant: step(0) });

const sName = (t: number): string => `s${t}`;
const endName = (t: number): string => `end${t}`;

export function addRestRows(
  program: LinearProgram,
  rest: RestModel,
  slotCount: number,
  { works, sleeps }: { works: readonly WorkStart[]; sleeps: readonly SleepStart[] },
): void {
  const awake = lineOf((s) => rest.awakeS(s, 1));
  const asleep = lineOf((s) => rest.asleepS(s, 1));
  const mostS = Math.max(rest.startS, asleep.constant / (1 - asleep.slope));
  const gain = asleep.constant - awake.constant;
  for (let t = 0; t <= slotCount; t++)
    program.addContinuous(sName(t), t === 0 ? rest.startS : 0, t === 0 ? rest.startS : mostS);
  for (let t = 0; t < slotCount; t++) {
    const sleeping = sleeps.filter(({ beginSlot, wokeSlot }) => beginSlot <= t && t < wokeSlot);
    program.addRow(
      [[1, sName(t + 1)], [-awake.slope, sName(t)], ...sleeping.map(({ name }): Term => [-gain, name])],
      '<=',
      awake.constant,
    );
    program.addRow(
      [
        [1, sName(t + 1)],
        [-asleep.slope, sName(t)],
      ],
      '<=',
      asleep.constant,
    );
  }
  addAlertnessRows(program, rest, slotCount, works);
  addEndRows(program, rest.leastEndS, slotCount);
}

/** At most one piece of work ends at an instant, so one row holds for all of them. */
function addAlertnessRows(
  program: LinearProgram,
  { rhythmPoints }: RestModel,
  slotCount: number,
  works: readonly WorkStart[],
): void {
  for (let t = 1; t <= slotCount; t++) {
    const asks = works
      .filter(({ endSlot }) => endSlot === t)
      .map(({ leastEndPoints, name }): Term => [leastEndPoints - (rhythmPoints[t] ?? 0), name])
      .filter(([leastS]) => leastS > 0);
    if (asks.length > 0) program.addRow([[-1, sName(t)], ...asks], '<=', 0);
  }
}

/** The plan is over from some instant on, at which S is enough; nothing is done after it. */
function addEndRows(program: LinearProgram, leastEndS: number, slotCount: number): void {
  const instants = Array.from({ length: slotCount + 1 }, (_, t) => t);
  for (const t of instants) {
    program.addBinary(endName(t));
    program.addRow(
      [
        [leastEndS, endName(t)],
        [-1, sName(t)],
      ],
      '<=',
      0,
    );
  }
  program.addRow(
    instants.map((t): Term => [1, endName(t)]),
    '=',
    1,
  );
  for (let t = 0; t < slotCount; t++) {
    program.addContinuous(`over${t}`, 0, 1);
    const before: Term[] = t === 0 ? [] : [[-1, `over${t - 1}`]];
    program.addRow([[1, `over${t}`], ...before, [-1, endName(t)]], '=', 0);
  }
}
