import { type Request, type Response, Router } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { renderDamage, type Shown } from '../../views/render.tsx';
import {
  type Place,
  SAIL_FIELDS,
  TEAR_FIELDS,
  type TearPlace,
  withoutSail,
  withoutTear,
  withSail,
  withTear,
  withTearJobs,
} from '../damage-forms/index.ts';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { carriedTexts, foundAgain } from '../entry-forms/index.ts';
import { type Drawn, sailPage, tearPage } from '../presenters/damage-entry-page.ts';
import { damagePage } from '../presenters/damage-page.ts';
import type { EntryPage } from '../presenters/entry-page.ts';
import { jobPageHref } from '../presenters/job-page.ts';
import { indexOf, type RefusedEntry, savingEntry, shownDocument, type Texts, textsOfForm } from './entry.ts';
import { formBody, formOf } from './form.ts';
import { PageError } from './page-error.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The sails of the passage: drawings and findings, a form for each sail and tear, and the jobs a tear asks for. */
export function damageRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/damage', async (request, response) => {
      sendHtml(response, await listHtml(deps, await shownFor(deps, request)));
    })
    .get('/damage/:sail', async (request, response) => {
      const document = await shownDocument(deps);
      const place = placeIn(request, 'sail', document.file.sails);
      await sendForm(deps, { request, response }, sailPage(place, untouched(deps, document)));
    })
    .post('/damage/:sail', formBody, (request, response) => postSail(deps, { request, response }))
    .get('/damage/:sail/tears/:tear', async (request, response) => {
      const document = await shownDocument(deps);
      const sail = placeIn(request, 'sail', document.file.sails);
      if (sail === 'new') throw noSuch();
      const tear = placeIn(request, 'tear', document.file.sails?.[sail]?.damage);
      await sendForm(deps, { request, response }, tearPage({ sail, tear }, untouched(deps, document)));
    })
    .post('/damage/:sail/tears/:tear', formBody, (request, response) => postTear(deps, { request, response }))
    .post('/damage/:sail/tears/:tear/jobs', formBody, (request, response) => addJobs(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

const noSuch = (): PageError =>
  new PageError(404, 'Not there', 'This sail or tear is not in the passage. Look at the list of sails.');

/** The place in the address, as it was when the form was made. */
function placeAsked(request: Request, name: string): Place {
  return request.params[name] === 'new' ? 'new' : indexOf(request, name, 9999);
}

/** The place in the address, where there is one now. */
function placeIn(request: Request, name: string, list: readonly unknown[] = []): Place {
  const place = placeAsked(request, name);
  if (place !== 'new' && place >= list.length) throw noSuch();
  return place;
}

const untouched = (deps: Deps, document: PassageDocument) => ({
  document,
  nowEpochMs: deps.nowEpochMs(),
  refused: null,
});

const listHtml = async (deps: Deps, shown: Shown): Promise<string> =>
  renderDamage(damagePage(await shownDocument(deps), deps.nowEpochMs()), shown);

async function sendForm(deps: Deps, { request, response }: Asked, page: EntryPage): Promise<void> {
  sendHtml(response, renderDamage(page, await shownFor(deps, request)));
}

async function postSail(deps: Deps, asked: Asked): Promise<void> {
  const place = placeAsked(asked.request, 'sail');
  const save = (file: PassageFile, texts: Texts): Result<PassageFile> => withSail(file, place, texts);
  const pageOf = (refused: RefusedEntry, document: PassageDocument, drawn?: Drawn): EntryPage => {
    const { place: now, note } = placeNow(place, {
      entries: (document.file.sails ?? []).map(({ sail }) => sail),
      fields: SAIL_FIELDS,
      knownBy: ['name', 'kind'],
      was: refused.was,
    });
    const entered = { document, nowEpochMs: deps.nowEpochMs(), refused };
    return sailPage(now, entered, drawn ?? { file: null, note });
  };
  if (formOf(asked.request).text('do') === 'draw') return draw(deps, asked, save, pageOf);
  const count = (await shownDocument(deps)).file.sails?.length ?? 0;
  await savingEntry(deps, asked, {
    to: `/damage#sail-${place === 'new' ? count : place}`,
    save,
    remove: (file, isSure) => (place === 'new' ? ok(file) : withoutSail(file, place, isSure)),
    page: (refused, document, shown) => renderDamage(pageOf(refused, document), shown),
  });
}

async function postTear(deps: Deps, asked: Asked): Promise<void> {
  const [sail, tear] = [placeAsked(asked.request, 'sail'), placeAsked(asked.request, 'tear')];
  if (sail === 'new') throw noSuch();
  const save = (file: PassageFile, texts: Texts): Result<PassageFile> => withTear(file, { sail, tear }, texts);
  const pageOf = (refused: RefusedEntry, document: PassageDocument, drawn?: Drawn): EntryPage => {
    const { at, note } = tearNow({ sail, tear }, refused, document);
    return tearPage(at, { document, nowEpochMs: deps.nowEpochMs(), refused }, drawn ?? { file: null, note });
  };
  if (formOf(asked.request).text('do') === 'draw') return draw(deps, asked, save, pageOf);
  await savingEntry(deps, asked, {
    to: `/damage#sail-${sail}`,
    save,
    remove: (file) => (tear === 'new' ? ok(file) : withoutTear(file, { sail, tear })),
    page: (refused, document, shown) => renderDamage(pageOf(refused, document), shown),
  });
}

const TAKEN_OUT = 'It was taken out of the passage meanwhile. Saved again, it is added anew.';

interface Sought {
  readonly entries: readonly unknown[];
  readonly fields: typeof SAIL_FIELDS;
  readonly knownBy: readonly string[];
  /** What the form showed, where somebody has saved meanwhile. */
  readonly was: Texts | null;
}

/** Where the entry of a form stands now. */
function placeNow(place: Place, { was, entries, fields, knownBy }: Sought): { place: Place; note: string } {
  if (was === null || place === 'new') return { place, note: '' };
  const found = foundAgain(entries, { fields, was, knownBy, index: place });
  return found === null ? { place: 'new', note: TAKEN_OUT } : { place: found, note: '' };
}

function tearNow(
  { sail, tear }: TearPlace,
  { was, texts }: RefusedEntry,
  { file }: PassageDocument,
): { at: TearPlace; note: string } {
  if (was === null) return { at: { sail, tear }, note: '' };
  const entries = (file.sails ?? []).map((one) => one.sail);
  const sailWas = carriedTexts(texts.get('sail') ?? '');
  const on =
    sailWas === null
      ? null
      : foundAgain(entries, { fields: SAIL_FIELDS, was: sailWas, knownBy: ['name', 'kind'], index: sail });
  if (on === null) throw sailGone(texts);
  const { place, note } = placeNow(tear, {
    entries: file.sails?.[on]?.damage ?? [],
    fields: TEAR_FIELDS,
    knownBy: ['id'],
    was,
  });
  return { at: { sail: on, tear: place }, note };
}

/** Nothing to mark a tear on; what was entered is told, so that it is not lost. */
function sailGone(texts: Texts): PageError {
  const entered = TEAR_FIELDS.flatMap(({ name, label }) => {
    const text = texts.get(name) ?? '';
    return text === '' ? [] : [`${label}: ${text}`];
  });
  return new PageError(409, 'Not saved', `The sail was taken out meanwhile. You had entered: ${entered.join('; ')}.`);
}

/** The form again with what is entered drawn, or with what stands against it. Nothing is saved. */
async function draw(
  deps: Deps,
  { request, response }: Asked,
  save: (file: PassageFile, texts: Texts) => Result<PassageFile>,
  pageOf: (refused: RefusedEntry, document: PassageDocument, drawn: Drawn) => EntryPage,
): Promise<void> {
  const document = await shownDocument(deps);
  const form = formOf(request);
  const texts = textsOfForm(form);
  const drawn = save(document.file, texts);
  const refused = { texts, problems: drawn.ok ? [] : drawn.problems, version: form.text('version'), was: null };
  const page = pageOf(refused, document, {
    file: drawn.ok ? drawn.value : null,
    note: drawn.ok ? 'Drawn as entered. Nothing is saved yet.' : 'It cannot be drawn yet. Nothing is saved.',
  });
  response.status(drawn.ok ? 200 : 422);
  await sendForm(deps, { request, response }, page);
}

/** The sewing and the patch of a tear, added to the jobs; then to the page of the sewing. */
async function addJobs(deps: Deps, asked: Asked): Promise<void> {
  const { request } = asked;
  const document = await shownDocument(deps);
  const [sail, tear] = [placeAsked(request, 'sail'), placeAsked(request, 'tear')];
  if (sail === 'new' || tear === 'new') throw noSuch();
  const of = { sail, tear, isBelow: formOf(request).text('where') === 'below' };
  const jobs = withTearJobs(document.file, document.passage, of);
  await saving(deps, asked, {
    to: jobs.ok ? jobPageHref(jobs.value.jobId) : '/damage',
    change: (file) => {
      const now = withTearJobs(file, document.passage, of);
      return now.ok ? ok(now.value.file) : failed(...now.problems);
    },
    page: (_, shown) => listHtml(deps, shown),
  });
}
