import { type Request, type Response, Router } from 'express';
import type { Problem } from '../../lib/result/index.ts';
import { renderDocument } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { HeldArchive } from '../keep-archives.ts';
import { MOST_UPLOAD_OCTETS } from '../keep-forecasts.ts';
import { notSaved } from '../presenters/notices.ts';
import { readUpload, type SentFile } from '../uploads/index.ts';
import { documentPageOf } from './document.ts';
import { savedPath } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The passage with all it needs as one file for another machine, and the way in for such a file. */
export function archiveRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/document/passage.tar', (request, response) => sendArchive(deps, { request, response }))
    .post('/document/bring-in', (request, response) => bringIn(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

async function sendArchive(deps: Deps, { request, response }: Asked): Promise<void> {
  const packed = await deps.packPassage();
  if (!packed.ok) {
    response.status(422);
    const shown = await shownFor(deps, request, [notPacked(packed.problems)]);
    return sendHtml(response, renderDocument(await documentPageOf(deps, []), shown));
  }
  const { file, fileName, letGo } = packed.value;
  try {
    await sent(response.set('Cache-Control', 'no-store').type('application/x-tar'), file, fileName);
  } finally {
    await letGo();
  }
}

/** Ends when all of it is sent, or when whoever wanted it has gone; fails where nothing could be sent. */
const sent = (response: Response, file: string, fileName: string): Promise<void> =>
  new Promise((settle, fail) => {
    response.download(file, fileName, { cacheControl: false, dotfiles: 'allow' }, (error: unknown) => {
      if (error === undefined || error === null || response.headersSent) settle();
      else fail(error);
    });
  });

const notPacked = (problems: readonly Problem[]) => ({
  ...notSaved(problems),
  title: 'Not put into one file',
});

async function bringIn(deps: Deps, { request, response }: Asked): Promise<void> {
  const archives: HeldArchive[] = [];
  const problems: Problem[] = [];
  try {
    const takeFile = async (file: SentFile): Promise<void> => {
      if (file.field !== 'archive') return;
      const received = await deps.receiveArchive(file);
      if (received.ok) archives.push(received.value);
      else problems.push(...received.problems);
    };
    const form = await readUpload(request, { takeFile, mostFileOctets: MOST_UPLOAD_OCTETS });
    const token = form.text('token') || deps.formToken();
    const [archive] = archives;
    if (archive === undefined && problems.length === 0) problems.push(noneChosen);
    const passage = archive === undefined || problems.length > 0 ? null : await deps.bringInPassage(archive, token);
    if (passage?.ok === true) return response.redirect(303, savedPath('/', passage.value));
    const bringInProblems = [...problems, ...(passage === null ? [] : passage.problems)];
    response.status(422);
    const page = await documentPageOf(deps, [], { token, bringInProblems });
    return sendHtml(response, renderDocument(page, await shownFor(deps, request)));
  } finally {
    await Promise.all(archives.map(({ letGo }) => letGo()));
  }
}

const noneChosen: Problem = {
  code: 'archive.none',
  where: 'the file',
  what: 'No file was chosen.',
  expected: 'a passage as one file (tar), saved on a page like this or by slatch passage export',
  remedy: 'Choose it and press the button again.',
};
