import type { Request } from 'express';
import type { DocumentVersion } from '../documents/index.ts';
import { formWithin } from './body-limit.ts';

/** Texts of a form by name. */
export interface Form {
  /** The text of a field; empty where there is none, the first where there are several. */
  readonly text: (name: string) => string;
  /** All texts of fields of one name, in order. */
  readonly all: (name: string) => readonly string[];
  readonly has: (name: string) => boolean;
  readonly names: readonly string[];
}

/** Reads the body of a form: at most 256 kB in 5000 fields, else 413. A job of sixty steps takes a tenth of it. */
export const formBody = formWithin(256 * 1024, 5000);

/** The same for a form that a whole mail may be pasted into: at most 4 MB. */
export const mailBody = formWithin(4 * 1024 * 1024, 100);

/** What a form sent; empty where the body was something else. */
export function formOf(request: Request): Form {
  const body: unknown = request.body;
  return formOfTexts(new Map(Object.entries(typeof body === 'object' && body !== null ? body : {}).map(textsOf)));
}

/** The form of texts that are there already. */
export function formOfTexts(fields: ReadonlyMap<string, readonly string[]>): Form {
  const all = (name: string): readonly string[] => fields.get(name) ?? [];
  return { all, text: (name) => all(name)[0] ?? '', has: (name) => fields.has(name), names: [...fields.keys()] };
}

function textsOf([name, value]: [string, unknown]): [string, readonly string[]] {
  const values: readonly unknown[] = Array.isArray(value) ? value : [value];
  return [name, values.filter((one) => typeof one === 'string')];
}

/** The hidden field `version`: which state of which passage the form was made from; null: it holds none. */
export function versionOf(form: Form): DocumentVersion | null {
  const [, number, version] = /^(\d{1,9})\.(\d{1,9})$/.exec(form.text('version')) ?? [];
  return number === undefined || version === undefined ? null : { number: Number(number), version: Number(version) };
}
