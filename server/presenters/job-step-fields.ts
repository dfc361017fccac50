import type { BackgroundWait, Step } from '../../lib/jobs/index.ts';
import {
  choiceGroup,
  type FieldGroup,
  type FieldOption,
  figureGroup,
  figureOf,
  inputOf,
  limitFigureOf,
  lineGroup,
  linesGroup,
  NONE,
  objectGroup,
} from './job-field.ts';
import { plainFigure } from './job-figures.ts';
import { limitGroups } from './job-limit-fields.ts';
import { effortWords, handsWords, lookoutWords, optionsOf, placeWords, stopWords } from './job-words.ts';

/** A step as the form shows it. */
export interface FormStep {
  /** With its own limits: those of the whole job are not laid over them. */
  readonly step: Step;
  /** Not in the job yet: name, place and minutes are to be written. */
  readonly isBlank: boolean;
  /** It sews the seam of the job. */
  readonly isSeam: boolean;
}

/** Before the names of all inputs of a step. */
export const stepPrefix = (stepId: string): string => `s.${stepId}.`;

/** Inputs of a step, in the parts the form shows them in. */
export interface StepGroups {
  readonly main: readonly FieldGroup[];
  readonly work: readonly FieldGroup[];
  readonly limits: readonly FieldGroup[];
  readonly more: readonly FieldGroup[];
}

export const allGroups = ({ main, work, limits, more }: StepGroups): readonly FieldGroup[] => [
  ...main,
  ...work,
  ...limits,
  ...more,
];

/** @param sailStates names of the boat's sail states by id */
export function stepGroups({ step, isBlank, isSeam }: FormStep, sailStates: readonly FieldOption[]): StepGroups {
  const place = placeIn(step.id);
  const shown = (value: string): string => (isBlank ? '' : value);
  return {
    main: [
      lineGroup(place('name', 'Name of the step'), step.name),
      choiceGroup(place('place', 'Where'), shown(step.place), [
        ...(isBlank ? [{ value: '', text: 'choose a place' }] : []),
        ...optionsOf(placeWords),
      ]),
      linesGroup({ ...place('instructions', 'Instructions, one a line') }, step.instructions),
    ],
    work: [
      minutesGroup({ step, isBlank, isSeam }),
      ...(step.rate === null ? [] : [amountGroup(step, step.rate)]),
      choiceGroup(place('stop', 'Stopping'), step.stop, optionsOf(stopWords)),
      choiceGroup(place('lookout', 'Look-out'), step.lookout, optionsOf(lookoutWords)),
      choiceGroup(place('effort', 'Effort'), step.effort, optionsOf(effortWords)),
      choiceGroup(place('hands', 'Hands'), step.hands, optionsOf(handsWords)),
    ],
    limits: limitGroups({
      prefix: `${stepPrefix(step.id)}limits.`,
      stepId: step.id,
      limits: step.limits,
      isNew: isBlank,
    }),
    more: [
      materialsGroup(step, isSeam),
      waitGroup(step),
      choiceGroup(place('safePointAfter', 'Afterwards'), step.safePointAfter ? 'yes' : 'no', AFTERWARDS, (text) =>
        text === 'yes' ? true : text === 'no' ? false : text,
      ),
      choiceGroup(
        place('sailStateAfter', 'Sail set afterwards'),
        step.sailStateAfter ?? '',
        [{ value: '', text: 'as before' }, ...sailStates],
        (text) => (text === '' ? null : text),
      ),
      lineGroup(place('clipTo', 'Tether clipped to'), step.clipTo ?? '', null),
    ],
  };
}

const AFTERWARDS: readonly FieldOption[] = [
  { value: 'yes', text: 'she may be left for hours: a safe point' },
  { value: 'no', text: 'it goes straight on' },
];

const placeIn =
  (stepId: string) =>
  (key: string, label: string): { name: string; label: string; keys: readonly string[]; stepId: string } => ({
    name: `${stepPrefix(stepId)}${key}`,
    label,
    keys: [key],
    stepId,
  });

const MINUTES = [
  ['leastMin', 'least'],
  ['likelyMin', 'likely'],
  ['mostMin', 'most'],
] as const;

/** To the minute; below ten to a tenth of one. */
const minuteFigure = (min: number): string => (min >= 10 ? String(Math.round(min)) : plainFigure(min));

function minutesHint({ rate }: Step, isSeam: boolean): string {
  if (isSeam) return 'They follow from the seam, unless you write your own here.';
  return rate === null ? '' : 'They follow from the amount, unless you write your own here.';
}

function minutesGroup({ step, isBlank, isSeam }: FormStep): FieldGroup {
  const parts = MINUTES.map(([key, label]) => ({
    key,
    spec: inputOf({ name: `${stepPrefix(step.id)}work.${key}`, label, unit: 'min' }, 'figure'),
    shown: isBlank ? '' : minuteFigure(step.work[key]),
  }));
  const place = {
    label: 'Minutes',
    keys: ['work'],
    stepId: step.id,
    hint: minutesHint(step, isSeam),
  };
  const valueOf = (texts: readonly string[]): unknown =>
    texts.every((text) => text === '')
      ? undefined
      : Object.fromEntries(MINUTES.map(([key], index) => [key, figureOf(texts[index] ?? '')]));
  return { ...objectGroup(place, parts, valueOf), rule: 'minutes' };
}

const amountGroup = ({ id }: Step, { amount, unit }: { amount: number; unit: string }): FieldGroup => ({
  ...figureGroup(
    { name: `${stepPrefix(id)}amount`, label: 'Amount', unit, keys: ['rate', 'amount'], stepId: id },
    plainFigure(amount),
  ),
  rule: 'amount',
});

/** Rows left empty are left out; two empty ones wait for more. */
const EMPTY_ROWS = 2;

/** What the seam takes follows from its length, rows and cloth, whatever is written here. */
const OF_SEAM: readonly string[] = ['waxed twine', 'needles'];

function materialsGroup({ id, materials }: Step, isSeam: boolean): FieldGroup {
  const written = isSeam ? materials.filter(({ item }) => !OF_SEAM.includes(item)) : materials;
  const rows = [...written, ...Array.from({ length: EMPTY_ROWS }, () => null)];
  const input = (index: number, key: string, label: string, kind: 'figure' | 'line') =>
    inputOf({ name: `${stepPrefix(id)}materials.${index}.${key}`, label: `${label} ${index + 1}` }, kind);
  const parts = rows.flatMap((row, index) => [
    { key: '', spec: input(index, 'amount', 'amount', 'figure'), shown: row === null ? '' : plainFigure(row.amount) },
    { key: '', spec: input(index, 'unit', 'unit', 'line'), shown: row?.unit ?? '' },
    { key: '', spec: input(index, 'item', 'material', 'line'), shown: row?.item ?? '' },
  ]);
  const place = {
    label: 'Takes',
    keys: ['materials'],
    stepId: id,
    hint: `Amount, unit, material; an empty row is left out.${isSeam ? ' Waxed twine and needles follow from the seam.' : ''}`,
  };
  return { ...objectGroup(place, parts, materialsOf), partKeys: parts.map(() => null) };
}

function materialsOf(texts: readonly string[]): unknown {
  const rows = Array.from({ length: Math.ceil(texts.length / 3) }, (_, index) => texts.slice(index * 3, index * 3 + 3));
  return rows
    .filter((row) => row.some((text) => text !== ''))
    .map(([amount = '', unit = '', item = '']) => ({
      item: item === '' ? undefined : item,
      amount: figureOf(amount),
      unit: unit === '' ? undefined : unit,
    }));
}

const WAIT_KINDS: readonly FieldOption[] = [
  { value: '', text: 'nothing: it goes on at once' },
  { value: 'soak', text: 'it soaks' },
  { value: 'cure', text: 'it cures' },
  { value: 'dry', text: 'it dries' },
  { value: 'settle', text: 'it settles' },
];

const HOURS = [
  ['leastH', 'least'],
  ['likelyH', 'likely'],
  ['mostH', 'most'],
] as const;

function waitGroup({ id, waitAfter }: Step): FieldGroup {
  const name = (key: string): string => `${stepPrefix(id)}wait.${key}`;
  const parts = [
    {
      key: 'kind',
      spec: inputOf({ name: name('kind'), label: 'what waits' }, 'choice', WAIT_KINDS),
      shown: waitAfter?.kind ?? '',
    },
    ...HOURS.map(([key, label]) => ({
      key,
      spec: inputOf({ name: name(key), label, unit: 'h' }, 'figure'),
      shown: waitAfter === null ? '' : plainFigure(waitAfter[key]),
    })),
    {
      key: 'keptAtC',
      spec: inputOf({ name: name('keptAtC'), label: 'kept warm at', unit: '°C' }, 'figure'),
      shown: waitAfter === null ? '' : keptText(waitAfter.keptAtC),
    },
  ];
  const place = {
    label: 'Wait after it',
    keys: ['waitAfter'],
    stepId: id,
    hint: 'Runs by itself; four of five such waits are over within the hours counted. Kept at none: it stands in the air.',
  };
  return { ...objectGroup(place, parts, (texts) => waitOf(texts, waitAfter)), rule: 'wait' };
}

const keptText = (keptAtC: number | null): string => (keptAtC === null ? NONE : plainFigure(keptAtC));

/** The whole wait; what the form does not hold of it stays. */
function waitOf([kind = '', ...figures]: readonly string[], before: BackgroundWait | null): unknown {
  if (kind === '') return null;
  const [leastH = '', likelyH = '', mostH = '', keptAtC = ''] = figures;
  return {
    ...before,
    kind,
    leastH: figureOf(leastH),
    likelyH: figureOf(likelyH),
    mostH: figureOf(mostH),
    keptAtC: keptAtC === '' ? null : limitFigureOf(keptAtC),
  };
}
