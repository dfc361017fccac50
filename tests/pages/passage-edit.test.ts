/** Start, settings and watchkeeper over HTTP, with plain forms. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readPassageFile } from '../../lib/passage/index.ts';
import { type EditForms, editForms } from './passage-edit-forms.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { demoText } from './test-documents.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
let forms: EditForms;
beforeEach(async () => {
  server = await testServer();
  forms = editForms(server);
});
afterEach(() => server.close());

const FORMS = ['/passage/start', '/passage/settings', '/passage/watchkeeper'];
const wrongInputs = (page: string): readonly string[] =>
  [...page.matchAll(/<(?:input|select)[^>]*aria-invalid="true"[^>]*>/g)].map(
    ([tag]) => /name="([^"]*)"/.exec(tag)?.[1] ?? '',
  );

describe('every form', () => {
  it.each(['/', '/document'])('is led to from %s', async (path) => {
    const page = await forms.html(path);
    for (const to of [...FORMS, '/passage/track', '/passage/boat']) expect(page).toContain(`href="${to}"`);
  });

  it('sent back as it was shown: nothing is changed, not even a version', async () => {
    for (const path of FORMS) expect((await forms.send(path, {})).status).toBe(303);
    expect(await forms.version()).toBe('1.1');
  });

  it.each([
    ['/passage/start', { position: 'Nowhere', timeUtc: 'soon' }, ['timeUtc', 'position']],
    ['/passage/start', { sailState: 'kite' }, ['sailState']],
    [
      '/passage/settings',
      { wantedProbability: '1.5', slotMin: '7', seed: 'x' },
      ['wantedProbability', 'slotMin', 'seed'],
    ],
    [
      '/passage/watchkeeper',
      { wantedSleepHPer24H: '20', usualSleepLocal: '25:00' },
      ['wantedSleepHPer24H', 'usualSleepLocal'],
    ],
    [
      '/passage/watchkeeper',
      { 'gates.hardMostLapses': '-1', 'paceByWork.sewing.ratio': '9' },
      ['paceByWork.sewing.ratio', 'gates.hardMostLapses'],
    ],
  ])(
    '%s with %o: refused at these inputs, what was entered still there, nothing saved',
    async (path, fields, wrong) => {
      const answer = await forms.send(path, fields);
      const page = await answer.text();
      expect([answer.status, wrongInputs(page)]).toEqual([422, wrong]);
      for (const text of Object.values(fields)) expect(page).toContain(`value="${text}"`);
      expect(await forms.version()).toBe('1.1');
    },
  );
});

describe('the start', () => {
  it('moved: time by the ship’s clock, position in degrees and minutes', async () => {
    expect((await forms.shown('/passage/start'))['timeUtc']).toBe('2026-05-28T06:00');
    const fields = { timeUtc: '2026-05-28T09:30', position: "36°30.0'S 177°45.0'E", sailState: 'headsail-only' };
    expect((await forms.send('/passage/start', fields)).headers.get('Location')).toBe('/?saved=1.2');
    expect((await forms.file()).start).toEqual({
      timeUtc: '2026-05-27T21:30Z',
      lat: -36.5,
      lon: 177.75,
      sailState: 'headsail-only',
    });
  });

  it('the sail state left to its default: said, and out of the file', async () => {
    await forms.send('/passage/start', { sailState: '' });
    expect((await forms.file()).start.sailState).toBeUndefined();
    expect(textOf(await forms.html('/passage/start'))).toContain('Now the default: Full main and headsail.');
  });
});

describe('the settings', () => {
  it('own figures and defaults: each says which it is', async () => {
    const page = textOf(await forms.html('/passage/settings'));
    expect(page).toMatch(/Wanted probability Yours; default: 0\.8\./);
    expect(page).toMatch(/Gusts where the forecast has none × the mean wind Now the default: 1\.3 × the mean wind\./);
    expect(page).toMatch(/Now the default: open ocean\./);
    expect(page).toMatch(/Longest sleep without a look-out min Now the default: 180 min\./);
  });

  it('near a coast: the default of the longest sleep goes with it', async () => {
    await forms.send('/passage/settings', { traffic: 'coast' });
    expect(textOf(await forms.html('/passage/settings'))).toMatch(/Longest sleep .* Now the default: 20 min\./);
  });

  it('changed and left empty: written, and taken out so that the default holds', async () => {
    await forms.send('/passage/settings', {
      wantedProbability: '0,7',
      horizonH: '',
      gustRatio: '1.4',
      steadyingWindRule: 'false',
    });
    expect((await forms.file()).settings).toEqual({
      wantedProbability: 0.7,
      shipTimeOffsetMin: 720,
      gustRatio: 1.4,
      steadyingWindRule: false,
    });
    expect(textOf(await forms.html('/passage/settings'))).toContain('Now the default: to the end of the forecast.');
  });

  it('all left empty: no settings in the file', async () => {
    const empty = Object.fromEntries(Object.keys(await forms.shown('/passage/settings')).map((name) => [name, '']));
    await forms.post('/passage/settings', { ...empty, version: await forms.version() });
    expect((await forms.file()).settings).toBeUndefined();
  });

  it('saved by someone else meanwhile: told (409), merged, and saved with the second press', async () => {
    const mine = await forms.shown('/passage/settings');
    await forms.send('/passage/settings', { wantedProbability: '0.9', seed: '7' });
    const answer = await forms.post('/passage/settings', { ...mine, wantedProbability: '0.5', gustRatio: '1.5' });
    const page = await answer.text();
    expect(answer.status).toBe(409);
    expect(textOf(page)).toContain('Kept now: 0.9');
    expect((await forms.post('/passage/settings', fieldsOf(page.slice(page.indexOf('<main'))))).status).toBe(303);
    expect((await forms.file()).settings).toMatchObject({ wantedProbability: 0.5, gustRatio: 1.5, seed: 7 });
  });
});

describe('the watchkeeper', () => {
  const sleepsNow = async () => (await forms.file()).watchkeeper?.sleeps ?? [];

  it('a sleep added and one taken out: by the ship’s clock, the others as they were written', async () => {
    const before = await sleepsNow();
    const row = before.length;
    const answer = await forms.send('/passage/watchkeeper', {
      'sleeps.0.startUtc': '',
      'sleeps.0.endUtc': '',
      [`sleeps.${row}.startUtc`]: '2026-05-28T05:00',
      [`sleeps.${row}.endUtc`]: '2026-05-28T05:45',
    });
    expect(answer.status).toBe(303);
    expect(await sleepsNow()).toEqual([
      ...before.slice(1),
      { startUtc: '2026-05-27T17:00Z', endUtc: '2026-05-27T17:45Z' },
    ]);
  });

  it('one that ends before it begins, one half told, behind an empty row: each refused at its own row', async () => {
    const row = (await sleepsNow()).length;
    const backwards = await forms.send('/passage/watchkeeper', {
      'sleeps.0.startUtc': '',
      'sleeps.0.endUtc': '',
      [`sleeps.${row}.startUtc`]: '2026-05-28T05:15',
      [`sleeps.${row}.endUtc`]: '2026-05-28T02:00',
    });
    expect([backwards.status, wrongInputs(await backwards.text())]).toEqual([422, [`sleeps.${row}.startUtc`]]);
    const half = await forms.send('/passage/watchkeeper', { [`sleeps.${row + 1}.startUtc`]: '2026-05-28T02:00' });
    expect([half.status, wrongInputs(await half.text())]).toEqual([422, [`sleeps.${row + 1}.endUtc`]]);
  });

  it('no sleeps left: the usual nights are taken, and that is said', async () => {
    const shown = await forms.shown('/passage/watchkeeper');
    const none = Object.keys(shown).filter((name) => name.startsWith('sleeps.'));
    await forms.send('/passage/watchkeeper', Object.fromEntries(none.map((name) => [name, ''])));
    expect((await forms.file()).watchkeeper?.sleeps).toBeUndefined();
    expect(textOf(await forms.html('/passage/watchkeeper'))).toContain(
      'the usual nights before the departure are taken',
    );
  });

  it('pace, gates and factors: written beside what is left to the default', async () => {
    const before = (await forms.file()).watchkeeper;
    await forms.send('/passage/watchkeeper', {
      paceRatio: '1,2',
      'paceByWork.sewing.ratio': '1.4',
      'gates.hardLongestAwakeH': '14',
      'timeFactors.wetColderC': '6',
      gloves: 'thin',
    });
    expect((await forms.file()).watchkeeper).toEqual({
      ...before,
      paceRatio: 1.2,
      paceByWork: { sewing: { ratio: 1.4, sessionCount: 0 } },
      gates: { hardLongestAwakeH: 14 },
      timeFactors: { wetColderC: 6 },
      gloves: 'thin',
    });
    expect(textOf(await forms.html('/passage/watchkeeper'))).toMatch(
      /Own pace × the time Yours; default: 1 × the time\./,
    );
  });

  it('sleeps changed here and by someone else: none of either is lost', async () => {
    const mine = await forms.shown('/passage/watchkeeper');
    const row = (await sleepsNow()).length;
    await forms.send('/passage/watchkeeper', { 'sleeps.0.startUtc': '', 'sleeps.0.endUtc': '' });
    const answer = await forms.post('/passage/watchkeeper', {
      ...mine,
      [`sleeps.${row}.startUtc`]: '2026-05-28T02:00',
      [`sleeps.${row}.endUtc`]: '2026-05-28T05:15',
    });
    const page = await answer.text();
    expect(answer.status).toBe(409);
    for (const text of [mine['sleeps.0.startUtc'], mine['sleeps.1.endUtc'], '2026-05-28T05:15'])
      expect(page).toContain(`value="${text}"`);
  });
});

it('a passage that gives no ship’s time: shown and written by the same hour of its longitude', async () => {
  const file = readPassageFile(demoText, 'the demo');
  if (!file.ok) throw new Error('the demo cannot be read');
  const { start } = file.value;
  await server.close();
  server = await testServer(undefined, JSON.stringify({ ...file.value, start: { ...start, lon: 171 }, settings: {} }));
  forms = editForms(server);
  // 171° E: 11.4 hours of the sun, so UTC+11.
  expect((await forms.shown('/passage/start'))['timeUtc']).toBe('2026-05-28T05:00');
  await forms.send('/passage/start', { timeUtc: '2026-05-28T06:00' });
  expect((await forms.file()).start.timeUtc).toBe('2026-05-27T19:00Z');
});
