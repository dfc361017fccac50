/** The page of sails over HTTP, with plain forms, as a browser without script sends them. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JobFile } from '../../lib/jobs/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const html = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
async function file(): Promise<PassageFile> {
  const document = await server.kept.documents.passageDocument();
  if (!document.ok) throw new Error(JSON.stringify(document.problems));
  return document.value.file;
}
const sailIn = async (index: number) => (await file()).sails?.[index];
const jobIn = async (id: string): Promise<JobFile | undefined> => (await file()).jobs?.find((job) => job.id === id);
async function versionNow(): Promise<string> {
  const info = await server.kept.documents.documentInfo();
  return info.ok ? `${info.value.number}.${info.value.version}` : '';
}
async function post(path: string, fields: Readonly<Record<string, string>>): Promise<Response> {
  const body = new URLSearchParams({ version: await versionNow(), ...fields });
  return fetch(server.url + path, { method: 'POST', body, redirect: 'manual' });
}
const decoded = (text: string): string =>
  text.replaceAll('&quot;', '"').replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&');
const textOf = (page: string): string => decoded(page.replaceAll(/<[^>]*>/g, ' ')).replaceAll(/\s+/g, ' ');

/** Every field of the form on a page, as a browser would send it untouched. */
async function shownForm(path: string): Promise<Record<string, string>> {
  const page = await html(path);
  const form = page.slice(page.indexOf(`action="${path}"`));
  const inputs = [...form.matchAll(/<input [^>]*>/g)].flatMap(([tag]) => {
    const name = /name="([^"]*)"/.exec(tag)?.[1];
    return name === undefined ? [] : [[name, decoded(/value="([^"]*)"/.exec(tag)?.[1] ?? '')] as const];
  });
  const selects = [...form.matchAll(/<select [^>]*name="([^"]*)"[^>]*>(.*?)<\/select>/gs)].map(
    ([, name = '', options = '']) =>
      [name, /<option(?=[^>]* selected)[^>]*value="([^"]*)"/.exec(options)?.[1] ?? ''] as const,
  );
  return Object.fromEntries([...inputs, ...selects]);
}

const NEW_SAIL = { kind: 'mainsail', cut: 'cross-cut', panelCount: '16', luffM: '18,2', footM: '5.9' };
const MORE = { 'battens.count': '5', 'reefs.count': '3', cloth: 'woven-heavy' };
const TEAR = {
  id: 'leech',
  'counted.panel': '6',
  'counted.from': 'clew',
  lengthM: '0.9',
  direction: 'across-the-load',
};

/** Index of a sail just described. */
async function describedSail(more: Readonly<Record<string, string>> = MORE): Promise<number> {
  const index = (await file()).sails?.length ?? 0;
  expect((await post('/damage/new', { ...NEW_SAIL, ...more })).status).toBe(303);
  return index;
}

describe('the list', () => {
  it('the sail of the demo: first what to do before mending, then the rest', async () => {
    const page = textOf(await html('/damage'));
    expect(page).toMatch(/1 sail, 1 tear, 1 batten not whole\./);
    const [answer, place] = ['with reef', 'It lies in panel 6 of 16'].map((words) => page.indexOf(words));
    expect(answer).toBeGreaterThan(0);
    expect(place).toBeGreaterThan(answer ?? 0);
    expect(page).toMatch(/Not given, so taken .*\(our default\)/);
  });

  it('no sail: what to do, and a way to it', async () => {
    await post('/damage/0', { do: 'remove-all' });
    const page = await html('/damage');
    expect(textOf(page)).toContain('No sail is described yet.');
    expect(page).toContain('href="/damage/new"');
  });
});

describe('a sail', () => {
  it('described by counting: drawn, with its panels from both ends', async () => {
    const index = await describedSail();
    expect((await sailIn(index))?.sail).toMatchObject({ luffM: 18.2, panelCount: 16, battens: { count: 5 } });
    const page = await html('/damage');
    expect(page).toContain('<a href="/damage" aria-current="page">Damage</a>');
    expect(page).toMatch(/<svg[^>]*class="sail-drawing"[\s\S]*16/);
  });

  it('a batten missing: said, with what the sail stands', async () => {
    const index = await describedSail();
    await post(`/damage/${index}`, { ...NEW_SAIL, ...MORE, 'batten.1': 'missing' });
    expect((await sailIn(index))?.sail.battens?.states).toEqual([{ batten: 1, state: 'missing' }]);
    expect(await html('/damage')).toMatch(/Batten 1 of 5 from the head = 5th from the foot is missing/);
  });

  it('battens counted down below one that is broken: refused at that batten, which still stands there', async () => {
    const answer = await post('/damage/0', { ...(await shownForm('/damage/0')), 'battens.count': '2' });
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(page).toMatch(/id="f-batten-3"[^>]*aria-invalid="true"|aria-invalid="true"[^>]*id="f-batten-3"/);
    expect(textOf(page)).toMatch(/There is no batten 3: there are 2\./);
  });

  it('every form sent back as it was shown: nothing is changed, not even a version', async () => {
    for (const path of ['/damage/0', '/damage/0/tears/0']) await post(path, await shownForm(path));
    expect(await versionNow()).toBe('1.1');
  });

  it('with a count that is none: refused at its field, and what was entered is still there', async () => {
    const answer = await post('/damage/new', { ...NEW_SAIL, panelCount: '-3', luffM: 'long' });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toMatch(/value="-3"/);
    expect(page).toMatch(/value="long"/);
    expect(page.match(/class="field-problem"/g)).toHaveLength(2);
    expect(page).toContain('<a href="#f-panelCount">');
  });

  it('a sail on which its tear does not lie any more: refused, and the tear named', async () => {
    const answer = await post('/damage/0', { ...(await shownForm('/damage/0')), panelCount: '4' });
    expect([answer.status, textOf(await answer.text())]).toEqual([
      422,
      expect.stringMatching(/sails\[0\]\.damage\[0\]\.counted\.panel/),
    ]);
  });

  it('drawn first: the form again with the battens that can be said now, nothing saved', async () => {
    const before = await file();
    const answer = await post('/damage/new', { ...NEW_SAIL, ...MORE, do: 'draw' });
    const page = await answer.text();
    expect([answer.status, page.match(/name="batten\.\d"/g)?.length]).toEqual([200, 5]);
    expect(page).toMatch(/Drawn as entered\. Nothing is saved yet\.[\s\S]*id="drawing"[\s\S]*class="sail-drawing"/);
    expect(await file()).toEqual(before);
  });

  it('taken out: at once where nothing is marked on it, else when asked twice', async () => {
    const index = await describedSail();
    await post(`/damage/${index}`, { do: 'remove' });
    expect((await file()).sails).toHaveLength(index);
    const asked = await post('/damage/0', { ...(await shownForm('/damage/0')), do: 'remove' });
    expect([asked.status, textOf(await asked.text())]).toEqual([
      422,
      expect.stringMatching(/A tear is marked on it, and would be taken out with it\. Take all of it out/),
    ]);
    await post('/damage/0', { do: 'remove-all' });
    expect((await file()).sails).toBeUndefined();
  });
});

describe('a tear', () => {
  it('marked by counting: its findings, and the first answer', async () => {
    const index = await describedSail();
    const answer = await post(`/damage/${index}/tears/new`, { ...TEAR, distanceFromLeechM: '0.5' });
    expect(answer.headers.get('Location')).toBe(`/damage?saved=1.3#sail-${index}`);
    const page = await html('/damage');
    expect(page).toMatch(/panel 6 of 16 from the clew = 11th from the head/);
    expect(page).toMatch(/across the load/);
  });

  it('by battens, and by an angle: kept as they were entered', async () => {
    const index = await describedSail();
    const fields = { betweenBattens: '3-4', lengthM: '0,4', angleFromFootDeg: '-30', chordShare: '0.5' };
    expect((await post(`/damage/${index}/tears/new`, fields)).status).toBe(303);
    expect((await sailIn(index))?.damage).toEqual([
      { betweenBattens: [3, 4], lengthM: 0.4, angleFromFootDeg: -30, chordShare: 0.5 },
    ]);
  });

  it.each([
    [{ ...TEAR, 'counted.panel': '19' }, 'f-counted-panel', /16/],
    [{ lengthM: '0.5' }, 'f-counted-panel', /Nothing says where the tear is/],
    [{ ...TEAR, lengthM: '' }, 'f-lengthM', /It is missing/],
    [{ ...TEAR, lengthM: '12' }, 'f-lengthM', /does not fit on the sail there\. *Expected: at most/],
    [{ ...TEAR, betweenBattens: '2-5' }, 'f-betweenBattens', /neighbours/],
    [{ ...TEAR, belowReef: '7' }, 'f-belowReef', /There is no reef 7/],
  ])('%o: refused at its field, nothing saved', async (fields, inputId, said) => {
    const index = await describedSail();
    const before = await file();
    const answer = await post(`/damage/${index}/tears/new`, fields);
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(page).toContain(`href="#${inputId}"`);
    expect(textOf(page)).toMatch(said);
    expect(await file()).toEqual(before);
  });

  it('drawn first, where it cannot be: why, at its field', async () => {
    const answer = await post('/damage/0/tears/new', { ...TEAR, 'counted.panel': '19', do: 'draw' });
    const page = await answer.text();
    expect([answer.status, page.includes('It cannot be drawn yet.'), page.includes('field-problem')]).toEqual([
      422,
      true,
      true,
    ]);
    // One stays at the top, where it is said what is wrong.
    expect(page).not.toContain('id="drawing"');
  });

  it('of a sail there is not: no such page', async () => {
    const count = (await file()).sails?.length ?? 0;
    for (const path of [`/damage/${count}/tears/0`, `/damage/${count}`, '/damage/x', '/damage/0/tears/9'])
      expect((await fetch(server.url + path)).status, path).toBe(404);
  });
});

describe('changed in another tab', () => {
  it('nothing is overwritten, what was touched stands beside what is kept now, and saved again it is kept', async () => {
    const ours = await shownForm('/damage/0/tears/0');
    await post('/damage/0/tears/0', { ...(await shownForm('/damage/0/tears/0')), lengthM: '1.1', widthM: '0.05' });
    const answer = await post('/damage/0/tears/0', { ...ours, lengthM: '0.7' });
    const page = await answer.text();
    expect([answer.status, (await sailIn(0))?.damage?.[0]?.lengthM]).toEqual([409, 1.1]);
    expect(textOf(page)).toContain('Kept now: 1.1 m');
    expect(page).toMatch(/name="lengthM"[^>]*value="0\.7"/);
    expect(page).toMatch(/name="widthM"[^>]*value="0\.05"/);
    const again = await post('/damage/0/tears/0', { ...(await shownForm('/damage/0/tears/0')), lengthM: '0.7' });
    expect(again.status).toBe(303);
    expect((await sailIn(0))?.damage?.[0]).toMatchObject({ lengthM: 0.7, widthM: 0.05 });
  });

  it('a sail before it was taken out: the form is that of the same sail, at its new place', async () => {
    const index = await describedSail({ ...MORE, name: 'Spare main' });
    const ours = await shownForm(`/damage/${index}`);
    await post('/damage/0', { do: 'remove-all' });
    const answer = await post(`/damage/${index}`, { ...ours, panelCount: '14' });
    const page = await answer.text();
    expect([answer.status, page.includes('action="/damage/0"')]).toEqual([409, true]);
    expect(page).toMatch(/name="name"[^>]*value="Spare main"/);
    expect(page).toMatch(/name="panelCount"[^>]*value="14"/);
  });

  it('the tear itself was taken out: it can be added anew; its sail too: what was entered is told', async () => {
    const ours = await shownForm('/damage/0/tears/0');
    await post('/damage/0/tears/0', { do: 'remove' });
    const answer = await post('/damage/0/tears/0', { ...ours, lengthM: '0.8' });
    const page = await answer.text();
    expect([answer.status, page.includes('action="/damage/0/tears/new"')]).toEqual([409, true]);
    expect(textOf(page)).toContain('It was taken out of the passage meanwhile.');
    await post('/damage/0', { do: 'remove' });
    const late = await post('/damage/0/tears/0', { ...ours, lengthM: '0.8' });
    expect([late.status, textOf(await late.text())]).toEqual([
      409,
      expect.stringMatching(/You had entered: .*Length: 0\.8/),
    ]);
  });
});

describe('jobs of a tear', () => {
  it('the sewing and the patch, after the drop and before the hoist, in one save', async () => {
    const index = await describedSail();
    await post(`/damage/${index}/tears/new`, { ...TEAR, distanceFromLeechM: '0.5' });
    const answer = await post(`/damage/${index}/tears/0/jobs`, { where: 'deck' });
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/jobs/sew-leech?saved=1.4']);
    expect(await jobIn('sew-leech')).toMatchObject({ from: 'stitch-tear', lengthM: 0.9, after: ['drop'] });
    expect((await jobIn('sew-leech-patch'))?.after).toEqual(['sew-leech']);
    expect((await jobIn('hoist'))?.after).toEqual(expect.arrayContaining(['sew-leech', 'sew-leech-patch']));
  });

  it('made twice, below: under ids that are free', async () => {
    await post('/damage/0/tears/0/jobs', { where: 'deck' });
    await post('/damage/0/tears/0/jobs', { where: 'below' });
    expect(await jobIn('sew-leech-2')).toMatchObject({ from: 'stitch-below' });
    expect(await jobIn('sew-leech-2-patch')).toMatchObject({ after: ['sew-leech-2'] });
  });

  it('of a headsail: the drop of the mainsail has nothing to do with it', async () => {
    const index = await describedSail({ kind: 'headsail' });
    await post(`/damage/${index}/tears/new`, { ...TEAR, id: 'clew' });
    const before = (await jobIn('hoist'))?.after;
    await post(`/damage/${index}/tears/0/jobs`, { where: 'deck' });
    expect(await jobIn('sew-clew')).toMatchObject({ after: [], sailStates: [] });
    expect((await jobIn('hoist'))?.after).toEqual(before);
  });

  it('the drop is done: still after it, and the hoist waits; drop and hoist done: after nothing', async () => {
    await post('/jobs/drop/edit', { done: 'true' });
    await post('/damage/0/tears/0/jobs', { where: 'deck' });
    expect((await jobIn('sew-leech'))?.after).toEqual(['drop']);
    for (const id of [
      'halyard',
      'box',
      'bench',
      'swap',
      'oil',
      'bolt',
      'stitch',
      'sew-leech',
      'sew-leech-patch',
      'hoist',
    ])
      await post(`/jobs/${id}/edit`, { done: 'true' });
    await post('/damage/0/tears/0/jobs', { where: 'deck' });
    expect((await jobIn('sew-leech-2'))?.after).toEqual([]);
  });
});
