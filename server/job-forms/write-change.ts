import type { FieldGroup } from '../presenters/job-field.ts';
import { type Path, valueAt, withValueAt } from './entry-editor.ts';

/** A group of inputs with what was entered in it. */
export interface Change {
  readonly group: FieldGroup;
  readonly texts: readonly string[];
  readonly isChanged: boolean;
  /** What is entered is what the library says. */
  readonly isLibrary: boolean;
}

/** A wait of another kind, or of a step that had none. */
export const isNewWait = ({ group, texts, isLibrary }: Change): boolean => !isLibrary && texts[0] !== group.shown[0];

interface At {
  readonly index: number;
  readonly isNew: (stepId: string) => boolean;
}

/** The entry with a change written where it belongs. */
export function written(raw: unknown, change: Change, at: At): unknown {
  const { group, texts, isLibrary } = change;
  const value = isLibrary ? undefined : group.valueOf(texts);
  if (group.stepId === null) return withValueAt(raw, group.keys, value);
  const inStep: Path = ['steps', at.index, ...group.keys];
  const stepId = group.stepId;
  if (at.isNew(stepId)) return withValueAt(raw, inStep, value);
  if (group.rule === 'minutes') return withMinutes(raw, { stepId, inStep }, value);
  if (group.rule === 'amount') {
    const hasOwnRate = valueAt(raw, inStep) !== undefined;
    return withValueAt(raw, hasOwnRate ? inStep : ['amounts', stepId], value);
  }
  if (group.rule === 'wait') return withWait(raw, { stepId, inStep }, change);
  return withValueAt(raw, inStep, value);
}

interface InStep {
  readonly stepId: string;
  readonly inStep: Path;
}

/** Minutes stand beside the steps, unless the step has its own already. */
function withMinutes(raw: unknown, { stepId, inStep }: InStep, value: unknown): unknown {
  const beside: Path = ['minutes', stepId];
  const isInStep = valueAt(raw, inStep) !== undefined;
  if (value === undefined) return withValueAt(isInStep ? withValueAt(raw, inStep, undefined) : raw, beside, undefined);
  return withValueAt(raw, isInStep && valueAt(raw, beside) === undefined ? inStep : beside, value);
}

function withWait(raw: unknown, { stepId, inStep }: InStep, change: Change): unknown {
  const { group, texts, isLibrary } = change;
  const beside: Path = ['waits', stepId];
  const isInStep = valueAt(raw, inStep) !== undefined;
  if (isLibrary) return withValueAt(isInStep ? withValueAt(raw, inStep, undefined) : raw, beside, undefined);
  const value = group.valueOf(texts);
  if (isInStep || isNewWait(change)) return withValueAt(withValueAt(raw, beside, undefined), inStep, value);
  return group.partKeys.reduce<unknown>(
    (after, key, index) =>
      key === null || texts[index] === group.shown[index]
        ? after
        : withValueAt(after, [...beside, key], valueAt(value, [key])),
    raw,
  );
}
