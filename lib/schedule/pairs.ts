import type { Model } from './model.ts';
import type { OpenStarts } from './open-starts.ts';
import { START_STRIDE } from './open-starts.ts';
import { ScenarioSets } from './scenario-sets.ts';
import { i32, item, u8 } from './typed-reads.ts';

/** Rounds of closing starts: each may close what the one before left without a partner. */
const MOST_ROUNDS = 3;

/**
 * Closes the starts that leave too little of the joint set whenever some other task that must be done is worked, before
 * or after them. Changes `open`.
 */
export function closeWithoutPartner(
  model: Model,
  open: OpenStarts,
  asked: { readonly must: readonly boolean[]; readonly leastWeight: number },
): void {
  for (let round = 0; round < MOST_ROUNDS; round++) if (!closeOnce(model, open, asked)) return;
}

function closeOnce(
  model: Model,
  open: OpenStarts,
  { must, leastWeight }: { readonly must: readonly boolean[]; readonly leastWeight: number },
): boolean {
  const partners = must.flatMap((isMust, task) =>
    isMust && item(model.narrows, task) ? [partnerOf(model, open, task)] : [],
  );
  let isChanged = false;
  model.choices.forEach(({ task, narrows }, choice) => {
    if (!narrows) return;
    const others = partners.filter((partner) => partner.task !== task);
    if (closeStarts(model, open, choice, (start) => others.some((other) => !goesWith(other, start, leastWeight))))
      isChanged = true;
  });
  return isChanged;
}

/** Scenario sets of a task's work, by when it begins and by when it is over. */
interface Partner {
  readonly task: number;
  readonly later: ScenarioSets;
  readonly earlier: ScenarioSets;
  /** Tasks that come before it, and after it: they leave it one side only. */
  readonly before: ReadonlySet<number>;
  readonly after: ReadonlySet<number>;
}

interface Start {
  readonly task: number;
  readonly beginSlot: number;
  readonly endSlot: number;
  readonly mask: Int32Array;
}

function partnerOf(model: Model, open: OpenStarts, task: number): Partner {
  const { tasks } = model.problem;
  return {
    task,
    later: ScenarioSets.later(model, open, task),
    earlier: ScenarioSets.earlier(model, open, task),
    before: new Set(item(tasks, task).after.map((before) => before.task)),
    after: new Set(tasks.flatMap(({ after }, other) => (after.some((before) => before.task === task) ? [other] : []))),
  };
}

function goesWith(partner: Partner, { task, beginSlot, endSlot, mask }: Start, leastWeight: number): boolean {
  return (
    (!partner.after.has(task) && partner.later.leavesEnough(endSlot, mask, 0, leastWeight)) ||
    (!partner.before.has(task) && partner.earlier.leavesEnough(beginSlot, mask, 0, leastWeight))
  );
}

/** Closes the starts of a choice that are to be closed; whether there were any. */
function closeStarts(model: Model, open: OpenStarts, choice: number, isToClose: (start: Start) => boolean): boolean {
  const { rowCount, slotCount } = model.problem;
  const { task, choice: own } = item(model.choices, choice);
  const starts = item(open.starts, choice);
  const isOpen = item(open.isOpen, choice);
  const mask = new Int32Array(model.scale.wordCount);
  let isChanged = false;
  for (let t = i32(open.firstSlot, choice); t < slotCount; t++) {
    if (u8(isOpen, t) === 0) continue;
    let openRows = 0;
    for (let row = 0; row < rowCount; row++) {
      const start = ((t - i32(open.firstSlot, choice)) * rowCount + row) * START_STRIDE;
      const slots = i32(starts, start);
      if (slots === 0) continue;
      for (let word = 0; word < mask.length; word++) mask[word] = i32(item(own.table.masks, word), row * slotCount + t);
      if (isToClose({ task, beginSlot: t, endSlot: t + slots, mask })) starts[start] = 0;
      else openRows++;
      if (starts[start] === 0) isChanged = true;
    }
    if (openRows === 0) isOpen[t] = 0;
  }
  return isChanged;
}
