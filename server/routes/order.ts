import { type Request, type Response, Router } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { renderOrder, type Shown } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { type Sequence, withoutSequence, withSequence } from '../order-forms/index.ts';
import { ORDER_HREF, orderPage } from '../presenters/order-page.ts';
import { type Form, formBody } from './form.ts';
import { documentOf } from './job-asked.ts';
import { type Refused, saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The order of the work: a page, and the buttons that put one job before another and take that out again. */
export function orderRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get(ORDER_HREF, async (request, response) => {
      sendHtml(response, await pageOf(deps, null, await shownFor(deps, request)));
    })
    .post(ORDER_HREF, formBody, async (request, response) => {
      const { passage } = await documentOf(deps);
      await save(deps, { request, response }, (file, form) => withSequence(file, passage.jobs, sequenceOf(form)));
    })
    .post(`${ORDER_HREF}/out`, formBody, async (request, response) => {
      await save(deps, { request, response }, (file, form) => withoutSequence(file, sequenceOf(form)));
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const sequenceOf = (form: Form): Sequence => ({ firstId: form.text('first'), secondId: form.text('second') });

const save = (
  deps: Deps,
  asked: { readonly request: Request; readonly response: Response },
  change: (file: PassageFile, form: Form) => Result<PassageFile>,
): Promise<void> =>
  saving(deps, asked, { change, to: ORDER_HREF, page: (refused, shown) => pageOf(deps, refused, shown) });

async function pageOf(deps: Deps, refused: Refused | null, shown: Shown): Promise<string> {
  const document = await documentOf(deps);
  const page = orderPage({
    document,
    standing: deps.planStanding(),
    nowEpochMs: deps.nowEpochMs(),
    // Somebody else's change is said above the page; the order is then chosen again on what is kept now.
    refused:
      refused === null || refused.isConflict
        ? null
        : {
            chosen: sequenceOf(refused.form),
            problems: refused.problems,
            version: refused.form.text('version'),
          },
  });
  return renderOrder(page, refused === null || refused.isConflict ? shown : withoutProblems(shown));
}

/** What is wrong stands at the form; above the page it is only counted. */
const withoutProblems = (shown: Shown): Shown => ({
  ...shown,
  notices: (shown.notices ?? []).map((notice) => (notice.kind === 'not-saved' ? { ...notice, problems: [] } : notice)),
});
