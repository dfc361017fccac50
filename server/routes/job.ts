import { type Request, type Response, Router } from 'express';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import { renderJobs, type Shown } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import {
  copyOf,
  type FoundJob,
  givenBack,
  jobOf,
  OTHERS_AFTER,
  readEntry,
  withAdded,
  withEntry,
  withoutJob,
} from '../job-forms/index.ts';
import { jobPage, jobPageHref } from '../presenters/job-page.ts';
import { formBody, formOf } from './form.ts';
import { askedJob, idOf } from './job-asked.ts';
import { unitsOf } from './reader-units.ts';
import { type Refused, saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** One job: its page, and the buttons that give a figure back to the library, copy it and take it out. */
export function jobRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/jobs/:id', async (request, response) => {
      const { document, found } = await askedJob(deps, request);
      const page = jobPage({ document, ...found, ...pageTimes(deps, request), isRemovalAsked: false });
      sendHtml(response, renderJobs(page, await shownFor(deps, request)));
    })
    .post('/jobs/:id/library', formBody, async (request, response) => {
      const place = formOf(request).text('place');
      await changeJob(deps, request, response, {
        to: jobPageHref(idOf(request)),
        change: (file, { entry, index }) => {
          const read = readEntry(givenBack(entry, place === '*' ? null : place), 'passage', index);
          return read.ok ? ok(withEntry(file, entry.id, read.value)) : read;
        },
      });
    })
    .post('/jobs/:id/copy', formBody, async (request, response) => {
      const { document, found } = await askedJob(deps, request);
      const copy = copyOf(found.entry, found.job, document.file);
      await changeJob(deps, request, response, {
        to: `${jobPageHref(copy.id)}/edit`,
        change: (file, { entry }) => ok(withAdded(file, [copyOf(entry, jobOf(entry), file)])),
      });
    })
    .post('/jobs/:id/remove', formBody, async (request, response) => {
      const isTakenOut = formOf(request).text('others') === 'too';
      await changeJob(deps, request, response, {
        to: '/jobs',
        change: (file, { entry }) => withoutJob(file, jobOf(entry), isTakenOut),
      });
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const pageTimes = (deps: Deps, request: Request) => ({
  standing: deps.planStanding(),
  nowEpochMs: deps.nowEpochMs(),
  units: unitsOf(request),
});

interface JobChange {
  readonly to: string;
  readonly change: (file: PassageFile, found: Pick<FoundJob, 'entry' | 'index'>) => Result<PassageFile>;
}

async function changeJob(deps: Deps, request: Request, response: Response, { to, change }: JobChange): Promise<void> {
  // A job that is not there has a page of its own, and nothing is changed.
  await askedJob(deps, request);
  const id = idOf(request);
  await saving(
    deps,
    { request, response },
    {
      to,
      change: (file) => {
        const index = (file.jobs ?? []).findIndex((entry) => entry.id === id);
        const entry = file.jobs?.[index];
        return entry === undefined ? failed(gone(id)) : change(file, { entry, index });
      },
      page: (refused, shown) => refusedPage(deps, request, refused, shown),
    },
  );
}

async function refusedPage(deps: Deps, request: Request, { problems }: Refused, shown: Shown): Promise<string> {
  const { document, found } = await askedJob(deps, request);
  const isRemovalAsked = problems.some(({ code }) => code === OTHERS_AFTER);
  return renderJobs(jobPage({ document, ...found, ...pageTimes(deps, request), isRemovalAsked }), shown);
}

const gone = (id: string) => ({
  code: 'jobs.job-gone',
  where: `job ${id}`,
  what: `There is no job “${id}” in the passage any more.`,
  expected: 'a job of the passage',
  remedy: 'Look at the list of jobs.',
});
