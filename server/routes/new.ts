import { type Request, type Response, Router } from 'express';
import { failed, type Result } from '../../lib/result/index.ts';
import { renderNew } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { MOST_UPLOAD_OCTETS } from '../keep-forecasts.ts';
import { passageOf, type PlacedProblem, placedIn } from '../new-passage/index.ts';
import { newPage } from '../presenters/new-page.ts';
import type { NewShown } from '../presenters/new-shown.ts';
import type { StoredForecast } from '../stores/index.ts';
import { readSmall, readUpload, type SentFile } from '../uploads/index.ts';
import type { Form } from './form.ts';
import { savedPath } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** A passage of one's own, from one form. */
export function newRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/new', (request, response) =>
      sendPage(deps, { request, response }, { token: deps.formToken(), entered: null, problems: [], used: [] }),
    )
    .post('/new', (request, response) => make(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

async function sendPage(
  deps: Deps,
  { request, response }: Asked,
  shown: Omit<NewShown, 'stored' | 'trackText'> & { readonly trackText?: string | null },
): Promise<void> {
  const stored = deps.forecastFiles();
  const problems = stored.ok ? shown.problems : [...shown.problems, ...placedIn(stored.problems)];
  const page = newPage({ trackText: null, ...shown, problems, stored: stored.ok ? stored.value : [] });
  sendHtml(response, renderNew(page, await shownFor(deps, request)));
}

/** Takes the files and makes the passage, or shows the form again with everything that is wrong and all that was entered. */
async function make(deps: Deps, asked: Asked): Promise<void> {
  const { form, gpx, forecasts, problems } = await sentIn(deps, asked.request);
  const stored = deps.forecastFiles();
  const there = stored.ok ? stored.value.map(({ hash }) => hash) : [];
  const used = [...new Set([...form.all('use'), ...forecasts.map(({ hash }) => hash)])].filter((hash) =>
    there.includes(hash),
  );
  const hours = await deps.hoursOfForecasts(used);
  const made = passageOf({ form, gpx, forecasts: used, hours, nowEpochMs: deps.nowEpochMs() });
  const found = [...problems, ...made.problems];
  const token = form.text('token') || deps.formToken();
  const saved: Result<PassageDocument> | null =
    found.length > 0 ? null : await deps.makePassage({ file: made.file, formToken: token });
  if (saved?.ok === true) return asked.response.redirect(303, savedPath('/', saved.value));
  asked.response.status(422);
  const { trackText } = made;
  const all = [...found, ...(saved === null ? [] : placedIn(saved.problems))];
  return sendPage(deps, asked, { token, entered: form, trackText, problems: all, used });
}

interface Sent {
  readonly form: Form;
  readonly gpx: { readonly fileName: string; readonly text: string } | null;
  readonly forecasts: readonly StoredForecast[];
  readonly problems: readonly PlacedProblem[];
}

const MOST_GPX_OCTETS = 20_000_000;

/** The texts of the form, and its files: forecasts go to the store as they come. */
async function sentIn(deps: Deps, request: Request): Promise<Sent> {
  const forecasts: StoredForecast[] = [];
  const problems: PlacedProblem[] = [];
  let gpx: Sent['gpx'] = null;
  const keep = <T>(input: string, result: Result<T>): T | null => {
    if (result.ok) return result.value;
    problems.push(...result.problems.map((problem) => ({ input, problem })));
    return null;
  };
  const takeFile = async ({ field, fileName, content }: SentFile): Promise<void> => {
    if (field === 'forecast') {
      const taken = keep('forecast', await deps.takeForecast({ fileName, content }));
      if (taken !== null) forecasts.push(taken);
    } else if (field === 'gpx') {
      const text = await readSmall(content, MOST_GPX_OCTETS);
      if (text === null) keep('gpx', failed(gpxTooLarge(fileName)));
      else gpx = { fileName, text };
    }
  };
  const form = await readUpload(request, { takeFile, mostFileOctets: MOST_UPLOAD_OCTETS });
  return { form, gpx, forecasts, problems };
}

const gpxTooLarge = (fileName: string) => ({
  code: 'gpx.too-large',
  where: fileName,
  what: `The file is longer than ${MOST_GPX_OCTETS / 1_000_000} MB.`,
  expected: 'the route of one passage',
  remedy: 'Choose the file of the route, or thin the track.',
});
