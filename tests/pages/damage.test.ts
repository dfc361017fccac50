/** The page of sails over HTTP, with plain forms, as a browser without script sends them. */
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
async function describedSail(): Promise<number> {
  const index = (await file()).sails?.length ?? 0;
  expect((await post('/damage/new', { ...NEW_SAIL, ...MORE })).status).toBe(303);
  return index;
}

describe('a sail', () => {
  it('described by counting: drawn, with its panels from both ends', async () => {
    const index = await describedSail();
    expect((await file()).sails?.[index]?.sail).toMatchObject({ luffM: 18.2, panelCount: 16, battens: { count: 5 } });
    const page = await html('/damage');
    expect(page).toContain('<a href="/damage" aria-current="page">Damage</a>');
    expect(page).toMatch(/<svg[^>]*class="sail-drawing"[\s\S]*16/);
  });

  it('a batten missing: said, with what the sail stands', async () => {
    const index = await describedSail();
    await post(`/damage/${index}`, { ...NEW_SAIL, ...MORE, 'batten.1': 'missing' });
    expect((await file()).sails?.[index]?.sail.battens?.states).toEqual([{ batten: 1, state: 'missing' }]);
    expect(await html('/damage')).toMatch(/Batten 1 of 5 from the head = 5th from the foot is missing/);
  });

  it('sent back as it was shown: nothing is changed', async () => {
    const index = await describedSail();
    const before = await file();
    await post(`/damage/${index}`, { ...NEW_SAIL, luffM: '18.2', ...MORE });
    expect(await file()).toEqual(before);
  });

  it('with a count that is none: refused at its field, and what was entered is still there', async () => {
    const answer = await post('/damage/new', { ...NEW_SAIL, panelCount: '-3', luffM: 'long' });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toMatch(/value="-3"/);
    expect(page).toMatch(/value="long"/);
    expect(page.match(/class="field-problem"/g)).toHaveLength(2);
  });

  it('taken out: gone', async () => {
    const index = await describedSail();
    await post(`/damage/${index}`, { do: 'remove' });
    expect((await file()).sails?.length ?? 0).toBe(index);
  });
});

describe('a tear', () => {
  it('marked by counting: its findings, and the first answer', async () => {
    const index = await describedSail();
    expect((await post(`/damage/${index}/tears/new`, { ...TEAR, distanceFromLeechM: '0.5' })).status).toBe(303);
    const page = await html('/damage');
    expect(page).toMatch(/panel 6 of 16 from the clew = 11th from the head/);
    expect(page).toMatch(/across the load/);
  });

  it('in a panel there is not: refused with the count, nothing saved', async () => {
    const index = await describedSail();
    const before = await file();
    const answer = await post(`/damage/${index}/tears/new`, { ...TEAR, 'counted.panel': '19' });
    expect(answer.status).toBe(422);
    expect(await answer.text()).toMatch(/class="field-problem"[\s\S]*16/);
    expect(await file()).toEqual(before);
  });

  it('made jobs of: the sewing and the patch, after the drop and before the hoist', async () => {
    const index = await describedSail();
    await post(`/damage/${index}/tears/new`, { ...TEAR, distanceFromLeechM: '0.5' });
    const answer = await post(`/damage/${index}/tears/0/jobs`, { where: 'deck' });
    expect([answer.status, answer.headers.get('Location')?.split('?')[0]]).toEqual([303, '/jobs/sew-leech']);
    const jobs = (await file()).jobs ?? [];
    expect(jobs.find(({ id }) => id === 'sew-leech')).toMatchObject({
      from: 'stitch-tear',
      lengthM: 0.9,
      after: ['drop'],
    });
    expect(jobs.find(({ id }) => id === 'sew-leech-patch')?.after).toEqual(['sew-leech']);
    expect(jobs.find(({ id }) => id === 'hoist')?.after).toContain('sew-leech-patch');
  });

  it('of a sail there is not: no such page', async () => {
    const count = (await file()).sails?.length ?? 0;
    expect((await fetch(`${server.url}/damage/${count}/tears/0`)).status).toBe(404);
    expect((await fetch(`${server.url}/damage/x`)).status).toBe(404);
  });
});
