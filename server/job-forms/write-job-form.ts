import type { JobFile, Step } from '../../lib/jobs/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { FieldGroup } from '../presenters/job-field.ts';
import { formGroups, type JobForm, slotsOf } from '../presenters/job-form.ts';
import { type Path, pathText, valueAt, withValueAt } from './entry-editor.ts';
import { inputFinder } from './form-places.ts';
import { withPlainSteps } from './own-figures.ts';
import type { SentForm } from './read-job-form.ts';
import { type Change, isNewWait, written } from './write-change.ts';

/** An entry as a form wants it; not checked yet. */
export interface WrittenEntry {
  readonly entry: unknown;
  /** Inputs left empty that must not be. */
  readonly problems: readonly Problem[];
  /** Name of the input a place in the entry belongs to; null: none. */
  readonly inputAt: (place: string) => string | null;
}

interface Writing {
  readonly entry: JobFile;
  readonly sent: SentForm;
  /** Inputs as the library job shows them; null: it is the user's own job. */
  readonly library: JobForm | null;
  /** Path of the entry, put before the places of problems. */
  readonly where: string;
}

/**
 * Writes what was changed in a form into an entry and leaves everything else in it as it is. What is set back to the
 * library's is taken out.
 */
export function writeJobForm({ entry, sent, library, where }: Writing): WrittenEntry {
  const libraryShown = shownIn(library);
  const groups = formGroups(sent.base);
  const slots = sent.base.steps.map(({ slot }) => slot);
  const wasOrder = slotsOf(sent.base.job).map(({ id }) => id);
  const isRestructured = wasOrder.join() !== slots.map(({ id }) => id).join();
  const changes = groups.map((group) => changeOf(group, sent, libraryShown)).filter(({ isChanged }) => isChanged);
  const stepsAreWritten =
    isRestructured ||
    changes.some(({ group }) => group.stepId !== null && group.rule === 'plain') ||
    hasNewWait(changes);
  let raw: unknown = entry;
  if (stepsAreWritten) raw = withSteps(raw, sent.base);
  const indexOf = (stepId: string): number => slots.findIndex(({ id }) => id === stepId);
  const isNew = (stepId: string): boolean => slots.some(({ id, of }) => id === stepId && of !== null);
  for (const change of changes) raw = written(raw, change, { index: indexOf(change.group.stepId ?? ''), isNew });
  if (isRestructured) raw = withoutLostSteps(raw, sent.base);
  raw = withoutFollowingMinutes(raw, changes, sent.base.job.seam?.stepId ?? null);
  raw = withPlainSteps(raw, library?.job ?? null);
  const problems = groups.flatMap((group) => neededProblems(group, { sent, libraryShown, where, indexOf }));
  return { entry: raw, problems, inputAt: inputFinder(groups, indexOf) };
}

/** Texts by the name of the input. */
const shownIn = (form: JobForm | null): ReadonlyMap<string, string> =>
  new Map(
    form === null
      ? []
      : formGroups(form).flatMap(({ fields, shown }) =>
          fields.map(({ name }, index): [string, string] => [name, shown[index] ?? '']),
        ),
  );

const textsOf = ({ fields }: FieldGroup, values: ReadonlyMap<string, string>): readonly string[] =>
  fields.map(({ name }) => values.get(name) ?? '');

function changeOf(group: FieldGroup, { values }: SentForm, libraryShown: ReadonlyMap<string, string>): Change {
  const texts = textsOf(group, values);
  return {
    group,
    texts,
    isChanged: texts.some((text, index) => text !== group.shown[index]),
    // What is said of the job in this passage is not the library's to say.
    isLibrary:
      !OF_THE_PASSAGE.has(group.keys[0] ?? '') &&
      group.fields.every(({ name }, index) => libraryShown.get(name) === texts[index]),
  };
}

const OF_THE_PASSAGE: ReadonlySet<string> = new Set([
  'priority',
  'after',
  'done',
  'doneSteps',
  'doneMin',
  'notBeforeUtc',
  'finishByUtc',
  'startUtc',
  'lockHandling',
  'tools',
]);

/** A wait of another kind, or of a step that had none, stands with its step. */
const hasNewWait = (changes: readonly Change[]): boolean =>
  changes.some((change) => change.group.rule === 'wait' && isNewWait(change));

/** All steps of the form in their order, so that each can say what is its own. */
function withSteps(raw: unknown, { steps }: JobForm): unknown {
  const before = valueAt(raw, ['steps']);
  const given: readonly unknown[] = Array.isArray(before) ? before : [];
  const after = steps.map(({ slot, step }) => {
    if (slot.of === '') return { id: slot.id, limits: {} };
    if (slot.of !== null) return wholeStep(step);
    return given.find((one) => valueAt(one, ['id']) === slot.id) ?? { id: slot.id };
  });
  return withValueAt(raw, ['steps'], after);
}

/** Everything a step is, as an entry has it. */
function wholeStep(whole: Step): unknown {
  const { rate: _, id, name, place, work, ...step } = whole;
  return { id, name, place, work, ...step };
}

/** What the entry says of steps that are no longer there. */
function withoutLostSteps(raw: unknown, { job, steps }: JobForm): unknown {
  const lost = job.steps.map(({ id }) => id).filter((id) => !steps.some(({ slot }) => slot.id === id));
  const beside = lost.flatMap((id) => ['minutes', 'amounts', 'waits'].map((key): Path => [key, id]));
  let after = beside.reduce((rest, path) => withValueAt(rest, path, undefined), raw);
  const done = valueAt(after, ['doneSteps']);
  if (Array.isArray(done)) {
    const left = done.filter((id: unknown) => typeof id === 'string' && !lost.includes(id));
    after = withValueAt(after, ['doneSteps'], left.length === 0 ? undefined : left);
  }
  if (job.seam === null || !lost.includes(job.seam.stepId)) return after;
  for (const key of ['lengthM', 'rows', 'cloth']) after = withValueAt(after, [key], undefined);
  return withValueAt(after, ['seamStep'], null);
}

const SEAM_KEYS: ReadonlySet<string> = new Set(['lengthM', 'rows', 'cloth']);

/** An amount or a seam that was changed gives the minutes, unless they were changed too. */
function withoutFollowingMinutes(raw: unknown, changes: readonly Change[], seamStepId: string | null): unknown {
  const of = (rule: FieldGroup['rule']): readonly (string | null)[] =>
    changes.filter(({ group }) => group.rule === rule).map(({ group }) => group.stepId);
  const isSeamChanged = changes.some(({ group }) => SEAM_KEYS.has(group.keys[0] ?? ''));
  return [...of('amount'), ...(isSeamChanged ? [seamStepId] : [])]
    .filter((stepId) => stepId !== null && !of('minutes').includes(stepId))
    .reduce<unknown>((rest, stepId) => withValueAt(rest, ['minutes', stepId ?? ''], undefined), raw);
}

interface Asked {
  readonly sent: SentForm;
  readonly libraryShown: ReadonlyMap<string, string>;
  readonly where: string;
  readonly indexOf: (stepId: string) => number;
}

/** Left empty where the library has nothing to say, a limit would be thought away. */
function neededProblems(group: FieldGroup, { sent, libraryShown, where, indexOf }: Asked): readonly Problem[] {
  const texts = textsOf(group, sent.values);
  const isOwn = group.fields.every(({ name }) => !libraryShown.has(name));
  const [first] = group.fields;
  if (group.needed === null || !isOwn || first === undefined || texts.some((text) => text !== '')) return [];
  const path: Path = group.stepId === null ? group.keys : ['steps', indexOf(group.stepId), ...group.keys];
  return [
    {
      code: 'jobs.limit-missing',
      where: `${where}.${pathText(path)}`,
      what: 'Nothing is entered.',
      expected: group.needed,
      remedy: 'Enter it; an unknown limit is never taken for none.',
    },
  ];
}
