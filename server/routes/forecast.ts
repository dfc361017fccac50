import { type Request, type Response, Router } from 'express';
import type { Problem, Result } from '../../lib/result/index.ts';
import { renderFetching, renderForecast } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { FetchEstimate } from '../fetchers/index.ts';
import { withForecasts } from '../forecast-choice.ts';
import { forecastsNamed } from '../forecasts-named.ts';
import { type FetchAsked, MOST_UPLOAD_OCTETS } from '../keep-forecasts.ts';
import { NOTHING_ASKED } from '../presenters/forecast-fetch.ts';
import { type ForecastPage, forecastPage, type ForecastShown } from '../presenters/forecast-page.ts';
import type { PassageView } from '../presenters/plan-standing.ts';
import { storedName } from '../stores/passage-files.ts';
import { readUpload } from '../uploads/index.ts';
import { shownDocument } from './entry.ts';
import { type Form, formBody, formOf } from './form.ts';
import { PageError } from './page-error.ts';
import { unitsOf } from './reader-units.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

interface Entered {
  readonly asked?: FetchAsked;
  readonly estimate?: FetchEstimate | null;
  readonly formProblems?: readonly Problem[];
  readonly uploadProblems?: readonly Problem[];
  readonly problems?: readonly Problem[];
}

/** The forecast: what the plan knows of it, which files it is made of, and getting another one. */
export function forecastRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/forecast', async (request, response) => {
      sendHtml(response, renderForecast(await pageWith(deps, request, {}), await shownFor(deps, request)));
    })
    .get('/forecast/fetch', async (request, response) => {
      if (request.get('HX-Request-Type') !== 'partial') return response.redirect(303, '/forecast#fetch');
      sendHtml(response, renderFetching(await pageWith(deps, request, {})));
    })
    .post('/forecast/files', formBody, (request, response) =>
      saving(
        deps,
        { request, response },
        {
          to: '/forecast',
          change: (file, form) =>
            withForecasts(file, { references: form.all('use'), offered: offeredOf(deps, file.forecasts ?? []) }),
          page: async ({ problems, isConflict }, shown) =>
            renderForecast(await pageWith(deps, request, { problems: isConflict ? [] : problems }), shown),
        },
      ),
    )
    .post('/forecast/fetch', formBody, (request, response) => fetchAsked(deps, { request, response }))
    .post('/forecast/fetch/stop', formBody, (_, response) => {
      deps.cancelFetch();
      response.redirect(303, '/forecast#fetch');
    })
    .post('/forecast/upload', (request, response) => upload(deps, { request, response }))
    .post('/forecast/remove', formBody, (request, response) => remove(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

/** Forecasts the page lists: of the store, of the passage, and of its earlier versions. */
function offeredOf(deps: Deps, named: readonly string[]): readonly string[] {
  const stored = deps.forecastFiles();
  const document = deps.passageText();
  return [
    ...named,
    ...(stored.ok ? stored.value.map(({ hash }) => storedName(hash)) : []),
    ...(document.ok ? forecastsNamed(deps, document.value.number) : []),
  ];
}

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

async function pageWith(deps: Deps, request: Request, entered: Entered): Promise<ForecastPage> {
  const document = await shownDocument(deps);
  const standing = deps.planStanding();
  const stored = deps.forecastFiles();
  return forecastPage({
    document,
    nowEpochMs: deps.nowEpochMs(),
    units: unitsOf(request),
    ...ofPlan(standing.kind === 'ready' ? standing.view : null),
    stored: stored.ok ? stored.value : [],
    namedBefore: forecastsNamed(deps, document.number),
    sources: deps.sources,
    fetching: deps.fetchStanding(),
    asked: entered.asked ?? { ...NOTHING_ASKED, sourceId: deps.sources[0]?.id ?? '' },
    estimate: entered.estimate ?? null,
    formProblems: entered.formProblems ?? [],
    uploadProblems: entered.uploadProblems,
    problems: [...(entered.problems ?? []), ...(stored.ok ? [] : stored.problems)],
  });
}

/** What the plan shown knows of its forecast. */
const ofPlan = (view: PassageView | null): Pick<ForecastShown, 'summary' | 'seen' | 'track'> => ({
  summary: view?.forecast ?? null,
  seen: view?.fromLog?.match ?? [],
  track: view?.way?.track ?? null,
});

/** How much it would be, or the fetch itself. */
async function fetchAsked(deps: Deps, { request, response }: Asked): Promise<void> {
  const form = formOf(request);
  const asked = askedIn(form);
  const isEstimate = form.text('do') === 'estimate';
  const answer: Result<FetchEstimate | null> = isEstimate ? await deps.estimate(asked) : deps.beginFetch(asked);
  if (answer.ok && !isEstimate) return response.redirect(303, '/forecast#fetch');
  if (!answer.ok) response.status(422);
  const entered = answer.ok
    ? { asked, estimate: answer.value }
    : { asked, formProblems: answer.problems satisfies readonly Problem[] };
  return sendHtml(response, renderForecast(await pageWith(deps, request, entered), await shownFor(deps, request)));
}

const askedIn = (form: Form): FetchAsked => ({
  sourceId: form.text('source') === 'address' ? '' : form.text('source'),
  address: form.text('address'),
  cycle: form.text('cycle'),
  steps: form.text('steps'),
  quantities: form.text('quantities'),
  members: form.text('members'),
  mostKbPerS: form.text('rate'),
});

/** Files from the reader's own disk, put into the store; which are planned with is chosen afterwards. */
async function upload(deps: Deps, { request, response }: Asked): Promise<void> {
  const uploadProblems: Problem[] = [];
  let takenCount = 0;
  await readUpload(request, {
    mostFileOctets: MOST_UPLOAD_OCTETS,
    takeFile: async ({ field, fileName, content }) => {
      if (field !== 'forecast') return;
      const taken = await deps.takeForecast({ fileName, content });
      if (taken.ok) takenCount += 1;
      else uploadProblems.push(...taken.problems);
    },
  });
  if (takenCount === 0 && uploadProblems.length === 0) uploadProblems.push(noFile);
  if (uploadProblems.length === 0) return response.redirect(303, '/forecast#files');
  response.status(422);
  return sendHtml(
    response,
    renderForecast(await pageWith(deps, request, { uploadProblems }), await shownFor(deps, request)),
  );
}

const noFile: Problem = {
  code: 'forecast.no-file',
  where: 'forecast',
  what: 'No file was chosen.',
  expected: 'one GRIB file or several',
  remedy: 'Choose them, then press the button again.',
};

/** A file that no passage shown is planned with. */
async function remove(deps: Deps, { request, response }: Asked): Promise<void> {
  const hash = formOf(request).text('hash');
  const { passage } = await shownDocument(deps);
  if (passage.forecasts.includes(storedName(hash)))
    throw new PageError(409, 'Not removed', 'The passage is planned with this file. Leave it out of the plan first.');
  const removed = await deps.removeForecast(hash);
  if (!removed.ok) throw new PageError(500, 'Not removed', removed.problems[0].what);
  response.redirect(303, '/forecast#files');
}
