import type { Request, Response } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Problem, Result } from '../../lib/result/index.ts';
import type { Shown } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { DocumentVersion } from '../documents/index.ts';
import { notSaved, versionText } from '../presenters/notices.ts';
import { type Form, formOf, versionOf } from './form.ts';
import { PageError } from './page-error.ts';
import { sendHtml, shownFor } from './shown.ts';

/** Why a form was not saved. */
export interface Refused {
  /** Everything found, each with where, what, what was expected, what to do. */
  readonly problems: readonly Problem[];
  /** Somebody has saved meanwhile: `passageDocument()` holds what is kept now. */
  readonly isConflict: boolean;
  /** What was entered. */
  readonly form: Form;
}

export interface Saving {
  /** The file changed as the form says, or what is wrong with the form; ranges and references are checked afterwards. */
  readonly change: (file: PassageFile, form: Form) => Result<PassageFile>;
  /** Path of the page to go to once it is saved. */
  readonly to: string;
  /** The page again, with what was entered and what is wrong with it; `shown` already says above it that it was not saved. */
  readonly page: (refused: Refused, shown: Shown) => string | Promise<string>;
}

/**
 * Answers a form that changes the passage: saved, and then to a page (303), so that loading it again sends nothing twice;
 * or the page again with all problems (422), or with what was saved meanwhile (409), and nothing was written. The route
 * stands behind `formBody`, and its form holds a `VersionField`.
 */
export async function saving(
  deps: Deps,
  { request, response }: { request: Request; response: Response },
  { change, to, page }: Saving,
): Promise<void> {
  const form = formOf(request);
  const saved = await deps.savePassage({ expected: expectedVersion(form), change: (file) => change(file, form) });
  if (saved.ok) return response.redirect(303, savedPath(to, saved.value));
  const { problems } = saved;
  const isConflict = isConflictAmong(problems);
  const html = await page({ problems, isConflict, form }, await shownFor(deps, request, [notSaved(problems)]));
  response.status(isConflict ? 409 : 422);
  return sendHtml(response, html);
}

export const isConflictAmong = (problems: readonly Problem[]): boolean =>
  problems.some(({ code }) => code === 'store.version-conflict');

/** What the form was made from; a form without it is not one of ours. */
export function expectedVersion(form: Form): DocumentVersion {
  const expected = versionOf(form);
  if (expected !== null) return expected;
  throw new PageError(
    400,
    'Not saved',
    'The form does not say which state of the passage it changes. Load its page again.',
  );
}

/** The path with what was saved behind it, for the notice that says so. */
export function savedPath(to: string, saved: DocumentVersion): string {
  const [path = '/', place] = to.split('#');
  const address = `${path}${path.includes('?') ? '&' : '?'}saved=${versionText(saved)}`;
  return place === undefined ? address : `${address}#${place}`;
}
