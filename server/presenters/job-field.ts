/** Inputs of the form of a job: what each shows, and what of the job's entry they make. */

export interface FieldOption {
  readonly value: string;
  readonly text: string;
}

/** One input. */
export interface FieldSpec {
  /** Its own in the form. */
  readonly name: string;
  readonly label: string;
  /**
   * `line`, `figure` and `instant` (ship's time) are lines of text, `lines` one text for each line, `choice` one of the
   * options, `choices` any of them: their values, one a line.
   */
  readonly kind: 'line' | 'figure' | 'instant' | 'lines' | 'choice' | 'choices';
  /** Said behind the input; empty: it has none. */
  readonly unit: string;
  readonly options: readonly FieldOption[];
}

/** Inputs that make one value of the entry. */
export interface FieldGroup {
  readonly label: string;
  readonly hint: string;
  readonly fields: readonly FieldSpec[];
  /** The text each of them shows. */
  readonly shown: readonly string[];
  /** Step the value belongs to; null: the whole job. */
  readonly stepId: string | null;
  /** Where the value stands in the entry, or in the entry of its step. */
  readonly keys: readonly string[];
  /** Key below it for each input; null: the input is the whole value. */
  readonly partKeys: readonly (string | null)[];
  /** What is written for texts; undefined: nothing is said, so that the library or the default holds. */
  readonly valueOf: (texts: readonly string[]) => unknown;
  /** How it is written: minutes, amounts and waits of a step stand beside the steps where they can. */
  readonly rule: 'plain' | 'minutes' | 'amount' | 'wait';
  /** Left empty it is refused, with what is expected: there is no library to say it. */
  readonly needed: string | null;
}

interface Place {
  readonly name: string;
  readonly label: string;
  readonly keys: readonly string[];
  readonly stepId?: string;
  readonly hint?: string;
  readonly unit?: string;
  readonly needed?: string | null;
}

const field = (
  { name, label, unit = '' }: Pick<Place, 'name' | 'label' | 'unit'>,
  kind: FieldSpec['kind'],
  options: readonly FieldOption[] = [],
): FieldSpec => ({ name, label, kind, unit, options });

const single = (place: Place, spec: FieldSpec, shown: string, valueOf: (text: string) => unknown): FieldGroup => ({
  label: place.label,
  hint: place.hint ?? '',
  fields: [spec],
  shown: [shown],
  stepId: place.stepId ?? null,
  keys: place.keys,
  partKeys: [null],
  valueOf: ([text = '']) => valueOf(text),
  rule: 'plain',
  needed: place.needed ?? null,
});

/** The number a person wrote, with point or comma; anything else as it stands, for the check to name it. */
export function figureOf(text: string): unknown {
  if (text === '') return undefined;
  const value = Number(/^[^.,]*,[^.,]*$/.test(text) ? text.replace(',', '.') : text);
  return Number.isFinite(value) ? value : text;
}

/** Written where a limit is meant not to be. */
export const NONE = 'none';

/** As `figureOf`; the word none: null. */
export const limitFigureOf = (text: string): unknown => (text.toLowerCase() === NONE ? null : figureOf(text));

export const linesOf = (text: string): readonly string[] => text.split('\n').filter((line) => line !== '');

/** A line of text; empty: `blank`. */
export const lineGroup = (place: Place, shown: string, blank?: null): FieldGroup =>
  single(place, field(place, 'line'), shown, (text) => (text === '' ? blank : text));

export const figureGroup = (place: Place, shown: string): FieldGroup =>
  single(place, field(place, 'figure'), shown, figureOf);

/** A figure that may be none. */
export const limitGroup = (place: Place, shown: string): FieldGroup =>
  single(place, field(place, 'figure'), shown, limitFigureOf);

/** Texts, one a line. */
export const linesGroup = (place: Place, shown: readonly string[]): FieldGroup =>
  single(place, field(place, 'lines'), shown.join('\n'), linesOf);

export const choiceGroup = (
  place: Place,
  shown: string,
  options: readonly FieldOption[],
  valueOf: (text: string) => unknown = (text) => (text === '' ? undefined : text),
): FieldGroup => single(place, field(place, 'choice', options), shown, valueOf);

/** Any of the options; what is shown first is written first. */
export const choicesGroup = (
  place: Place,
  shown: readonly string[],
  options: readonly FieldOption[],
  valueOf: (values: readonly string[]) => unknown = (values) => values,
): FieldGroup =>
  single(place, field(place, 'choices', options), inOrder(shown, options), (text) => {
    const values = linesOf(text);
    return valueOf([...shown.filter((one) => values.includes(one)), ...values.filter((one) => !shown.includes(one))]);
  });

/** Values in the order of their options. */
const inOrder = (values: readonly string[], options: readonly FieldOption[]): string =>
  options
    .map(({ value }) => value)
    .filter((value) => values.includes(value))
    .join('\n');

/** Several inputs that make one object. */
export function objectGroup(
  place: Omit<Place, 'name' | 'unit'>,
  parts: readonly { readonly key: string; readonly spec: FieldSpec; readonly shown: string }[],
  valueOf: (texts: readonly string[]) => unknown,
): FieldGroup {
  return {
    label: place.label,
    hint: place.hint ?? '',
    fields: parts.map(({ spec }) => spec),
    shown: parts.map(({ shown }) => shown),
    stepId: place.stepId ?? null,
    keys: place.keys,
    partKeys: parts.map(({ key }) => key),
    valueOf,
    rule: 'plain',
    needed: place.needed ?? null,
  };
}

/** An input of its own, for `objectGroup`. */
export const inputOf = (
  of: Pick<Place, 'name' | 'label' | 'unit'>,
  kind: FieldSpec['kind'],
  options: readonly FieldOption[] = [],
): FieldSpec => field(of, kind, options);

/** The text a form sent for an input, as it would have been shown. */
export function sentText({ kind, options }: FieldSpec, texts: readonly string[]): string {
  if (kind === 'choices') return inOrder(texts, options);
  const [text = ''] = texts;
  if (kind !== 'lines') return text.trim();
  return text
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .join('\n');
}
