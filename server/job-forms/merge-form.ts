import type { JobFile } from '../../lib/jobs/index.ts';
import type { FieldGroup, FieldSpec } from '../presenters/job-field.ts';
import type { FormSurroundings } from '../presenters/job-fields.ts';
import { formGroups, jobForm, slotsOf, type StepSlot } from '../presenters/job-form.ts';
import type { SentForm } from './read-job-form.ts';

/** A form laid over what was saved meanwhile. */
export interface MergedForm {
  readonly form: SentForm;
  /** What is kept now where something else was entered, by the name of the input. */
  readonly keptNow: ReadonlyMap<string, string>;
  /** What was entered for steps that are gone. */
  readonly lost: readonly string[];
}

/**
 * What was entered stays; what was not touched shows what is kept now. Steps are those kept now, with the new ones of the
 * form behind them, where both have changed them.
 *
 * @param entry as it is kept now
 */
export function mergedForm(sent: SentForm, entry: JobFile, around: FormSurroundings): MergedForm {
  const now = jobForm(entry, null, around);
  const base = jobForm(entry, mergedSlots(sent, slotsOf(now.job)), around);
  const touched = touchedInputs(sent);
  const keptNow = new Map<string, string>();
  const values = new Map<string, string>();
  for (const group of formGroups(base)) {
    group.fields.forEach((field, index) => {
      const shown = group.shown[index] ?? '';
      const entered = sent.values.get(field.name);
      const isKept = entered !== undefined && (touched.has(field.name) || isOfNewStep(group, base.steps));
      values.set(field.name, isKept ? entered : shown);
      if (isKept && touched.has(field.name) && entered !== shown && shown !== touched.get(field.name)?.was)
        keptNow.set(field.name, shown);
    });
  }
  const lost = [...touched].filter(([name]) => !values.has(name)).map(([, { said }]) => said);
  return { form: { baseEntry: entry, base, values }, keptNow, lost };
}

/** Ours where only we have changed the order, else theirs with our new ones behind. */
function mergedSlots(sent: SentForm, now: readonly StepSlot[]): readonly StepSlot[] {
  const idsOf = (slots: readonly StepSlot[]): string => slots.map(({ id }) => id).join();
  const ours = sent.base.steps.map(({ slot }) => slot);
  const was = slotsOf(sent.base.job);
  if (idsOf(was) === idsOf(now)) return ours;
  const known = now.map(({ id }) => id);
  const added = ours.filter(({ id, of }) => of !== null && !known.includes(id));
  return [...now, ...added.map(({ id, of }) => ({ id, of: of !== null && known.includes(of) ? of : '' }))];
}

interface Touched {
  readonly was: string;
  readonly said: string;
}

/** Inputs whose text is not what the form showed, with what it showed. */
function touchedInputs({ base, values }: SentForm): ReadonlyMap<string, Touched> {
  return new Map(
    formGroups(base).flatMap((group) =>
      group.fields.flatMap((field, index): [string, Touched][] => {
        const [was, is] = [group.shown[index] ?? '', values.get(field.name) ?? ''];
        return was === is ? [] : [[field.name, { was, said: saidText(group, field, is) }]];
      }),
    ),
  );
}

function saidText({ label, fields, stepId }: FieldGroup, field: FieldSpec, text: string): string {
  const step = stepId === null ? '' : ` (step ${stepId})`;
  const part = fields.length > 1 ? `, ${field.label}` : '';
  return `${label}${part}${step}: ${text === '' ? 'nothing' : text.replaceAll('\n', '; ')}`;
}

const isOfNewStep = ({ stepId }: FieldGroup, steps: readonly { readonly slot: StepSlot }[]): boolean =>
  steps.some(({ slot }) => slot.id === stepId && slot.of !== null);
