/** A passage as one file: saved on one machine's pages, brought in on another's. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import express from 'express';
import { afterEach, describe, expect, it } from 'vitest';
import type { LogEntryFile } from '../../lib/log/index.ts';
import { uploadLimits } from '../../server/routes/limits.ts';
import { PageError } from '../../server/routes/page-error.ts';
import { at, utc } from '../log/demo.ts';
import { demoFile, demoText } from './test-documents.ts';
import { testServer, type TestServer } from './test-server.ts';

const control = path.join(path.dirname(demoFile), 'demo-control.grib2');
const controlHash = createHash('sha256').update(readFileSync(control)).digest('hex');
const demo = JSON.parse(demoText) as Readonly<Record<string, unknown>>;
const withForecast = JSON.stringify({ ...demo, forecasts: [control] });

const HELD = 'slatch-archive-';
const archivesLeft = (): string[] => readdirSync(tmpdir()).filter((name) => name.startsWith(HELD));

let servers: TestServer[] = [];
afterEach(async () => {
  await Promise.all(servers.map((one) => one.close()));
  servers = [];
});

async function served(passage = withForecast): Promise<TestServer> {
  const server = await testServer(undefined, passage);
  servers.push(server);
  return server;
}

const ENTRIES: readonly LogEntryFile[] = [
  { kind: 'note', atUtc: utc('27 19:00'), note: 'Halyard chafed at the sheave' },
  { kind: 'sleep', atUtc: utc('27 13:00'), endUtc: utc('27 18:00') },
  { kind: 'correction', atUtc: utc('27 19:30'), corrects: 1, by: null },
];

async function writeLog({ kept }: TestServer): Promise<void> {
  for (const [index, entry] of ENTRIES.entries())
    // They are numbered in this order.
    // oxlint-disable-next-line no-await-in-loop
    await kept.log.writeLog({ passageNumber: 1, entry, atEpochMs: at('27 19:00'), formToken: `own-${index}` });
}

type Octets = Uint8Array<ArrayBuffer>;

const saved = async ({ url }: TestServer): Promise<Octets> =>
  new Uint8Array(await (await fetch(`${url}/document/passage.tar`)).arrayBuffer());

async function bringIn({ url }: TestServer, octets: Octets | null, token = 'form-1'): Promise<Response> {
  const body = new FormData();
  body.set('token', token);
  if (octets !== null) body.set('archive', new Blob([octets]), 'bay.tar');
  return fetch(`${url}/document/bring-in`, { method: 'POST', body, redirect: 'manual' });
}

async function shown({ kept }: TestServer) {
  const document = await kept.documents.passageDocument();
  if (!document.ok) throw new Error(JSON.stringify(document.problems));
  const log = kept.log.passageLog();
  return { document: document.value, log: log.ok ? log.value.entries.map(({ entry }) => entry) : [] };
}

describe('a passage as one file', () => {
  it('brought in on another machine: the same passage, its forecast in the store, its log', async () => {
    const [here, there] = [await served(), await served(demoText)];
    await writeLog(here);
    const download = await fetch(`${here.url}/document/passage.tar`);
    expect([download.status, download.headers.get('Content-Disposition')?.replaceAll('"', '')]).toEqual([
      200,
      'attachment; filename=demo-passage.tar',
    ]);
    const answer = await bringIn(there, new Uint8Array(await download.arrayBuffer()));
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/?saved=2.1']);
    const [before, after] = [await shown(here), await shown(there)];
    expect(after.document.passage).toEqual({ ...before.document.passage, forecasts: [`store:${controlHash}`] });
    expect(after.log).toEqual(ENTRIES);
    const files = there.kept.forecasts.forecastFiles();
    expect(files.ok ? files.value.map(({ fileName }) => fileName) : []).toEqual(['1-demo-control.grib2']);
  });

  it('sent a second time by the same form: one passage, no entry twice', async () => {
    const [here, there] = [await served(), await served(demoText)];
    await writeLog(here);
    const octets = await saved(here);
    await bringIn(there, octets);
    expect((await bringIn(there, octets)).headers.get('Location')).toBe('/?saved=2.1');
    const list = there.kept.documents.documentList();
    expect(list.ok ? list.value.length : 0).toBe(2);
    expect((await shown(there)).log).toEqual(ENTRIES);
  });

  it('another file chosen in the same form: another passage, none of its log in the first', async () => {
    const [here, elsewhere, there] = [await served(), await served(), await served(demoText)];
    await writeLog(elsewhere);
    await bringIn(there, await saved(here));
    expect((await bringIn(there, await saved(elsewhere))).headers.get('Location')).toBe('/?saved=3.1');
    expect((await shown(there)).log).toEqual(ENTRIES);
    const first = there.kept.store.log.list(2);
    expect(first.ok ? first.value : null).toEqual([]);
  });

  it('asked for a third time while two are on their way: told to wait, and served once one is done', async () => {
    const open: express.Response[] = [];
    const app = express()
      .use(uploadLimits())
      .get('/document/passage.tar', (_request, response) => void open.push(response))
      .use((error: unknown, _request: unknown, response: express.Response, _next: unknown) => {
        response.sendStatus(error instanceof PageError ? error.status : 500);
      });
    const server = createServer(app);
    await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
    const ask = (): Promise<Response> =>
      fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}/document/passage.tar`);
    const first = [ask(), ask()];
    await expect.poll(() => open.length).toBe(2);
    const third = await ask();
    expect([third.status, third.headers.get('Retry-After')]).toEqual([503, '30']);
    open[0]?.end('packed');
    expect(await Promise.race(first.map(async (one) => (await one).text()))).toBe('packed');
    await expect.poll(() => open[0]?.closed).toBe(true);
    const fourth = ask();
    await expect.poll(() => open.length).toBe(3);
    for (const response of open.slice(1)) response.end('packed');
    await Promise.all([...first, fourth].map(async (one) => (await one).text().catch(() => '')));
    server.closeAllConnections();
    server.close();
  });

  it('a track that lies in a file of its own: it goes into the passage', async () => {
    const here = await served();
    const gpx =
      '<gpx version="1.1" creator="a test" xmlns="http://www.topografix.com/GPX/1/1"><rte><rtept lat="-36" lon="178.5"><name>Off</name></rtept><rtept lat="-36.5" lon="-179.5"/></rte></gpx>';
    writeFileSync(path.join(path.dirname(here.kept.file), 'way.gpx'), gpx);
    here.kept.writeFile(JSON.stringify({ ...demo, forecasts: [control], track: { gpx: 'way.gpx' } }));
    expect((await here.kept.documents.followFile()).ok).toBe(true);
    const there = await served(demoText);
    expect((await bringIn(there, await saved(here))).status).toBe(303);
    const { document } = await shown(there);
    expect(document.passage.track).toEqual((await shown(here)).document.passage.track);
    expect(document.file.track).toHaveLength(2);
  });

  it('a forecast that is gone: said, and nothing is sent', async () => {
    const here = await served(demoText);
    const answer = await fetch(`${here.url}/document/passage.tar`);
    expect(answer.status).toBe(422);
    expect(await answer.text()).toMatch(/Not put into one file.*there is no such file/s);
  });
});

describe('what cannot be brought in', () => {
  const refusedFor = async (make: (whole: Octets) => Octets | null): Promise<string> => {
    const [here, there] = [await served(), await served(demoText)];
    const answer = await bringIn(there, make(await saved(here)));
    expect(answer.status).toBe(422);
    const list = there.kept.documents.documentList();
    expect(list.ok ? list.value.length : 0).toBe(1);
    const page = await answer.text();
    expect(page).not.toContain(HELD);
    return page;
  };

  it('no file: said at the form', async () => {
    expect(await refusedFor(() => null)).toMatch(/id="bring-in-wrong">.*No file was chosen/s);
  });

  it.each([
    ['cut in the middle', (whole: Octets) => whole.slice(0, whole.length / 2)],
    ['one octet of a forecast another one', (whole: Octets) => whole.with(whole.length - 8000, 7)],
    ['a GRIB file', () => new Uint8Array(readFileSync(control))],
    ['empty', () => new Uint8Array()],
  ])('%s: named, and nothing is taken', async (_, make) => {
    expect(await refusedFor(make)).toMatch(/id="bring-in-wrong">.*bay\.tar/s);
  });
});

it('after all of it: nothing is left in the folder for a moment’s things', async () => {
  await expect.poll(archivesLeft).toEqual([]);
});
