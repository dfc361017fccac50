import type { Problem } from '../../lib/result/index.ts';
import type { Clock } from './clock.ts';
import type { FieldGroup, FieldSpec } from './job-field.ts';
import { formGroups, type FormPart, type JobForm } from './job-form.ts';
import { optionsOf, placeWords } from './job-words.ts';
import { stepPrefix } from './job-step-fields.ts';

/** The form of a job. */
export interface JobEditPage {
  readonly kind: 'job-edit';
  readonly name: string;
  readonly clock: Clock;
  readonly title: string;
  /** Where the form goes, and where one goes without it. */
  readonly action: string;
  readonly backHref: string;
  /** Hidden fields: which state of the passage, and of the job, it was made from. */
  readonly version: string;
  readonly base: string;
  /** Said above it, such as that steps were moved and nothing is saved yet; empty: nothing. */
  readonly note: string;
  /** What was entered for steps that are gone. */
  readonly lost: readonly string[];
  /** What is wrong, in the order of the form, each leading to its input. */
  readonly wrong: readonly { readonly inputId: string; readonly text: string }[];
  readonly sections: readonly Section[];
  readonly steps: readonly StepSection[];
  /** null: it is not in the passage yet. */
  readonly asText: AsText | null;
}

export interface Section {
  readonly id: string;
  readonly title: string;
  readonly hint: string;
  readonly isOpen: boolean;
  readonly groups: readonly GroupView[];
}

export interface StepSection {
  readonly id: string;
  /** Hidden field `of.ID`; null: a step of the job. */
  readonly of: string | null;
  readonly title: string;
  readonly summary: string;
  readonly isOpen: boolean;
  readonly parts: readonly Section[];
  readonly canGoUp: boolean;
  readonly canGoDown: boolean;
  readonly canGo: boolean;
}

export interface GroupView {
  readonly id: string;
  readonly label: string;
  readonly hint: string;
  /** Rows of three: amount, unit, name. */
  readonly isTable: boolean;
  /** What the library has, where it is not what is entered; null: the same, or nothing. */
  readonly library: string | null;
  /** What was saved by someone else meanwhile; null: nothing else. */
  readonly keptNow: string | null;
  readonly problems: readonly Problem[];
  readonly fields: readonly FieldView[];
}

export interface FieldView extends FieldSpec {
  readonly id: string;
  readonly value: string;
  readonly isWrong: boolean;
}

/** The entry as the passage file has it. */
export interface AsText {
  readonly action: string;
  readonly text: string;
  readonly problems: readonly Problem[];
  readonly isOpen: boolean;
}

export interface EditInput {
  readonly form: JobForm;
  readonly values: ReadonlyMap<string, string>;
  /** Inputs as the library job shows them; null: a job of the user's own. */
  readonly library: JobForm | null;
  readonly problems: readonly PlacedProblem[];
  readonly keptNow: ReadonlyMap<string, string>;
}

/** A problem with the input it belongs to; null: none. */
export interface PlacedProblem {
  readonly problem: Problem;
  readonly input: string | null;
}

type Head = Omit<JobEditPage, 'kind' | 'wrong' | 'sections' | 'steps'>;

export function jobEditPage(head: Head, input: EditInput): JobEditPage {
  const view = groupView(input);
  return {
    kind: 'job-edit',
    ...head,
    wrong: wrongInputs(input),
    sections: jobSections(input.form, view),
    steps: input.form.steps.map((part, index) => stepSection(part, { index, input, view })),
  };
}

/** Id of an input in the page. */
const inputId = (name: string): string => `f-${name.replaceAll('.', '-')}`;

const wrongInputs = ({ form, problems }: EditInput): JobEditPage['wrong'] =>
  formGroups(form).flatMap(({ fields, label, stepId }) =>
    problems
      .filter(({ input }) => fields.some(({ name }) => name === input))
      .map(({ input, problem }) => ({
        inputId: inputId(input ?? ''),
        text: `${stepId === null ? '' : `${nameOfStep(form, stepId)}: `}${label}${partOf(fields, input)}. ${problem.what}`,
      })),
  );

/** `, likely` where one of several inputs is meant. */
function partOf(fields: readonly FieldSpec[], input: string | null): string {
  const field = fields.length > 1 ? fields.find(({ name }) => name === input) : undefined;
  return field === undefined ? '' : `, ${field.label}`;
}

const nameOfStep = ({ steps }: JobForm, stepId: string): string => {
  const index = steps.findIndex(({ slot }) => slot.id === stepId);
  return `Step ${index + 1}`;
};

type View = (group: FieldGroup) => GroupView;

function groupView({ form, values, library, problems, keptNow }: EditInput): View {
  const libraryShown = new Map(
    (library === null ? [] : formGroups(library)).flatMap(({ fields, shown }) =>
      fields.map(({ name }, index): [string, string] => [name, shown[index] ?? '']),
    ),
  );
  const isOfOrder = new Set(form.groups.order);
  const overruled = (group: FieldGroup): string => overruledText(group, form, values);
  return (group) => {
    const texts = group.fields.map(({ name }) => values.get(name) ?? '');
    const known = group.fields.map(({ name }) => libraryShown.get(name));
    const isSame = known.every((text, index) => text === texts[index]);
    const names = group.fields.map(({ name }) => name);
    const own = problems.filter(({ input }) => input !== null && names.includes(input));
    const isKept = names.some((name) => keptNow.has(name));
    const isLibraryToSay = !isOfOrder.has(group) && !NOT_OF_LIBRARY.has(group.keys[0] ?? '');
    return {
      id: inputId(names[0] ?? ''),
      label: group.label,
      hint: [overruled(group), group.hint].filter((text) => text !== '').join(' '),
      isTable: group.keys[0] === 'materials',
      library:
        isLibraryToSay && !isSame && known.every((text) => text !== undefined)
          ? said(
              group,
              known.map((text) => text ?? ''),
            )
          : null,
      keptNow: isKept
        ? said(
            group,
            names.map((name, index) => keptNow.get(name) ?? texts[index] ?? ''),
          )
        : null,
      problems: own.map(({ problem, input }) => ({
        ...problem,
        what: `${group.label}${partOf(group.fields, input)}. ${problem.what}`,
      })),
      fields: group.fields.map((field, index) => ({
        ...field,
        id: inputId(field.name),
        value: texts[index] ?? '',
        isWrong: own.some(({ input }) => input === field.name),
      })),
    };
  };
}

/** A limit of a step is not in force where one for every step at once is entered. */
function overruledText(group: FieldGroup, { groups }: JobForm, values: ReadonlyMap<string, string>): string {
  if (group.stepId === null || group.keys[0] !== 'limits') return '';
  const forAll = groups.limits.find(({ keys }) => keys.join('.') === group.keys.join('.'));
  const texts = forAll?.fields.map(({ name }) => values.get(name) ?? '') ?? [];
  if (forAll === undefined || texts.every((text) => text === '')) return '';
  return `Not in force: for every step at once it says ${said(forAll, texts)}.`;
}

/** What only this passage says of a job. */
const NOT_OF_LIBRARY: ReadonlySet<string> = new Set(['priority', 'tools']);

/** Texts of inputs as a reader would write them: options by their words, and the unit behind. */
function said({ fields }: Pick<FieldGroup, 'fields'>, texts: readonly string[]): string {
  const words = fields.map(({ options }, index) =>
    (texts[index] ?? '')
      .split('\n')
      .map((text) => options.find(({ value }) => value === text)?.text ?? text)
      .filter((text) => text !== '')
      .join('; '),
  );
  const units = [...new Set(fields.map(({ unit }) => unit).filter((unit) => unit !== ''))];
  const shown = words.filter((word) => word !== '');
  if (shown.length === 0) return 'nothing';
  return `${shown.join(' / ')}${units.length === 1 && shown.some((word) => /\d/.test(word)) ? ` ${units[0] ?? ''}` : ''}`;
}

function jobSections({ groups }: JobForm, view: View): readonly Section[] {
  const section = (
    id: string,
    title: string,
    { groups: own, hint = '', isOpen = false }: { groups: readonly FieldGroup[]; hint?: string; isOpen?: boolean },
  ): Section[] => {
    const views = own.map(view);
    return views.length === 0 ? [] : [{ id, title, hint, isOpen: isOpen || hasNews(views), groups: views }];
  };
  return [
    ...section('what', 'What it is', { groups: groups.what, isOpen: true }),
    ...section('order', 'Order, times, what is done', { groups: groups.order, isOpen: true }),
    ...section('boat', 'The boat meanwhile', { groups: groups.boat, isOpen: true }),
    ...section('seam', 'The seam', { groups: groups.seam, isOpen: true }),
    ...section('limits', 'Limits for every step at once', {
      groups: groups.limits,
      hint: 'What is entered here holds in the place of each step’s own limit. Empty: as each step has it; none: no such limit.',
    }),
    ...section('session', 'Sessions, for every step that can be stopped anywhere', {
      groups: groups.session,
      hint: 'Empty: as each step has it.',
    }),
    ...section('words', 'Cautions, safe points, turning back, tools', { groups: groups.words }),
  ];
}

const hasNews = (views: readonly GroupView[]): boolean =>
  views.some(({ problems, keptNow }) => problems.length > 0 || keptNow !== null);

function stepSection(
  { slot, groups }: FormPart,
  { index, input, view }: { index: number; input: EditInput; view: View },
): StepSection {
  const valueOf = (key: string): string => input.values.get(`${stepPrefix(slot.id)}${key}`) ?? '';
  const part = (id: string, title: string, own: readonly FieldGroup[], hint = ''): Section => {
    const views = own.map(view);
    return { id: `${slot.id}-${id}`, title, hint, isOpen: hasNews(views), groups: views };
  };
  const parts = [
    part('main', 'What is done', groups.main),
    part('work', 'Time and how it is worked', groups.work),
    part('limits', 'Limits', groups.limits, 'Write none where it has no such limit.'),
    part('more', 'What it takes, and what comes after it', groups.more),
  ];
  const minutes = ['work.leastMin', 'work.likelyMin', 'work.mostMin'].map(valueOf);
  const name = valueOf('name');
  return {
    id: slot.id,
    of: slot.of,
    title: `${index + 1}. ${name === '' ? 'New step' : name}`,
    summary: `${minutes.every((text) => text === '') ? 'no minutes yet' : `${minutes.join(' / ')} min`}, ${placeText(valueOf('place'))}`,
    isOpen: slot.of !== null || parts.some(({ isOpen }) => isOpen),
    parts,
    canGoUp: index > 0,
    canGoDown: index < input.form.steps.length - 1,
    canGo: input.form.steps.length > 1,
  };
}

const placeText = (place: string): string =>
  optionsOf(placeWords).find(({ value }) => value === place)?.text ?? 'no place yet';
