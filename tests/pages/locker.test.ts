/** The page of the locker over HTTP, with plain forms, as a browser without script sends them. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
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
async function versionNow(): Promise<string> {
  const info = await server.kept.documents.documentInfo();
  return info.ok ? `${info.value.number}.${info.value.version}` : '';
}
async function post(path: string, fields: Readonly<Record<string, string>>): Promise<Response> {
  const body = new URLSearchParams({ version: await versionNow(), ...fields });
  return fetch(server.url + path, { method: 'POST', body, redirect: 'manual' });
}
const itemIn = async (item: string) => (await file()).locker?.find((line) => line.item === item);

const ROD = { item: 'glass rod', kind: 'bar', unit: 'pieces', onBoard: '2', lengthMm: '3000', diameterMm: '10' };
const PIECE = { id: 'long batten', lengthMm: '3500', diameterMm: '10', maxJoins: '1', overlapMm: '200' };

describe('a line of the locker', () => {
  it('added, changed, taken out', async () => {
    const count = (await file()).locker?.length ?? 0;
    expect((await post('/locker/items/new', { item: 'hose clips', unit: 'pieces', onBoard: '6' })).status).toBe(303);
    expect(await itemIn('hose clips')).toEqual({ item: 'hose clips', unit: 'pieces', onBoard: 6 });
    await post(`/locker/items/${count}`, { item: 'hose clips', unit: 'pieces', onBoard: '5,5', keep: '2' });
    expect(await itemIn('hose clips')).toMatchObject({ onBoard: 5.5, keep: 2 });
    await post(`/locker/items/${count}`, { do: 'remove' });
    expect(await itemIn('hose clips')).toBeUndefined();
  });

  it('a negative amount, a bar without its length: refused, nothing saved, nothing typed lost', async () => {
    const before = await file();
    const negative = await post('/locker/items/new', { item: 'hose clips', unit: 'pieces', onBoard: '-6' });
    expect(negative.status).toBe(422);
    expect(await negative.text()).toMatch(/value="-6"[\s\S]*class="field-problem"/);
    const { lengthMm: _, ...short } = ROD;
    const bar = await post('/locker/items/new', short);
    expect(bar.status).toBe(422);
    expect(await bar.text()).toContain('glass rod');
    expect(await file()).toEqual(before);
  });

  it('saved by another tab meanwhile: told, nothing overwritten', async () => {
    const version = await versionNow();
    await post('/locker/items/new', { item: 'hose clips', unit: 'pieces', onBoard: '6' });
    const late = await post('/locker/items/new', { version, item: 'bungs', unit: 'pieces', onBoard: '3' });
    expect(late.status).toBe(409);
    expect(await itemIn('bungs')).toBeUndefined();
  });
});

describe('the table', () => {
  it('out and in again: it changes nothing', async () => {
    const answer = await fetch(`${server.url}/locker.csv`);
    expect(answer.headers.get('Content-Type')).toMatch(/text\/csv/);
    const page = await (await post('/locker/table', { table: await answer.text() })).text();
    expect(page).toContain('It changes nothing.');
  });

  it('pasted: first what it would change, then taken', async () => {
    const table = 'item,amount,unit\nbungs,3,pieces\n';
    const before = await file();
    const look = await post('/locker/table', { table });
    expect(await look.text()).toContain('bungs: added, 3 pieces.');
    expect(await file()).toEqual(before);
    expect((await post('/locker/table', { table, do: 'save' })).status).toBe(303);
    expect((await file()).locker).toEqual([{ item: 'bungs', unit: 'pieces', onBoard: 3 }]);
  });

  it('with a bad cell: its row and column, nothing saved', async () => {
    const before = await file();
    const answer = await post('/locker/table', { table: 'item,amount,unit\nbungs,three,pieces\n', do: 'save' });
    expect(answer.status).toBe(422);
    expect(await answer.text()).toMatch(/three/);
    expect(await file()).toEqual(before);
  });
});

describe('cutting', () => {
  it('a piece longer than any bar, with a join: a sheet to saw by, and the bars drawn', async () => {
    await post('/locker/items/new', ROD);
    const count = (await file()).cutting?.pieces.length ?? 0;
    expect((await post('/locker/pieces/new', PIECE)).status).toBe(303);
    expect((await file()).cutting?.pieces[count]).toMatchObject({ id: 'long batten', lengthMm: 3500, maxJoins: 1 });
    const page = await html('/locker');
    expect(page).toMatch(/Join long batten#1/);
    expect(page).toMatch(/<svg[^>]*aria-label="[^"]*long batten#1/);
  });

  it('zones as spans; the wrong way round: refused at the field', async () => {
    const good = await post('/locker/pieces/new', { ...PIECE, noJoinZonesMm: '0-400, 3100-3500' });
    expect(good.status).toBe(303);
    expect((await file()).cutting?.pieces.at(-1)?.noJoinZonesMm).toEqual([
      [0, 400],
      [3100, 3500],
    ]);
    const bad = await post('/locker/pieces/new', { ...PIECE, id: 'other', noJoinZonesMm: '500-200' });
    expect(bad.status).toBe(422);
    expect(await bad.text()).toMatch(/class="field-problem"/);
  });

  it('sawn: bars go out, left-overs come in, the pieces are no longer wanted', async () => {
    await post('/locker/table', {
      table: 'item,kind,amount,unit,length_mm,diameter_mm\nglass rod,bar,2,pieces,3000,10\n',
      do: 'save',
    });
    for (let left = (await file()).cutting?.pieces.length ?? 0; left > 0; left--)
      await post('/locker/pieces/0', { do: 'remove' });
    await post('/locker/pieces/new', { id: 'short batten', lengthMm: '1000', diameterMm: '10' });
    expect((await post('/locker/sawn', {})).status).toBe(303);
    const after = await file();
    expect(after.cutting).toBeUndefined();
    // 3000 mm less 1000 mm and a saw cut of 3 mm.
    expect(after.locker).toEqual([
      { item: 'glass rod', unit: 'pieces', onBoard: 1, kind: 'bar', lengthMm: 3000, diameterMm: 10 },
      { item: 'glass rod', unit: 'pieces', onBoard: 1, kind: 'bar', lengthMm: 1997, diameterMm: 10 },
    ]);
  });
});
