/** The pages of the locker over HTTP, with plain forms, as a browser without script sends them. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PassageFile } from '../../lib/passage/index.ts';
import { demoText } from './test-documents.ts';
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
async function versionNow(): Promise<string> {
  const info = await server.kept.documents.documentInfo();
  return info.ok ? `${info.value.number}.${info.value.version}` : '';
}
async function post(path: string, fields: Readonly<Record<string, string>>): Promise<Response> {
  const body = new URLSearchParams({ version: await versionNow(), ...fields });
  return fetch(server.url + path, { method: 'POST', body, redirect: 'manual' });
}
const linesOf = async (item: string) => (await file()).locker?.filter((line) => line.item === item) ?? [];
/** Place of an item in the locker. */
const indexOf = async (item: string) => (await file()).locker?.findIndex((line) => line.item === item) ?? -1;
const decoded = (text: string): string =>
  text.replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&amp;', '&');
const textOf = (page: string): string => decoded(page.replaceAll(/<[^>]*>/g, ' ')).replaceAll(/\s+/g, ' ');
/** What a form shows, as a browser would send it. */
function fieldsOf(page: string): Record<string, string> {
  const inputs = [...page.matchAll(/<input[^>]*>/g)].map(([tag]) => tag);
  return Object.fromEntries(
    inputs.map((tag) => [/name="([^"]*)"/.exec(tag)?.[1] ?? '', decoded(/value="([^"]*)"/.exec(tag)?.[1] ?? '')]),
  );
}
/** Another passage, with a part of the demo in its place. */
async function serve(part: Readonly<Record<string, unknown>>): Promise<void> {
  await server.close();
  server = await testServer(undefined, JSON.stringify({ ...(JSON.parse(demoText) as object), ...part }));
}

const ROD = { item: 'glass rod', kind: 'bar', unit: 'pieces', onBoard: '2', lengthMm: '3000', diameterMm: '10' };
const PIECE = { id: 'long batten', lengthMm: '3500', diameterMm: '10', maxJoins: '1', overlapMm: '200' };

describe('what is on board', () => {
  it('every line of the locker, marked in the navigation, with what the jobs take of it', async () => {
    const page = await html('/locker');
    const links = [...page.matchAll(/<th scope="row"[^>]*><a href="(\/locker\/items\/[^"]*)"/g)].map(
      ([, href]) => href,
    );
    expect(new Set(links)).toEqual(new Set((await file()).locker?.map((_, index) => `/locker/items/${index}`)));
    expect(page).toContain('<a href="/locker" aria-current="page">Locker</a>');
    expect(textOf(page)).toMatch(/waxed twine 60 m 15 m 45 m 2 m: Make the new batten .* leaves 15\.4 m/);
  });

  it('too little and not there: job, amounts, what can be done, and a form that begins with what is known', async () => {
    const { locker = [] } = await file();
    await serve({
      locker: locker
        .filter(({ item }) => item !== 'awl')
        .map((line) => (line.item === 'needles' ? { ...line, onBoard: 3 } : line)),
    });
    const page = await html('/locker');
    expect(textOf(page)).toMatch(
      /Sew the torn leech.*needles: short by 3 pieces; 4 pieces needed, 3 pieces on board, 2 pieces reserve/,
    );
    expect(textOf(page)).toContain('Lower the reserve');
    expect(page).toContain(`<a class="fix" href="/locker/items/${await indexOf('needles')}">`);
    const [, add = ''] = /href="([^"]*)">Add awl to the locker/.exec(page) ?? [];
    expect(fieldsOf(await html(decoded(add)))).toMatchObject({ item: 'awl', unit: 'pieces' });
    expect(await html(decoded(add))).toMatch(/<option value="tool" selected/);
  });

  it('nothing counted: said, and nothing called ready', async () => {
    await serve({ locker: [] });
    const page = textOf(await html('/locker'));
    expect(page).toContain('Nothing is counted yet');
    expect(page).toContain('nobody has counted');
  });
});

describe('a line of the locker', () => {
  it('added, changed, taken out', async () => {
    const count = (await file()).locker?.length ?? 0;
    const added = await post('/locker/items/new', { item: 'hose clips', unit: 'pieces', onBoard: '6' });
    expect([added.status, added.headers.get('Location')]).toEqual([303, '/locker?saved=1.2']);
    expect(await linesOf('hose clips')).toEqual([{ item: 'hose clips', unit: 'pieces', onBoard: 6 }]);
    await post(`/locker/items/${count}`, { item: 'hose clips', unit: 'pieces', onBoard: '5,5', keep: '2' });
    expect(await linesOf('hose clips')).toEqual([{ item: 'hose clips', unit: 'pieces', onBoard: 5.5, keep: 2 }]);
    await post(`/locker/items/${count}`, { do: 'remove' });
    expect(await linesOf('hose clips')).toEqual([]);
  });

  it('ready from: chosen in ship’s time, twelve hours ahead here, written in UTC; sent again as shown it stays to the second', async () => {
    const at = `/locker/items/${await indexOf('epoxy')}`;
    await post(at, { ...fieldsOf(await html(at)), readyUtc: '2026-05-29T06:30' });
    expect(await linesOf('epoxy')).toMatchObject([{ readyUtc: '2026-05-28T18:30Z' }]);
    expect(textOf(await html('/locker'))).toMatch(/epoxy not to be used before Fri 29 May 06:30/);
    const { locker = [] } = await file();
    await serve({
      locker: locker.map((line) => (line.item === 'epoxy' ? { ...line, readyUtc: '2026-05-28T18:30:15Z' } : line)),
    });
    await post(at, { ...fieldsOf(await html(at)), place: 'bilge' });
    expect(await linesOf('epoxy')).toMatchObject([{ readyUtc: '2026-05-28T18:30:15Z', place: 'bilge' }]);
  });

  it('a negative amount, a bar without its length: refused at the input, nothing saved, nothing typed lost', async () => {
    const before = await file();
    const negative = await post('/locker/items/new', { item: 'hose clips', unit: 'pieces', onBoard: '-6' });
    expect(negative.status).toBe(422);
    expect(await negative.text()).toMatch(/value="-6"[\s\S]*class="field-problem"/);
    const { lengthMm: _, ...short } = ROD;
    const bar = await (await post('/locker/items/new', short)).text();
    expect(fieldsOf(bar)).toMatchObject({ item: 'glass rod', diameterMm: '10' });
    expect(textOf(bar)).toMatch(/Length of one bar.*"glass rod" is a bar without a length/);
    expect(await file()).toEqual(before);
  });

  it('an item in another unit than the jobs take it in: refused, with both', async () => {
    const answer = await post('/locker/items/0', { item: 'waxed twine', unit: 'pieces', onBoard: '2' });
    expect([answer.status, textOf(await answer.text())]).toEqual([
      422,
      expect.stringMatching(/of waxed twine is needed/),
    ]);
  });

  it('saved by another tab meanwhile: nothing overwritten; what was entered stands over what is kept now', async () => {
    const at = `/locker/items/${await indexOf('needles')}`;
    const form = fieldsOf(await html(at));
    await post(at, { ...form, version: await versionNow(), onBoard: '7', place: 'chart table' });
    const late = await post(at, { ...form, onBoard: '5', keep: '1' });
    const page = await late.text();
    expect([late.status, await linesOf('needles')]).toEqual([409, [expect.objectContaining({ onBoard: 7, keep: 2 })]]);
    expect(fieldsOf(page)).toMatchObject({ onBoard: '5', keep: '1', place: 'chart table' });
    expect(textOf(page)).toContain('Kept now: 7');
    await post(at, fieldsOf(page));
    expect(await linesOf('needles')).toMatchObject([{ onBoard: 5, keep: 1, place: 'chart table' }]);
  });

  it('a line before it taken out meanwhile: the form follows its own line, not its place', async () => {
    const at = `/locker/items/${await indexOf('needles')}`;
    const form = fieldsOf(await html(at));
    await post('/locker/items/0', { do: 'remove' });
    const page = await (await post(at, { ...form, keep: '3' })).text();
    expect(page).toContain(`action="/locker/items/${await indexOf('needles')}"`);
    await post(`/locker/items/${await indexOf('needles')}`, fieldsOf(page));
    expect(await linesOf('needles')).toMatchObject([{ onBoard: 8, keep: 3 }]);
  });

  it('taken out itself meanwhile: offered as a new one, and saved again it is there', async () => {
    const last = ((await file()).locker?.length ?? 0) - 1;
    const form = fieldsOf(await html(`/locker/items/${last}`));
    await post(`/locker/items/${last - 1}`, { do: 'remove' });
    await post(`/locker/items/${last - 1}`, { do: 'remove' });
    const late = await post(`/locker/items/${last}`, { ...form, onBoard: '9' });
    const page = await late.text();
    expect([late.status, textOf(page)]).toEqual([
      409,
      expect.stringContaining('It was taken out of the passage meanwhile'),
    ]);
    expect(page).toContain('action="/locker/items/new"');
    await post('/locker/items/new', { ...fieldsOf(page), kind: 'tool' });
    expect(await linesOf('tool lanyards')).toMatchObject([{ onBoard: 9, kind: 'tool' }]);
  });

  it.each(['/locker/items/999', '/locker/items/x', '/locker/pieces/999'])('%s: no such page', async (path) => {
    expect((await fetch(server.url + path)).status).toBe(404);
  });
});

describe('the table', () => {
  it('out and in again: it changes nothing, and saved the passage is as it was', async () => {
    const before = await file();
    const answer = await fetch(`${server.url}/locker.csv`);
    expect(answer.headers.get('Content-Type')).toMatch(/text\/csv/);
    const table = await answer.text();
    expect(textOf(await (await post('/locker/table', { table })).text())).toContain('The table changes nothing.');
    await post('/locker/table', { table, do: 'save' });
    expect(await file()).toEqual(before);
  });

  it('pasted: first what it would change, line by line, then taken', async () => {
    const before = await file();
    const lines = (await (await fetch(`${server.url}/locker.csv`)).text()).split('\r\n');
    const table = [
      ...lines
        .filter((line) => !line.startsWith('hammer'))
        .map((line) => line.replace(/^needles,material,8/, 'needles,material,5')),
      'bungs,,3,pieces,,,,,',
    ].join('\n');
    const look = textOf(await (await post('/locker/table', { table })).text());
    expect(look).toContain('3 lines change. Nothing is saved yet.');
    expect(look).toContain('Comes in bungs : 3 pieces');
    expect(look).toContain('Goes out hammer : 1 piece, a tool, tool box');
    expect(look).toContain('Changes needles : 8 pieces before, 5 pieces now');
    expect(await file()).toEqual(before);
    expect((await post('/locker/table', { table, do: 'save' })).status).toBe(303);
    expect([await linesOf('hammer'), await linesOf('bungs')]).toEqual([
      [],
      [{ item: 'bungs', unit: 'pieces', onBoard: 3 }],
    ]);
  });

  it.each([
    ['bungs,three,pieces', /the table, row 2, amount/],
    ['waxed twine,3,pieces', /of waxed twine is needed/],
  ])('%s: row and column or what the jobs need, nothing saved, the text still there', async (row, said) => {
    const before = await file();
    for (const button of ['look', 'save']) {
      const answer = await post('/locker/table', { table: `item,amount,unit\n${row}\n`, do: button });
      const page = await answer.text();
      expect(answer.status).toBe(422);
      expect(textOf(page)).toMatch(said);
      expect(page).toContain(row);
    }
    expect(await file()).toEqual(before);
  });

  it('another tab has saved: not taken, and what it would change now is shown', async () => {
    const version = await versionNow();
    await post('/locker/items/new', { item: 'bungs', unit: 'pieces', onBoard: '3' });
    const table = await (await fetch(`${server.url}/locker.csv`)).text();
    const late = await post('/locker/table', { version, table: table.replace(/bungs[^\n]*\n/, ''), do: 'save' });
    expect([late.status, await linesOf('bungs')]).toEqual([409, [expect.objectContaining({ onBoard: 3 })]]);
    expect(textOf(await late.text())).toContain('Goes out bungs : 3 pieces');
  });
});

describe('pieces to cut', () => {
  it('longer than any bar, with a join: a sheet to saw by, and bar and joined piece drawn', async () => {
    await post('/locker/items/new', ROD);
    const count = (await file()).cutting?.pieces.length ?? 0;
    expect((await post('/locker/pieces/new', PIECE)).status).toBe(303);
    expect((await file()).cutting?.pieces[count]).toEqual({
      id: 'long batten',
      lengthMm: 3500,
      diameterMm: 10,
      maxJoins: 1,
      overlapMm: 200,
    });
    for (const path of ['/locker', '/locker/cut']) {
      const page = await html(path);
      expect(textOf(page)).toMatch(/Join long batten#1/);
      expect(page).toMatch(/<svg[^>]*aria-label="[^"]*long batten#1/);
    }
  });

  it('zones as spans; the wrong way round, or no numbers: refused at the input', async () => {
    const good = await post('/locker/pieces/new', { ...PIECE, noJoinZonesMm: '0-400, 3100–3500' });
    expect(good.status).toBe(303);
    expect((await file()).cutting?.pieces.at(-1)?.noJoinZonesMm).toEqual([
      [0, 400],
      [3100, 3500],
    ]);
    for (const [zones, said] of [
      ['500-200', 'The zone begins at 500 mm and ends before that'],
      ['the middle', 'is no span. Expected: from–to in mm'],
    ] as const) {
      const bad = await (await post('/locker/pieces/new', { ...PIECE, id: 'other', noJoinZonesMm: zones })).text();
      expect(textOf(bad)).toMatch(/No join in.*/);
      expect(textOf(bad)).toContain(said);
      expect(fieldsOf(bad)).toMatchObject({ noJoinZonesMm: zones, id: 'other' });
    }
  });

  it('an overlap in millimetres and in thicknesses: refused, one has to go', async () => {
    const answer = await post('/locker/pieces/new', { ...PIECE, overlapRatio: '12' });
    expect([answer.status, textOf(await answer.text())]).toEqual([
      422,
      expect.stringContaining('given both in millimetres'),
    ]);
  });

  it('one that cannot be made: why, and what bar would do', async () => {
    await post('/locker/pieces/new', { id: 'boom', lengthMm: '6000', diameterMm: '8' });
    expect(textOf(await html('/locker'))).toMatch(
      /Not made 1 × boom It is 6000 mm as cut, the longest bar of 8 mm is 3000 mm/,
    );
  });

  it('the saw cut: kept, emptied the default, and refused with what was typed', async () => {
    await post('/locker/kerf', { kerf: '1,5' });
    expect((await file()).cutting?.kerfMm).toBe(1.5);
    await post('/locker/kerf', { kerf: '' });
    expect((await file()).cutting).not.toHaveProperty('kerfMm');
    expect(textOf(await html('/locker'))).toContain('Counted with 3 mm default');
    const bad = await post('/locker/kerf', { kerf: 'wide' });
    const page = await bad.text();
    expect([bad.status, fieldsOf(page)['kerf']]).toEqual([422, 'wide']);
    expect(textOf(page)).toContain('"wide" does not fit. Expected: a number');
  });

  it('the last one taken out: nothing is wanted, and there is no sheet', async () => {
    for (let left = (await file()).cutting?.pieces.length ?? 0; left > 0; left--)
      await post('/locker/pieces/0', { do: 'remove' });
    expect((await file()).cutting).toBeUndefined();
    expect(textOf(await html('/locker'))).toContain('Nothing is wanted cut');
    expect((await fetch(`${server.url}/locker/cut`)).status).toBe(404);
    expect((await post('/locker/sawn', {})).status).toBe(404);
  });
});

describe('once it is sawn', () => {
  const cutting = {
    pieces: [
      { id: 'short batten', lengthMm: 1000, diameterMm: 10, count: 2 },
      { id: 'far too long', lengthMm: 9000, diameterMm: 10 },
    ],
  };
  const rods = { item: 'glass rod', unit: 'pieces', onBoard: 2, kind: 'bar', lengthMm: 1600, diameterMm: 10 } as const;
  const kept = { ...rods, item: 'spare rod', keep: 1, onBoard: 1, diameterMm: 12 };

  it('first what changes, nothing saved', async () => {
    await serve({ jobs: [], locker: [rods, kept], cutting });
    const before = await file();
    const page = textOf(await html('/locker/sawn'));
    expect(page).toContain('Goes out glass rod, 1600 mm long, 10 mm thick : 2 pieces');
    expect(page).toContain('Comes in glass rod, 597 mm long, 10 mm thick : 2 pieces');
    expect(page).toContain('No longer wanted: 2 × short batten. Still wanted: 1 × far too long.');
    expect(await file()).toEqual(before);
  });

  it('then bars out, left-overs in, pieces made no longer wanted, all others as they were', async () => {
    await serve({ jobs: [], locker: [rods, kept], cutting });
    expect((await post('/locker/sawn', {})).status).toBe(303);
    const after = await file();
    // 1600 mm less 1000 mm and a saw cut of 3 mm, twice.
    expect(after.locker).toEqual([kept, { ...rods, lengthMm: 597 }]);
    expect(after.cutting).toEqual({ pieces: [cutting.pieces[1]] });
  });

  it('another tab has changed the bars: nothing saved, and what would change now is shown', async () => {
    await serve({ jobs: [], locker: [rods, kept], cutting });
    const version = await versionNow();
    await post('/locker/items/0', {
      item: 'glass rod',
      kind: 'bar',
      unit: 'pieces',
      onBoard: '5',
      lengthMm: '1600',
      diameterMm: '10',
    });
    const late = await post('/locker/sawn', { version });
    expect([late.status, await linesOf('glass rod')]).toEqual([409, [expect.objectContaining({ onBoard: 5 })]]);
    expect(textOf(await late.text())).toContain('5 pieces before, 3 pieces now');
  });
});
