import { type Request, type Response, Router } from 'express';
import { failed, ok } from '../../lib/result/index.ts';
import { renderDamage } from '../../views/render.tsx';
import { withoutSail, withoutTear, withSail, withTear, withTearJobs } from '../damage-forms/index.ts';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { damagePage, sailPage, tearPage } from '../presenters/damage-page.ts';
import { jobPageHref } from '../presenters/job-page.ts';
import { indexOf, savingEntry, shownDocument } from './entry.ts';
import { formBody, formOf } from './form.ts';
import { PageError } from './page-error.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The sails of the passage: drawings and findings, a form for each sail and tear, and the jobs a tear asks for. */
export function damageRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/damage', async (request, response) => {
      const page = damagePage(await shownDocument(deps), deps.nowEpochMs());
      sendHtml(response, renderDamage(page, await shownFor(deps, request)));
    })
    .get('/damage/:sail', async (request, response) => {
      const document = await shownDocument(deps);
      const page = sailPage(sailIndex(request, document), { document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderDamage(page, await shownFor(deps, request)));
    })
    .post('/damage/:sail', formBody, async (request, response) => {
      const index = sailIndex(request, await shownDocument(deps));
      await savingEntry(
        deps,
        { request, response },
        {
          to: '/damage',
          save: (file, texts) => withSail(file, index, texts),
          remove: (file) => withoutSail(file, index),
          page: (refused, document, shown) =>
            renderDamage(sailPage(index, { document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
        },
      );
    })
    .get('/damage/:sail/tears/:tear', async (request, response) => {
      const document = await shownDocument(deps);
      const at = tearAt(request, document);
      const page = tearPage(at, { document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderDamage(page, await shownFor(deps, request)));
    })
    .post('/damage/:sail/tears/:tear', formBody, async (request, response) => {
      const at = tearAt(request, await shownDocument(deps));
      await savingEntry(
        deps,
        { request, response },
        {
          to: `/damage#sail-${at.sail}`,
          save: (file, texts) => withTear(file, at, texts),
          remove: (file) => withoutTear(file, at),
          page: (refused, document, shown) =>
            renderDamage(tearPage(at, { document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
        },
      );
    })
    .post('/damage/:sail/tears/:tear/jobs', formBody, (request, response) => addJobs(deps, request, response));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const sailIndex = (request: Request, { file }: PassageDocument): number =>
  indexOf(request, 'sail', file.sails?.length ?? 0);

function tearAt(request: Request, document: PassageDocument): { sail: number; tear: number } {
  const sail = sailIndex(request, document);
  const found = document.file.sails?.[sail];
  if (found === undefined) throw new PageError(404, 'Not there', 'This sail is not in the passage. Look at the list.');
  return { sail, tear: indexOf(request, 'tear', found.damage?.length ?? 0) };
}

/** The sewing and the patch of a tear, added to the jobs; then to the page of the sewing. */
async function addJobs(deps: Deps, request: Request, response: Response): Promise<void> {
  const document = await shownDocument(deps);
  const asked = { ...tearAt(request, document), isBelow: formOf(request).text('where') === 'below' };
  const jobs = withTearJobs(document.file, document.passage, asked);
  await saving(
    deps,
    { request, response },
    {
      to: jobs.ok ? jobPageHref(jobs.value.jobId) : '/damage',
      change: (file) => {
        const now = withTearJobs(file, document.passage, asked);
        return now.ok ? ok(now.value.file) : failed(...now.problems);
      },
      page: async (_, shown) => renderDamage(damagePage(await shownDocument(deps), deps.nowEpochMs()), shown),
    },
  );
}
