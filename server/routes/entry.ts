import type { Request, Response } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Problem, Result } from '../../lib/result/index.ts';
import type { Shown } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { carriedTexts } from '../entry-forms/index.ts';
import { type Form, formOf } from './form.ts';
import { PageError } from './page-error.ts';
import { saving } from './saving.ts';

export type Texts = ReadonlyMap<string, string>;

/** What was entered and why it was not saved. */
export interface RefusedEntry {
  readonly texts: Texts;
  readonly problems: readonly Problem[];
  /** The state of the passage its form was made from. */
  readonly version: string;
  /** What the form showed, where somebody has saved meanwhile; null: nobody has, or the form does not say. */
  readonly was: Texts | null;
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

export const textsOfForm = (form: Form): Texts => new Map(form.names.map((name) => [name, form.text(name)]));

interface EntrySaving {
  readonly to: string;
  readonly save: (file: PassageFile, texts: Texts) => Result<PassageFile>;
  /** `isSure`: asked a second time. */
  readonly remove: (file: PassageFile, isSure: boolean) => Result<PassageFile>;
  readonly page: (refused: RefusedEntry, document: PassageDocument, shown: Shown) => string;
}

/** Saves the form of one entry, or takes the entry out where its other button was pressed. */
export function savingEntry(
  deps: Deps,
  asked: { readonly request: Request; readonly response: Response },
  { to, save, remove, page }: EntrySaving,
): Promise<void> {
  const button = formOf(asked.request).text('do');
  return saving(deps, asked, {
    to,
    change: (file, form) =>
      button.startsWith('remove') ? remove(file, button === 'remove-all') : save(file, textsOfForm(form)),
    page: async ({ problems, isConflict, form }, shown) =>
      page(
        {
          texts: textsOfForm(form),
          problems,
          version: form.text('version'),
          was: isConflict ? (carriedTexts(form.text('was')) ?? nothingShown(form)) : null,
        },
        await shownDocument(deps),
        isConflict ? shown : onlyCounted(shown),
      ),
  });
}

/** A form that does not say what it showed: all of it counts as entered. */
const nothingShown = (form: Form): Texts => new Map(form.names.map((name) => [name, '']));

/** What is wrong stands in the form, each at its input; above it is only counted. */
const onlyCounted = (shown: Shown): Shown => ({
  ...shown,
  notices: (shown.notices ?? []).map((notice) => (notice.kind === 'not-saved' ? { ...notice, problems: [] } : notice)),
});
