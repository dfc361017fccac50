/** The pages of jobs over HTTP, with plain forms, as a browser without script sends them. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobFile } from '../../lib/jobs/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const get = (path: string): Promise<Response> => fetch(server.url + path, { redirect: 'manual' });
const html = async (path: string): Promise<string> => (await get(path)).text();
async function file(): Promise<PassageFile> {
  const document = await server.kept.documents.passageDocument();
  if (!document.ok) throw new Error(JSON.stringify(document.problems));
  return document.value.file;
}
const jobIn = async (id: string): Promise<JobFile | undefined> => (await file()).jobs?.find((job) => job.id === id);
const ids = async (): Promise<readonly string[]> => ((await file()).jobs ?? []).map(({ id }) => id);
async function versionNow(): Promise<string> {
  const info = await server.kept.documents.documentInfo();
  return info.ok ? `${info.value.number}.${info.value.version}` : '';
}
async function post(path: string, fields: Readonly<Record<string, string | readonly string[]>>): Promise<Response> {
  const body = new URLSearchParams();
  for (const [name, value] of Object.entries({ version: await versionNow(), ...fields }))
    for (const one of [value].flat()) body.append(name, one);
  return fetch(server.url + path, { method: 'POST', body, redirect: 'manual' });
}
const textOf = (page: string): string =>
  page
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
    .replaceAll(/\s+/g, ' ');

describe('the list', () => {
  it('shows every job of the passage, marked in the navigation', async () => {
    const page = await html('/jobs');
    const links = [...page.matchAll(/<th scope="row"[^>]*><a href="([^"]*)"/g)].map(([, href]) => href);
    expect(links).toEqual((await ids()).map((id) => `/jobs/${id}`));
    expect(page).toContain('<a href="/jobs" aria-current="page">Jobs</a>');
  });

  it('moved up: its place in the list, nothing else', async () => {
    const before = await ids();
    const answer = await post('/jobs/bench/move', { by: 'up' });
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/jobs?saved=1.2']);
    expect(await ids()).toEqual(['bench', 'oil', ...before.slice(2)]);
  });

  it('a library job added: at the end, under an id of its own, and its page opens', async () => {
    const answer = await post('/jobs', { kind: 'library', job: 'fuel-filter' });
    const again = await post('/jobs', { kind: 'library', job: 'fuel-filter' });
    expect([answer, again].map(({ headers }) => headers.get('Location'))).toEqual([
      '/jobs/fuel-filter?saved=1.2',
      '/jobs/fuel-filter-2?saved=1.3',
    ]);
    expect(await jobIn('fuel-filter-2')).toEqual({ id: 'fuel-filter-2', from: 'fuel-filter' });
    expect(server.pressed).toEqual(['renew', 'renew']);
  });

  it('a chain added: the ticked links and those that are always there, under ids that are free', async () => {
    const before = await ids();
    await post('/jobs', { kind: 'chain', chain: 'one-drop', link: ['stitch', 'box'] });
    const added = (await ids()).filter((id) => !before.includes(id));
    expect(added).toEqual(['2-drop', '2-stitch', '2-box', '2-hoist', '2-inspect']);
    expect((await jobIn('2-hoist'))?.after).toEqual(['2-drop', '2-stitch', '2-box']);
  });

  it('a proposal taken: its entry and its orders in one save', async () => {
    const page = await html('/jobs');
    const key = [...page.matchAll(/name="proposal" value="([^"]*)"/g)].map(([, value = '']) =>
      value.replaceAll('&gt;', '>'),
    );
    const track = key.find((one) => one.startsWith('while-down track-clean')) ?? '';
    expect((await post('/jobs', { kind: 'proposal', proposal: track })).status).toBe(303);
    expect(await jobIn('track-clean')).toEqual({ id: 'track-clean', from: 'track-clean', after: ['drop'] });
    expect((await jobIn('hoist'))?.after).toContain('track-clean');
    const late = await post('/jobs', { kind: 'proposal', proposal: track });
    expect([late.status, textOf(await late.text())]).toEqual([
      422,
      expect.stringContaining('This is not proposed any more'),
    ]);
  });

  it.each([
    [
      { kind: 'library', job: 'fule-filter' },
      422,
      /There is no library job "fule-filter"\..*Did you mean "fuel-filter"\?/,
    ],
    [{ kind: 'chain', chain: 'one-drip' }, 422, /There is no chain "one-drip"/],
    [{ kind: '' }, 400, /does not say what to add/],
  ])('%o: refused, and said why', async (fields, status, said) => {
    const before = await file();
    const answer = await post('/jobs', fields);
    expect(answer.status).toBe(status);
    expect(textOf(await answer.text())).toMatch(said);
    expect(await file()).toEqual(before);
  });
});

describe('one job', () => {
  it('there is none of this id: what there is', async () => {
    const answer = await get('/jobs/dorp');
    expect([answer.status, textOf(await answer.text())]).toEqual([
      404,
      expect.stringMatching(/no job “dorp”.*Did you mean “drop”\?/),
    ]);
  });

  it('one figure given back to the library: that one; all: every one, orders stay', async () => {
    const answer = await post('/jobs/stitch/library', { place: 'session.longestMin' });
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/jobs/stitch?saved=1.2']);
    expect((await jobIn('stitch'))?.session).toEqual({ restMin: 20 });
    await post('/jobs/stitch/library', { place: '*' });
    expect(await jobIn('stitch')).toEqual({ id: 'stitch', from: 'stitch-tear', priority: 9, after: ['drop'] });
  });

  it('copied: not begun, not locked, and its form opens', async () => {
    await post('/jobs/drop/edit', { startUtc: '2026-05-29T10:00', doneSteps: ['', 'settle'] });
    expect(await jobIn('drop')).toMatchObject({ startUtc: '2026-05-28T22:00Z', doneSteps: ['settle'] });
    const answer = await post('/jobs/drop/copy', {});
    expect(answer.headers.get('Location')).toMatch(/^\/jobs\/drop-2\/edit\?saved=/);
    expect(Object.keys((await jobIn('drop-2')) ?? {})).toEqual([
      'id',
      'from',
      'name',
      'priority',
      'handlings',
      'limits',
    ]);
  });

  it('taken out while others come after it: refused with their names; asked twice: out of their order too', async () => {
    const answer = await post('/jobs/bolt/remove', {});
    expect(answer.status).toBe(422);
    expect(textOf(await answer.text())).toMatch(
      /Hoist to the deep reef comes after it.*Take it out, and out of their order/,
    );
    expect(await ids()).toContain('bolt');
    await post('/jobs/bolt/remove', { others: 'too' });
    expect([await ids(), (await jobIn('hoist'))?.after]).toEqual([
      expect.not.arrayContaining(['bolt']),
      ['drop', 'halyard', 'box', 'swap', 'oil', 'stitch'],
    ]);
    expect((await post('/jobs/masthead/remove', {})).status).toBe(303);
  });
});

describe('the form', () => {
  it('saved: kept, everything not in the form too, and back to the job with what was saved', async () => {
    const before = await jobIn('stitch');
    const answer = await post('/jobs/stitch/edit', { priority: '3', lengthM: '2.5' });
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/jobs/stitch?saved=1.2']);
    expect(await jobIn('stitch')).toEqual({ ...before, priority: 3, lengthM: 2.5 });
    expect(textOf(await html('/jobs/stitch?saved=1.2'))).toContain('Saved The passage is at version 2.');
    expect(server.pressed).toEqual(['renew']);
  });

  it('refused: nothing kept, everything typed is in the page, and what is wrong stands at its input', async () => {
    const before = await file();
    const answer = await post('/jobs/stitch/edit', {
      name: 'Sew & mend',
      's.sew.work.likelyMin': 'long',
      lengthM: '-1',
    });
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(page).toContain('value="Sew &amp; mend"');
    expect(page).toContain('value="long"');
    expect(textOf(page)).toMatch(
      /Length of the seam\. -1 does not fit\. Expected: more than 0.*Minutes, likely\. "long" does not fit\. Expected: a number/,
    );
    expect(await file()).toEqual(before);
  });

  it('what only the whole passage can tell is told at its input too', async () => {
    const ring = await (await post('/jobs/drop/edit', { after: ['', 'hoist'] })).text();
    expect(textOf(ring)).toMatch(/Comes after\. These jobs wait for one another: drop after hoist after drop/);
    const order = await (await post('/jobs/drop/edit', { doneSteps: ['', 'lower'] })).text();
    expect(textOf(order)).toMatch(/Finished steps\. lower is not how the job begins/);
    const times = await (
      await post('/jobs/drop/edit', { notBeforeUtc: '2026-05-30T10:00', finishByUtc: '2026-05-29T10:00' })
    ).text();
    expect(textOf(times)).toMatch(/Finished by\. It is to be finished at/);
  });

  it('a button that moves steps: the form again with what was typed, nothing kept', async () => {
    const before = await file();
    const answer = await post('/jobs/drop/edit', { name: 'Typed', do: 'split:flake' });
    const page = await answer.text();
    expect(answer.status).toBe(200);
    expect([...page.matchAll(/name="step" value="([^"]*)"/g)].map(([, id]) => id)).toEqual([
      'settle',
      'prepare',
      'lower',
      'tame',
      'flake',
      'flake-2',
      'lash',
    ]);
    expect(page).toContain('value="Typed"');
    expect(page).toContain('Nothing is saved yet.');
    expect(await file()).toEqual(before);
  });

  it('another tab has saved: nothing is overwritten, both are shown, and saved again ours is kept', async () => {
    const base = JSON.stringify(await jobIn('stitch'));
    await post('/jobs/stitch/edit', { lengthM: '4', rows: '3' });
    const answer = await post('/jobs/stitch/edit', { version: '1.1', base, lengthM: '2', priority: '4' });
    const page = await answer.text();
    expect([answer.status, await jobIn('stitch')]).toEqual([
      409,
      expect.objectContaining({ lengthM: 4, rows: 3, priority: 9 }),
    ]);
    expect(textOf(page)).toContain('Kept now: 4 m');
    expect(page).toMatch(/id="f-rows"[^>]*value="3"/);
    const shown = { lengthM: '2', rows: '3', priority: '4', base: JSON.stringify(await jobIn('stitch')) };
    expect((await post('/jobs/stitch/edit', shown)).status).toBe(303);
    expect(await jobIn('stitch')).toMatchObject({ lengthM: 2, rows: 3, priority: 4 });
  });

  it('the job was taken out in another tab: what was entered can be added anew', async () => {
    const base = JSON.stringify(await jobIn('masthead'));
    await post('/jobs/masthead/remove', {});
    const answer = await post('/jobs/masthead/edit', { version: '1.1', base, name: 'The lamp' });
    const page = await answer.text();
    expect([answer.status, page.includes('action="/new-job"'), page.includes('value="The lamp"')]).toEqual([
      409,
      true,
      true,
    ]);
    expect((await post('/new-job', { base, name: 'The lamp' })).headers.get('Location')).toBe(
      '/jobs/masthead?saved=1.3',
    );
    expect(await jobIn('masthead')).toMatchObject({ from: 'aloft', name: 'The lamp', priority: 2 });
  });

  it('a new job: an empty form refused with all that is missing, a full one kept', async () => {
    expect((await get('/new-job')).status).toBe(200);
    const fields = { base: '', step: 'step-2', 'of.step-2': '', name: 'Wind the clock' };
    const empty = await post('/new-job', fields);
    expect([empty.status, textOf(await empty.text())]).toEqual([
      422,
      expect.stringMatching(
        /Name of the step\. It is missing.*Where\. It is missing.*Minutes, least\. It is missing.*Wind over the deck, ideal\. Nothing is entered/,
      ),
    ]);
    const answer = await post('/new-job', {
      ...fields,
      's.step-2.name': 'Wind it',
      's.step-2.place': 'below',
      's.step-2.work.leastMin': '1',
      's.step-2.work.likelyMin': '1,5',
      's.step-2.work.mostMin': '2',
      's.step-2.limits.deckWindKn.noGo': 'none',
      's.step-2.limits.seaHeightM.noGo': 'none',
    });
    expect(answer.headers.get('Location')).toBe('/jobs/wind-the-clock?saved=1.2');
    expect((await jobIn('wind-the-clock'))?.steps?.[0]?.work).toEqual({ leastMin: 1, likelyMin: 1.5, mostMin: 2 });
  });
});

describe('as text', () => {
  it('an entry with another id: what refers to it follows', async () => {
    const entry = JSON.stringify({
      ...(await jobIn('oil')),
      id: 'soak',
      makes: [{ item: 'peace', amount: 1, unit: 'pieces' }],
    });
    expect((await post('/jobs/oil/text', { entry })).headers.get('Location')).toBe('/jobs/soak?saved=1.2');
    expect([(await jobIn('soak'))?.makes?.length, (await jobIn('bolt'))?.after]).toEqual([1, ['drop', 'soak']]);
  });

  it.each([
    ['{"id":', /The text is not JSON/],
    ['{"id":"oil","from":"fastener-oil","stepz":[]}', /There is no key "stepz" here\..*Did you mean "steps"\?/],
    ['{"id":"oil","from":"fastener-oil","after":["hoist"]}', /These jobs wait for one another/],
  ])('%s: refused, and what was typed is still there', async (entry, said) => {
    const answer = await post('/jobs/oil/text', { entry });
    const page = await answer.text();
    expect([answer.status, textOf(page)]).toEqual([422, expect.stringMatching(said)]);
    expect(textOf(page)).toContain(entry);
  });
});
