import { type Request, type Response, Router } from 'express';
import { type Proposal, proposalsFor } from '../../lib/jobs/index.ts';
import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { renderJobs } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import {
  chainAsEntries,
  libraryAsEntry,
  proposalKey,
  withAdded,
  withMovedJob,
  withProposal,
} from '../job-forms/index.ts';
import { jobPageHref } from '../presenters/job-page.ts';
import { jobsPage, openJobs } from '../presenters/jobs-page.ts';
import type { JobsPages } from '../presenters/jobs-pages.ts';
import { type Form, formBody, formOf } from './form.ts';
import { idOf } from './job-asked.ts';
import { jobEditRoutes } from './job-edit.ts';
import { jobRoutes } from './job.ts';
import { PageError } from './page-error.ts';
import { unitsOf } from './reader-units.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The list of jobs: what is there, what is proposed, what can be added; and the pages of each job. */
export function jobsRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/jobs', async (request, response) => {
      sendHtml(response, renderJobs(await listPage(deps, request), await shownFor(deps, request)));
    })
    .post('/jobs', formBody, (request, response) => add(deps, request, response))
    .post('/jobs/:id/move', formBody, (request, response) => {
      const id = idOf(request);
      const by = formOf(request).text('by') === 'up' ? -1 : 1;
      return saveList(deps, { request, response }, (file) => ok(withMovedJob(file, id, by)), '/jobs');
    })
    .use(jobEditRoutes(deps), jobRoutes(deps));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

async function listPage(deps: Deps, request: Request): Promise<JobsPages> {
  const document = await deps.passageDocument();
  if (!document.ok) return { kind: 'failed', problems: document.problems };
  return jobsPage({
    document: document.value,
    standing: deps.planStanding(),
    nowEpochMs: deps.nowEpochMs(),
    units: unitsOf(request),
  });
}

const saveList = (
  deps: Deps,
  asked: { request: Request; response: Response },
  change: (file: PassageFile, form: Form) => Result<PassageFile>,
  to: string,
): Promise<void> =>
  saving(deps, asked, { change, to, page: async (_, shown) => renderJobs(await listPage(deps, asked.request), shown) });

/** `kind`: `library` with `job`, `chain` with `chain` and any `link`, `proposal` with `proposal`. */
async function add(deps: Deps, request: Request, response: Response): Promise<void> {
  const form = formOf(request);
  const asked = { request, response };
  const document = await deps.passageDocument();
  const file: PassageFile | null = document.ok ? document.value.file : null;
  if (form.text('kind') === 'library') {
    // The version of the form sees to it that the id stays free until it is saved.
    const entry = file === null ? null : libraryAsEntry(form.text('job'), file);
    const to = entry?.ok === true ? jobPageHref(entry.value.id) : '/jobs';
    return saveList(deps, asked, (now) => added(now, libraryAsEntry(form.text('job'), now)), to);
  }
  if (form.text('kind') === 'chain') {
    const entriesIn = (now: PassageFile) => chainAsEntries(form.text('chain'), form.all('link'), now);
    return saveList(
      deps,
      asked,
      (now) => {
        const entries = entriesIn(now);
        return entries.ok ? ok(withAdded(now, entries.value)) : entries;
      },
      '/jobs',
    );
  }
  if (form.text('kind') !== 'proposal')
    throw new PageError(400, 'Not added', 'The form does not say what to add. Load its page again.');
  const proposal = document.ok ? proposalOf(document.value.passage, form.text('proposal')) : null;
  return saveList(
    deps,
    asked,
    (now) => (proposal === null ? failed(noProposal) : ok(withProposal(now, proposal))),
    '/jobs',
  );
}

const added = (file: PassageFile, entry: ReturnType<typeof libraryAsEntry>): Result<PassageFile> =>
  entry.ok ? ok(withAdded(file, [entry.value])) : entry;

const proposalOf = (passage: Passage, key: string): Proposal | null =>
  proposalsFor({ jobs: openJobs(passage), sailStates: passage.boat.sailStates }).find(
    (proposal) => proposalKey(proposal) === key,
  ) ?? null;

const noProposal = {
  code: 'jobs.proposal-gone',
  where: 'the proposal',
  what: 'This is not proposed any more: the jobs are no longer as they were.',
  expected: 'a proposal of the list below',
  remedy: 'Look at what is proposed now.',
};
