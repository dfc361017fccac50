import type { Request, Response } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Problem, Result } from '../../lib/result/index.ts';
import type { Shown } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { type Form, formOf } from './form.ts';
import { PageError } from './page-error.ts';
import { saving } from './saving.ts';

export type Texts = ReadonlyMap<string, string>;

/** What was entered and why it was not saved. */
export interface RefusedEntry {
  readonly texts: Texts;
  readonly problems: readonly Problem[];
}

/** The document that is shown; where it cannot be read, a page that says why. */
export async function shownDocument(deps: Deps): Promise<PassageDocument> {
  const document = await deps.passageDocument();
  if (document.ok) return document.value;
  throw new PageError(500, 'No passage', document.problems.map(({ what, remedy }) => `${what} ${remedy}`).join(' '));
}

/** A number in the address; `new` is one behind the last of `count`. Anything else is no such page. */
export function indexOf(request: Request, name: string, count: number): number {
  const text = request.params[name];
  if (text === 'new') return count;
  const index = typeof text === 'string' && /^\d{1,4}$/.test(text) ? Number(text) : -1;
  if (index >= 0 && index <= count) return index;
  throw new PageError(404, 'Not there', 'This entry is not in the passage any more. Look at the list.');
}

const textsOfForm = (form: Form): Texts => new Map(form.names.map((name) => [name, form.text(name)]));

interface EntrySaving {
  readonly to: string;
  readonly save: (file: PassageFile, texts: Texts) => Result<PassageFile>;
  readonly remove: (file: PassageFile) => Result<PassageFile>;
  readonly page: (refused: RefusedEntry, document: PassageDocument, shown: Shown) => string;
}

/** Saves the form of one entry, or takes the entry out where its other button was pressed. */
export function savingEntry(
  deps: Deps,
  asked: { readonly request: Request; readonly response: Response },
  { to, save, remove, page }: EntrySaving,
): Promise<void> {
  const isRemoval = formOf(asked.request).text('do') === 'remove';
  return saving(deps, asked, {
    to,
    change: (file, form) => (isRemoval ? remove(file) : save(file, textsOfForm(form))),
    page: async ({ problems, form }, shown) =>
      page({ texts: textsOfForm(form), problems }, await shownDocument(deps), shown),
  });
}
