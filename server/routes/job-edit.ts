import { type Request, type Response, Router } from 'express';
import { failed, ok, type Problem } from '../../lib/result/index.ts';
import { renderJobs, type Shown } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import {
  type EditedJob,
  editedJob,
  fileWithForm,
  findJob,
  mergedForm,
  moveSteps,
  newJob,
  newJobId,
  placedProblems,
  readEntryText,
  readJobForm,
  type SentForm,
  stepMoveOf,
  untouchedForm,
  withEntry,
} from '../job-forms/index.ts';
import { documentClock } from '../presenters/job-document.ts';
import { type AsText, type JobEditPage, jobEditPage, type PlacedProblem } from '../presenters/job-edit-page.ts';
import { BLANK_ENTRY } from '../presenters/job-form.ts';
import { jobPageHref } from '../presenters/job-page.ts';
import { versionText } from '../presenters/notices.ts';
import { formBody, formOf } from './form.ts';
import { askedJob, documentOf, idOf } from './job-asked.ts';
import { type Refused, saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The form of a job, that of a new one, and its entry as text. */
export function jobEditRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/new-job', async (request, response) => {
      const document = await documentOf(deps);
      const edited = newJob(document, BLANK_ENTRY);
      const page = pageOf(deps, document, edited, { sent: untouchedForm(edited) });
      sendHtml(response, renderJobs(page, await shownFor(deps, request)));
    })
    .post('/new-job', formBody, async (request, response) => {
      const document = await documentOf(deps);
      const blank = newJob(document, BLANK_ENTRY);
      const { baseEntry } = readJobForm(formOf(request), BLANK_ENTRY, blank.around);
      await save(deps, { request, response }, document, newJob(document, baseEntry));
    })
    .get('/jobs/:id/edit', async (request, response) => {
      const { document, found } = await askedJob(deps, request);
      const edited = editedJob(document, found);
      const page = pageOf(deps, document, edited, { sent: untouchedForm(edited) });
      sendHtml(response, renderJobs(page, await shownFor(deps, request)));
    })
    .post('/jobs/:id/edit', formBody, async (request, response) => {
      const document = await documentOf(deps);
      const found = findJob(document.file, document.passage, idOf(request));
      if (found !== null) return save(deps, { request, response }, document, editedJob(document, found));
      return offerAnew(deps, { request, response }, document);
    })
    .post('/jobs/:id/text', formBody, (request, response) => saveText(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

/** A button that moves steps gives the form again with nothing saved; any other saves it. */
async function save(deps: Deps, asked: Asked, document: PassageDocument, edited: EditedJob): Promise<void> {
  const form = formOf(asked.request);
  const sent = readJobForm(form, edited.entry, edited.around);
  const move = stepMoveOf(form.text('do'));
  if (move !== null) {
    const note = 'The steps are shown as they will be. Nothing is saved yet.';
    const page = pageOf(deps, document, edited, {
      sent: moveSteps(sent, move, edited.around),
      version: form.text('version'),
      note,
    });
    return sendHtml(asked.response, renderJobs(page, await shownFor(deps, asked.request)));
  }
  const to = edited.isNew ? newJobId(document.file, sent, edited) : edited.entry.id;
  return saving(deps, asked, {
    change: (file) => fileWithForm(file, sent, edited),
    to: jobPageHref(to),
    page: (refused, shown) => refusedPage(deps, { refused, edited, sent }, shown),
  });
}

interface RefusedForm {
  readonly refused: Refused;
  readonly edited: EditedJob;
  readonly sent: SentForm;
}

/** The form with what was entered; after a conflict laid over what is kept now, and both are shown where they differ. */
async function refusedPage(deps: Deps, { refused, edited, sent }: RefusedForm, shown: Shown): Promise<string> {
  const document = await documentOf(deps);
  if (!refused.isConflict) {
    const problems = placedProblems(refused.problems, sent, edited);
    const page = pageOf(deps, document, edited, { sent, problems, version: refused.form.text('version') });
    return renderJobs(page, withoutPlaced(shown, problems));
  }
  const found = edited.isNew ? null : findJob(document.file, document.passage, edited.entry.id);
  if (found === null) {
    const again = newJob(document, sent.baseEntry);
    return renderJobs(pageOf(deps, document, again, { sent, note: edited.isNew ? AGAIN : TAKEN_OUT }), shown);
  }
  const now = editedJob(document, found);
  const { form, keptNow, lost } = mergedForm(sent, now.entry, now.around);
  return renderJobs(pageOf(deps, document, now, { sent: form, keptNow, lost, note: MERGED }), shown);
}

const AGAIN = 'The passage was changed meanwhile; this job is not in it yet. Save it again to add it.';
const TAKEN_OUT = 'This job was taken out of the passage meanwhile. Saved again, it is added anew.';
const MERGED =
  'What you entered stands in the form, everything else as it is kept now. Where both were changed, what is kept now stands beside it. Save again to keep what you see.';

/** What has an input of its own is said there, and only counted above. */
const withoutPlaced = (shown: Shown, problems: readonly PlacedProblem[]): Shown => ({
  ...shown,
  notices: (shown.notices ?? []).map((notice) =>
    notice.kind === 'not-saved'
      ? { ...notice, problems: problems.filter(({ input }) => input === null).map(({ problem }) => problem) }
      : notice,
  ),
});

/** The form of a job that is no longer there, as one to be added. */
async function offerAnew(deps: Deps, { request, response }: Asked, document: PassageDocument): Promise<void> {
  const blank = newJob(document, BLANK_ENTRY);
  const sent = readJobForm(formOf(request), BLANK_ENTRY, blank.around);
  // Without what the form was made from there is nothing to add: the page says that there is no such job.
  if (sent.baseEntry === BLANK_ENTRY) await askedJob(deps, request);
  const page = pageOf(deps, document, newJob(document, sent.baseEntry), { sent, note: TAKEN_OUT });
  response.status(409);
  sendHtml(response, renderJobs(page, await shownFor(deps, request)));
}

async function saveText(deps: Deps, asked: Asked): Promise<void> {
  const { document, found } = await askedJob(deps, asked.request);
  const text = formOf(asked.request).text('entry');
  const edited = editedJob(document, found);
  const entry = readEntryText(text, edited.where, edited.index);
  await saving(deps, asked, {
    change: (file) => (entry.ok ? ok(withEntry(file, edited.entry.id, entry.value)) : failed(...entry.problems)),
    to: jobPageHref(entry.ok ? entry.value.id : edited.entry.id),
    page: async (refused, shown) => {
      const { document: kept, found: now } = await askedJob(deps, asked.request);
      const again = editedJob(kept, now);
      const textProblems = refused.isConflict ? [] : refused.problems;
      const page = pageOf(deps, kept, again, { sent: untouchedForm(again), text, textProblems });
      return renderJobs(page, refused.isConflict ? shown : withoutPlaced(shown, []));
    },
  });
}

interface PageOf {
  readonly sent: SentForm;
  readonly problems?: readonly PlacedProblem[];
  readonly keptNow?: ReadonlyMap<string, string>;
  readonly lost?: readonly string[];
  readonly note?: string;
  /** Of the form that was sent, where the page is the same form again. */
  readonly version?: string;
  /** The entry as it was typed; left out: as it is. */
  readonly text?: string;
  readonly textProblems?: readonly Problem[];
}

function pageOf(deps: Deps, document: PassageDocument, edited: EditedJob, of: PageOf): JobEditPage {
  const { sent, problems = [], keptNow = new Map(), lost = [], note = '' } = of;
  const { isNew, entry, library } = edited;
  const href = jobPageHref(entry.id);
  return jobEditPage(
    {
      name: document.passage.name,
      clock: documentClock(document.passage, deps.nowEpochMs()),
      title: isNew ? 'A new job' : sent.base.job.name,
      action: isNew ? '/new-job' : `${href}/edit`,
      backHref: isNew ? '/jobs' : href,
      version: of.version ?? versionText(document),
      base: sent.baseEntry === BLANK_ENTRY ? '' : JSON.stringify(sent.baseEntry),
      note,
      lost,
      asText: isNew ? null : asText(`${href}/text`, entry, of),
    },
    { form: sent.base, values: sent.values, library, problems, keptNow },
  );
}

const asText = (action: string, entry: object, { text, textProblems = [] }: PageOf): AsText => ({
  action,
  text: text ?? JSON.stringify(entry, null, 2),
  problems: textProblems,
  isOpen: text !== undefined,
});
