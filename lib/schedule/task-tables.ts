import type { EndTables } from './end-tables.ts';
import type { Model } from './model.ts';
import type { StartOutcomes } from './open-starts.ts';
import { STEPS_PER_SLOT } from './rest-grid.ts';
import { f64, i32, item } from './typed-reads.ts';

/** Least cost of sleep that lets a task be done with some units left, and after it those that follow and must be done. */
export class TaskTables {
  private readonly model: Model;
  private readonly ends: EndTables;
  private readonly outcomes: readonly StartOutcomes[];
  private readonly must: readonly boolean[];
  private readonly tables = new Map<string, Int32Array>();
  private readonly before: readonly (readonly number[])[];

  /** @param outcomes of the choices, from the starts that are open */
  constructor(
    model: Model,
    ends: EndTables,
    of: { readonly outcomes: readonly StartOutcomes[]; readonly must: readonly boolean[] },
  ) {
    this.model = model;
    this.ends = ends;
    this.outcomes = of.outcomes;
    this.must = of.must;
    this.before = model.problem.tasks.map((_, task) => this.followed(task));
  }

  /** Tasks that must be done and that a task comes after, at any remove. */
  beforeOf(task: number): readonly number[] {
    return item(this.before, task);
  }

  /** By instant and step of the rest grid. */
  table(task: number, unitsLeft: number): Int32Array {
    const key = `${task} ${unitsLeft}`;
    const known = this.tables.get(key);
    if (known !== undefined) return known;
    const made = this.make(task, unitsLeft);
    this.tables.set(key, made);
    return made;
  }

  private make(task: number, unitsLeft: number): Int32Array {
    const { stepCount } = this.ends.grid;
    const works = this.worksByInstant(task, unitsLeft);
    const lastSlot = works.findLastIndex((atOnce) => atOnce.length > 0);
    return this.ends.fill(lastSlot, (values, { t, from }) => {
      for (const { endSlot, lowestStep, later } of works[t] ?? [])
        for (let step = 0; step <= lowestStep; step++) {
          const after = endSlot * stepCount + Math.min(stepCount - 1, step + (endSlot - t) * STEPS_PER_SLOT);
          let cost = 0;
          for (const table of later) cost = Math.max(cost, i32(table, after));
          if (cost < i32(values, from + step)) values[from + step] = cost;
        }
    });
  }

  private worksByInstant(task: number, unitsLeft: number): readonly (readonly Work[])[] {
    const works: Work[][] = Array.from({ length: this.ends.slotCount + 1 }, () => []);
    for (const choiceIndex of item(this.model.choicesOfTask, task)) {
      const { choice } = item(this.model.choices, choiceIndex);
      const left = unitsLeft - choice.unitCount;
      if (left < 0 || (choice.onlyToFinish && left > 0)) continue;
      const later = left > 0 ? [this.table(task, left)] : [this.ends.endingFrom(0), ...this.followers(task)];
      const { from, durationSlots } = item(this.outcomes, choiceIndex);
      for (let t = 0; t < this.ends.slotCount; t++)
        for (let k = i32(from, t); k < i32(from, t + 1); k++) {
          const endSlot = t + item(durationSlots, k);
          works[t]?.push({ endSlot, lowestStep: this.lowestStep(choiceIndex, t, endSlot), later });
        }
    }
    return works.map(withoutWorse);
  }

  /** Lowest step from which the work can be begun at an instant; −1: from none. */
  private lowestStep(choiceIndex: number, beginSlot: number, endSlot: number): number {
    const { gate } = item(this.model.choices, choiceIndex).choice;
    const { rest } = this.model.problem;
    const { grid } = this.ends;
    if (gate === null || rest === null) return grid.stepCount - 1;
    const atBegin = this.ends.lowestStepWith(gate.leastStartPoints - f64(rest.rhythmPoints, beginSlot));
    const atEnd = this.ends.lowestStepWith(gate.leastEndPoints - f64(rest.rhythmPoints, endSlot));
    // The lowest step stands for all below it: who ends there may have begun on any.
    if (atEnd === grid.stepCount - 1) return atBegin;
    return Math.min(atBegin, atEnd - (endSlot - beginSlot) * STEPS_PER_SLOT);
  }

  private followers(task: number): readonly Int32Array[] {
    // Who waits for himself is never done: that bounds nothing.
    if (this.beforeOf(task).includes(task)) return [];
    return this.model.problem.tasks.flatMap(({ after, unitCount }, follower) =>
      this.must[follower] === true && after.some((before) => before.task === task)
        ? [this.table(follower, unitCount)]
        : [],
    );
  }

  private followed(task: number): readonly number[] {
    const found = new Set<number>();
    const add = (of: number): void => {
      for (const { task: before } of item(this.model.problem.tasks, of).after) {
        if (found.has(before)) continue;
        found.add(before);
        add(before);
      }
    };
    add(task);
    return [...found].filter((before) => this.must[before] === true);
  }
}

interface Work {
  readonly endSlot: number;
  readonly lowestStep: number;
  readonly later: readonly Int32Array[];
}

/** Of works that end together and lead on alike, the one that asks least of the worker. */
function withoutWorse(works: readonly Work[]): readonly Work[] {
  const isSame = (a: Work, b: Work): boolean => a.endSlot === b.endSlot && a.later[0] === b.later[0];
  return works.filter(
    (work, k) =>
      work.lowestStep >= 0 &&
      !works.some(
        (other, j) =>
          isSame(other, work) &&
          (other.lowestStep > work.lowestStep || (other.lowestStep === work.lowestStep && j < k)),
      ),
  );
}
