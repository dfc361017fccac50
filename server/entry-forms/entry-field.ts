import type { FieldOption } from '../presenters/job-field.ts';

/** How a value of an entry is written in one line of text. */
export type EntryKind =
  | 'line'
  /** A number. */
  | 'figure'
  | 'choice'
  /** An instant on the ship's clock, `2026-05-28T06:00`. */
  | 'instant'
  /** Numbers, parted by commas. */
  | 'figures'
  /** Spans `700-900`, parted by commas. */
  | 'spans'
  /** Two of them, parted by a hyphen: numbers or words. */
  | 'pair';

/** One input of a form, and the value of the entry it is about. */
export interface EntryField {
  /** Its own in the form. */
  readonly name: string;
  readonly label: string;
  readonly kind: EntryKind;
  readonly unit: string;
  readonly hint: string;
  /** Heading it begins or stands under; empty: that of the field before. */
  readonly section: string;
  readonly options: readonly FieldOption[];
  /** Where the value stands in the entry. */
  readonly path: readonly (string | number)[];
}

/** A field with what most of them have. */
export const field = (
  path: EntryField['path'],
  label: string,
  more: Partial<Omit<EntryField, 'path' | 'label'>> = {},
): EntryField => ({
  name: path.join('.'),
  kind: 'figure',
  unit: '',
  hint: '',
  section: '',
  options: [],
  ...more,
  path,
  label,
});

/** A field that takes one of some values; the empty one says nothing. */
export const choice = (
  path: EntryField['path'],
  label: string,
  options: readonly FieldOption[],
  hint = '',
): EntryField => field(path, label, { kind: 'choice', options, hint });

export type { FieldOption } from '../presenters/job-field.ts';
