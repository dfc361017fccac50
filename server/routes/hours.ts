import { type Request, type Response, Router } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { ok } from '../../lib/result/index.ts';
import { renderJobs, type Shown } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { carriedTexts } from '../entry-forms/index.ts';
import { lockTexts, withForbidden, withOrders, withoutForbidden, withoutLock } from '../order-forms/index.ts';
import { hoursPage, type RefusedHours } from '../presenters/hours-page.ts';
import { hoursHref } from '../presenters/job-orders.ts';
import { textsOfForm, type Texts } from './entry.ts';
import { type Form, formBody } from './form.ts';
import { askedJob, idOf } from './job-asked.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** What is fixed about a job: its page with two forms, and the buttons of other pages that lock it and take the lock off. */
export function hoursRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  const router = Router().get('/jobs/:id/hours', async (request, response) => {
    sendHtml(response, await pageOf(deps, request, null, await shownFor(deps, request)));
  });
  for (const [name, button] of Object.entries(BUTTONS)) {
    router.post(`/jobs/:id/${name}`, formBody, (request, response) => save(deps, { request, response }, button));
  }
  /* oxlint-enable oxc/no-async-endpoint-handlers */
  return router;
}

interface Button {
  readonly change: (file: PassageFile, jobId: string, form: Form) => Result<PassageFile>;
  /** Where one goes once it is saved. */
  readonly to: (jobId: string) => string;
  /** The form that shows what was refused. */
  readonly form: RefusedHours['form'];
  /** What was entered, as that form shows it. */
  readonly texts: (form: Form, shipTimeOffsetMin: number) => Texts;
}

const NOTHING: Texts = new Map();
const toPlan = (jobId: string): string => `/plan#job-${jobId}`;

const lockOf = (form: Form, offsetMin: number): Texts =>
  lockTexts({ startUtc: form.text('startUtc'), handlingId: form.text('handling') }, offsetMin);

const BUTTONS: Readonly<Record<string, Button>> = {
  hours: {
    change: (file, jobId, form) => withOrders(file, jobId, textsOfForm(form)),
    to: toPlan,
    form: 'orders',
    texts: textsOfForm,
  },
  lock: {
    change: (file, jobId, form) => withOrders(file, jobId, lockOf(form, file.settings?.shipTimeOffsetMin ?? 0)),
    to: toPlan,
    form: 'orders',
    texts: lockOf,
  },
  unlock: { change: withoutLock, to: toPlan, form: 'orders', texts: () => NOTHING },
  forbid: {
    change: (file, jobId, form) => ok(withForbidden(file, jobId, textsOfForm(form))),
    to: (jobId) => `${hoursHref(jobId)}#forbidden`,
    form: 'forbid',
    texts: textsOfForm,
  },
  allow: {
    change: (file, _jobId, form) => {
      const job = form.text('job') === '' ? {} : { job: form.text('job') };
      return withoutForbidden(file, { fromUtc: form.text('fromUtc'), toUtc: form.text('toUtc'), ...job });
    },
    to: (jobId) => `${hoursHref(jobId)}#forbidden`,
    form: 'forbid',
    texts: () => NOTHING,
  },
};

async function save(
  deps: Deps,
  asked: { readonly request: Request; readonly response: Response },
  { change, to, form: shownIn, texts }: Button,
): Promise<void> {
  // A job that is not there is said before anything else.
  const { document, found } = await askedJob(deps, asked.request);
  const offsetMin = document.passage.settings.shipTimeOffsetMin;
  await saving(deps, asked, {
    change: (file, form) => change(file, found.job.id, form),
    to: to(idOf(asked.request)),
    page: ({ problems, isConflict, form }, shown) => {
      const entered = texts(form, offsetMin);
      const was = isConflict ? (carriedTexts(form.text('was')) ?? blankOf(entered)) : null;
      const refused = { form: shownIn, texts: entered, problems, version: form.text('version'), was };
      return pageOf(deps, asked.request, refused, isConflict ? shown : onlyCounted(shown));
    },
  });
}

/** A button that does not say what its form showed: all it says counts as entered. */
const blankOf = (texts: Texts): Texts => new Map([...texts.keys()].map((name) => [name, '']));

/** What is wrong stands in the form; above it is only counted. */
const onlyCounted = (shown: Shown): Shown => ({
  ...shown,
  notices: (shown.notices ?? []).map((notice) => (notice.kind === 'not-saved' ? { ...notice, problems: [] } : notice)),
});

async function pageOf(deps: Deps, request: Request, refused: RefusedHours | null, shown: Shown): Promise<string> {
  const { document, found } = await askedJob(deps, request);
  const page = hoursPage({
    document,
    found,
    standing: deps.planStanding(),
    nowEpochMs: deps.nowEpochMs(),
    refused,
  });
  return renderJobs(page, shown);
}
