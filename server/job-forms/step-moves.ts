import { freeId } from '../../lib/jobs/index.ts';
import { plainFigure } from '../presenters/job-figures.ts';
import type { FormSurroundings } from '../presenters/job-fields.ts';
import { formGroups, type FormPart, jobForm, type StepSlot } from '../presenters/job-form.ts';
import { allGroups, stepPrefix } from '../presenters/job-step-fields.ts';
import type { SentForm } from './read-job-form.ts';

/** What a button of the form does with its steps; nothing is saved by it. */
export type StepMove =
  | { readonly kind: 'up' | 'down' | 'remove' | 'split'; readonly stepId: string }
  /** A blank step after the last. */
  | { readonly kind: 'add' };

/** Reads the value of such a button, `up:settle`; null: it is none. */
export function stepMoveOf(text: string): StepMove | null {
  if (text === 'add') return { kind: 'add' };
  const [, kind, stepId = ''] = /^(up|down|remove|split):([A-Za-z0-9_-]+)$/.exec(text) ?? [];
  return kind === 'up' || kind === 'down' || kind === 'remove' || kind === 'split' ? { kind, stepId } : null;
}

/** The form with its steps moved, and everything entered in its place. */
export function moveSteps(form: SentForm, move: StepMove, around: FormSurroundings): SentForm {
  const slots = form.base.steps.map(({ slot }) => slot);
  const added = addedSlot(form, move);
  const moved = movedSlots(slots, move, added);
  const base = jobForm(form.baseEntry, moved, around);
  const values = new Map(
    formGroups(base).flatMap(({ fields, shown }) =>
      fields.map(({ name }, index): [string, string] => [name, form.values.get(name) ?? shown[index] ?? '']),
    ),
  );
  if (move.kind !== 'split' || added === null) return { ...form, base, values };
  const part = base.steps.find(({ slot }) => slot.id === move.stepId);
  return { ...form, base, values: part === undefined ? values : halved(values, part, added.id) };
}

function addedSlot(form: SentForm, move: StepMove): StepSlot | null {
  const part = move.kind === 'split' ? form.base.steps.find(({ slot }) => slot.id === move.stepId) : undefined;
  if (move.kind === 'add') return { id: freeStepId(form, 'step'), of: '' };
  if (part === undefined) return null;
  return { id: freeStepId(form, part.slot.id), of: part.slot.of ?? part.slot.id };
}

function freeStepId({ base }: SentForm, stem: string): string {
  const short = stem.slice(0, 50);
  // The stem itself is never given: a number shows that the step is new.
  return freeId(short, [short, ...base.steps.map(({ slot }) => slot.id), ...base.job.steps.map(({ id }) => id)]);
}

function movedSlots(slots: readonly StepSlot[], move: StepMove, added: StepSlot | null): readonly StepSlot[] {
  if (move.kind === 'add') return added === null ? slots : [...slots, added];
  const at = slots.findIndex(({ id }) => id === move.stepId);
  const slot = slots[at];
  if (slot === undefined) return slots;
  if (move.kind === 'remove') return slots.length === 1 ? slots : slots.toSpliced(at, 1);
  if (move.kind === 'split') return added === null ? slots : slots.toSpliced(at + 1, 0, added);
  const to = at + (move.kind === 'up' ? -1 : 1);
  return to < 0 || to >= slots.length ? slots : slots.toSpliced(at, 1).toSpliced(to, 0, slot);
}

/**
 * Two halves of a step: each has half of the minutes; what it takes stays with the first, what comes after it goes with
 * the second.
 */
function halved(values: ReadonlyMap<string, string>, part: FormPart, secondId: string): ReadonlyMap<string, string> {
  const after = new Map(values);
  const first = stepPrefix(part.slot.id);
  const second = stepPrefix(secondId);
  for (const { fields } of allGroups(part.groups)) {
    for (const { name } of fields) after.set(`${second}${name.slice(first.length)}`, values.get(name) ?? '');
  }
  for (const key of ['work.leastMin', 'work.likelyMin', 'work.mostMin']) {
    const half = halfOf(values.get(`${first}${key}`) ?? '');
    after.set(`${first}${key}`, half).set(`${second}${key}`, half);
  }
  after.set(`${first}wait.kind`, '').set(`${first}safePointAfter`, 'no').set(`${first}sailStateAfter`, '');
  for (const name of after.keys()) if (name.startsWith(`${second}materials.`)) after.set(name, '');
  const name = values.get(`${first}name`) ?? '';
  return after.set(`${first}name`, `${name}, first half`).set(`${second}name`, `${name}, second half`);
}

function halfOf(text: string): string {
  const value = Number(text.replace(',', '.'));
  return text === '' || !Number.isFinite(value) ? text : plainFigure(value / 2);
}
