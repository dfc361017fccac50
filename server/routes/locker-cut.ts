import { type Request, type Response, Router } from 'express';
import type { Passage } from '../../lib/passage/index.ts';
import { failed, type Problem } from '../../lib/result/index.ts';
import { renderLocker } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import type { PassageCut } from '../kept-cut-plan.ts';
import { withSawn } from '../locker-forms/index.ts';
import { cutPage, lockerPage, type LockerPages, sawnPage } from '../presenters/locker-page.ts';
import { shownDocument } from './entry.ts';
import { formBody } from './form.ts';
import { PageError } from './page-error.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

type CutOf = (passage: Passage) => PassageCut | null;

/** The cut sheet alone; what changes once it is sawn, and the button that saves it. */
export function lockerCutRoutes(deps: Deps, cutOf: CutOf): Router {
  const pageOf = async (make: typeof cutPage | typeof sawnPage): Promise<LockerPages> => {
    const document = await shownDocument(deps);
    return make(document, deps.nowEpochMs(), wantedCut(document, cutOf));
  };
  /** What is to be sawn now; the locker where that was done meanwhile. */
  const refusedPage = async (): Promise<LockerPages> => {
    const document = await shownDocument(deps);
    const cut = cutOf(document.passage);
    const nowEpochMs = deps.nowEpochMs();
    return cut === null ? lockerPage({ document, nowEpochMs, cut }, {}) : sawnPage(document, nowEpochMs, cut);
  };
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/locker/cut', async (request, response) => {
      sendHtml(response, renderLocker(await pageOf(cutPage), await shownFor(deps, request)));
    })
    .get('/locker/sawn', async (request, response) => {
      sendHtml(response, renderLocker(await pageOf(sawnPage), await shownFor(deps, request)));
    })
    .post('/locker/sawn', formBody, async (request: Request, response: Response) => {
      const { passage } = await shownDocument(deps);
      const cut = cutOf(passage);
      await saving(
        deps,
        { request, response },
        {
          to: '/locker',
          // The version of the form sees to it that what is sawn is what was shown.
          change: (file) => (cut === null ? failed(NOTHING_WANTED) : withSawn(file, passage, cut.plan)),
          page: async ({ isConflict }, shown) =>
            renderLocker(isConflict ? await refusedPage() : await pageOf(sawnPage), shown),
        },
      );
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

function wantedCut({ passage }: PassageDocument, cutOf: CutOf): PassageCut {
  const cut = cutOf(passage);
  if (cut !== null) return cut;
  throw new PageError(404, 'Nothing to cut', `${NOTHING_WANTED.what} ${NOTHING_WANTED.remedy}`);
}

const NOTHING_WANTED: Problem = {
  code: 'cut.nothing-wanted',
  where: 'cutting',
  what: 'This passage wants nothing cut.',
  expected: 'a piece to cut',
  remedy: 'Add a piece on the page Locker.',
};
