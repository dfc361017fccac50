import { type Request, type Response, Router } from 'express';
import type { Problem, Result } from '../../lib/result/index.ts';
import { renderDocument } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { documentPage, type DocumentPage } from '../presenters/document-page.ts';
import { notSaved } from '../presenters/notices.ts';
import { formBody, formOf } from './form.ts';
import { pageBefore } from './page-before.ts';
import { PageError } from './page-error.ts';
import { expectedVersion, isConflictAmong, savedPath } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/**
 * The passage as it is kept: its versions, its file, and the buttons that take a change back, take the file over or show
 * another passage.
 */
export function documentRoutes(deps: Deps): Router {
  const answer = async (
    result: Result<PassageDocument>,
    request: Request,
    response: Response,
    to = '/',
  ): Promise<void> => {
    if (result.ok) return response.redirect(303, savedPath(to, result.value));
    const { problems } = result;
    const shown = await shownFor(deps, request, [notSaved(problems)]);
    response.status(isConflictAmong(problems) ? 409 : 422);
    return sendHtml(response, renderDocument(await documentPageOf(deps, []), shown));
  };
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/document', async (request, response) => {
      const document = await deps.passageDocument();
      const page = await documentPageOf(deps, document.ok ? [] : document.problems);
      sendHtml(response, renderDocument(page, await shownFor(deps, request)));
    })
    .get('/document/passage.json', (_request, response) => {
      const text = deps.passageText();
      if (!text.ok)
        throw new PageError(
          404,
          'No passage',
          'No passage was taken over yet. Begin one of your own on the page of the passages.',
        );
      response.set('Cache-Control', 'no-store').attachment(text.value.fileName).type('json').send(text.value.text);
    })
    .post('/document/take-over', formBody, async (request, response) => {
      await answer(await deps.takeOverFile(expectedVersion(formOf(request))), request, response);
    })
    .post('/document/show', formBody, async (request, response) => {
      const number = Number(/^\d{1,9}$/.exec(formOf(request).text('number'))?.[0] ?? Number.NaN);
      if (Number.isNaN(number))
        throw new PageError(400, 'No such passage', 'The form names no passage. Load the page of the passages again.');
      await answer(await deps.showDocument(number), request, response, '/?shown=1');
    })
    .post('/document/undo', formBody, async (request, response) => {
      const expected = expectedVersion(formOf(request));
      const version = expected.version - 1;
      const to = `${listBefore(request)}?back=${version}`;
      await answer(await deps.bringBackVersion({ expected, version }), request, response, to);
    })
    .post('/document/bring-back', formBody, async (request, response) => {
      const form = formOf(request);
      const version = Number(/^\d{1,9}$/.exec(form.text('wanted'))?.[0] ?? Number.NaN);
      if (Number.isNaN(version))
        throw new PageError(400, 'No such version', 'The form names no version. Load the page of the passages again.');
      const expected = expectedVersion(form);
      await answer(await deps.bringBackVersion({ expected, version }), request, response, `/document?back=${version}`);
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const LISTS = ['plan', 'windows', 'jobs', 'locker', 'damage', 'log', 'forecast', 'messages', 'document'];

/** The page a change was taken back on, or the list it belongs to: what it was about may not be there any more. */
function listBefore(request: Request): string {
  const [, first = ''] = pageBefore(request).split(/[/?#]/);
  return LISTS.includes(first) ? `/${first}` : '/';
}

/** The page of the passages, with what is wrong with the one shown, or with one that was sent. */
export async function documentPageOf(
  deps: Deps,
  problems: readonly Problem[],
  sent: { readonly token?: string; readonly bringInProblems?: readonly Problem[] } = {},
): Promise<DocumentPage> {
  const info = await deps.documentInfo();
  const list = deps.documentList();
  const versions = info.ok ? deps.documentVersions(info.value.number) : null;
  return documentPage({
    document: info.ok ? info.value : null,
    problems: [...problems, ...(list.ok ? [] : list.problems)],
    versions: versions?.ok === true ? versions.value : [],
    list: list.ok ? list.value : [],
    token: deps.formToken(),
    ...sent,
  });
}
