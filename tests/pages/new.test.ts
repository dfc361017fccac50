/** A passage of one's own: the form, its files, and what becomes of them. */
import { readdirSync, readFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PlanStanding } from '../../server/deps.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { demoFile } from './test-documents.ts';
import { readyStanding, testServer, type TestServer } from './test-server.ts';

const control = new Uint8Array(readFileSync(path.join(path.dirname(demoFile), 'demo-control.grib2')));
const TRACK = "36°18.0'S 178°06.0'E\n36°42.0'S 178°30.0'W";
const GPX =
  '<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><rte>' +
  '<rtept lat="-36.3" lon="178.1"/><rtept lat="-36.7" lon="-178.5"/></rte></gpx>';

let server: TestServer;
let standing: PlanStanding = readyStanding;
beforeEach(async () => {
  standing = readyStanding;
  server = await testServer(() => standing);
});
afterEach(() => server.close());

interface Answer {
  readonly status: number;
  readonly place: string | null;
  readonly html: string;
}

type Part = readonly [name: string, value: string | { readonly fileName: string; readonly octets: Uint8Array }];

/** What a browser sends of a form with files (RFC 7578). */
async function send(to: string, parts: readonly Part[]): Promise<Answer> {
  const body = new FormData();
  for (const [name, value] of parts)
    if (typeof value === 'string') body.append(name, value);
    else body.append(name, new File([Buffer.from(value.octets)], value.fileName));
  const headers = { Origin: server.url };
  const answer = await fetch(server.url + to, { method: 'POST', headers, body, redirect: 'manual' });
  return { status: answer.status, place: answer.headers.get('location'), html: await answer.text() };
}

const get = async (at: string): Promise<string> => (await fetch(server.url + at)).text();
const file = (fileName: string, content: Uint8Array | string) => ({
  fileName,
  octets: typeof content === 'string' ? Buffer.from(content) : content,
});
const shown = async () => {
  const document = await server.kept.documents.passageDocument();
  if (!document.ok) throw new Error(JSON.stringify(document.problems));
  return document.value;
};
const stored = (): readonly string[] => {
  const list = server.kept.forecasts.forecastFiles();
  return list.ok ? list.value.map(({ fileName }) => fileName) : [];
};
const gribFolder = (): readonly string[] =>
  readdirSync(path.join(server.kept.store.folder, 'grib')).filter((name) => !name.startsWith('.'));
const isSoon = async (holds: () => boolean): Promise<boolean> => {
  for (let tries = 0; tries < 100 && !holds(); tries += 1)
    // oxlint-disable-next-line no-await-in-loop -- looked at again and again
    await new Promise((settle) => setTimeout(settle, 20));
  return holds();
};

describe('a passage of one’s own', () => {
  it('linked from the passage, from the passages kept, and from a page without a plan', async () => {
    expect(await get('/')).toContain('href="/new"');
    expect(await get('/document')).toContain('href="/new"');
    standing = { kind: 'failed', problems: [{ code: 'x', where: 'x', what: 'x', expected: 'x', remedy: 'x' }] };
    expect(textOf(await get('/'))).toContain('Begin one : a track and a forecast are enough.');
  });

  it('track and forecast: made, shown, planned; the passage before is kept', async () => {
    const token = fieldsOf(await get('/new'))['token'] ?? '';
    const parts: readonly Part[] = [
      ['token', token],
      ['gpx', file('way.gpx', GPX)],
      ['forecast', file('control.grib2', control)],
      ['forecast', file('', '')],
      ['track', ''],
      ['jobs', ''],
      ['jobs', 'fuel-filter'],
      ['sailState', 'deep-reef'],
    ];
    const made = await send('/new', parts);
    expect([made.status, made.place]).toEqual([303, '/?saved=2.1']);
    const document = await shown();
    expect(document).toMatchObject({ number: 2, version: 1, fileState: 'none', isEdited: false, isFileChanged: false });
    expect(document.file.start.sailState).toBe('deep-reef');
    expect(document.passage.jobs.map(({ from }) => from)).toEqual(['fuel-filter']);
    expect(document.passage.forecasts).toEqual([expect.stringMatching(/^store:[0-9a-f]{64}$/)]);
    expect(stored()).toEqual(['control.grib2']);
    expect(server.pressed).toEqual(['renew']);
    const page = textOf(await get('/document'));
    expect(page).toContain('Made on these pages');
    expect(page).toContain('Passage 1, taken over');
    expect(page).toContain('Passage 2, version 1 , made here');

    // The same form again, as by a second press: no second passage.
    expect((await send('/new', parts)).place).toBe('/?saved=2.1');
    const list = server.kept.documents.documentList();
    expect(list.ok && list.value.length).toBe(2);
  });

  it('started anew: the passage made is still shown, and does not follow the file', async () => {
    await send('/new', [
      ['token', 't-1'],
      ['track', TRACK],
    ]);
    server.kept.writeFile('{}');
    const documents = server.kept.restarted();
    expect(await documents.followFile()).toEqual({ ok: true, value: false });
    const document = await documents.passageDocument();
    expect(document.ok && [document.value.number, document.value.fileState]).toEqual([2, 'none']);
  });

  it('no passage file that can be read: one of one’s own all the same', async () => {
    await server.close();
    server = await testServer(() => standing, '{"slatch": 1}');
    expect(textOf(await get('/document'))).toContain('begin one of your own');
    expect(
      (
        await send('/new', [
          ['token', 't-1'],
          ['track', TRACK],
        ])
      ).status,
    ).toBe(303);
    expect((await shown()).file.track).toHaveLength(2);
    expect(textOf(await get('/document'))).toContain('Take over demo-passage.json, as a new passage');
  });

  it('several things wrong: each at its input, what was entered and the files that came are kept', async () => {
    const { status, html } = await send('/new', [
      ['token', 't-1'],
      ['gpx', file('way.gpx', GPX)],
      ['forecast', file('control.grib2', control)],
      ['forecast', file('page.html', '<!doctype html><p>not found</p>')],
      ['name', 'Over <the> line'],
      ['waterlineM', '900'],
      ['night1H', '4'],
      ['chains', 'one-drop'],
      ['jobs', 'fuel-filter'],
    ]);
    expect(status).toBe(422);
    const text = textOf(html);
    expect(text).toContain('No passage was made: 2 things have to be put right first.');
    expect(text).toContain('page.html: This is a web page, not a GRIB file.');
    expect(text).toContain('"900" cannot be used here.');
    expect(html).toMatch(/<input[^>]*name="waterlineM"[^>]*aria-invalid="true"[^>]*value="900"/);
    expect(fieldsOf(html)).toMatchObject({ token: 't-1', night1H: '4' });
    expect(html).toMatch(/<input[^>]*name="name"[^>]*value="Over &lt;the> line"/);
    expect(html).toContain("36°18.000'S 178°06.000'E\n36°42.000'S 178°30.000'W");
    for (const ticked of ['one-drop', 'fuel-filter']) expect(html).toMatch(new RegExp(`value="${ticked}" checked`));
    expect(stored()).toEqual(['control.grib2']);
    expect(html).toMatch(/name="use" value="[0-9a-f]{64}" checked/);
    expect((await shown()).number).toBe(1);
    expect(server.reported).toEqual([]);
  });

  it('a forecast that is here already: ticked, it is planned with; a hash that is not there is not', async () => {
    const kept = await server.kept.forecasts.keepFile({ fileName: 'here.grib2', octets: control });
    const hash = kept.ok ? kept.value.hash : '';
    expect(await get('/new')).toContain('here.grib2');
    await send('/new', [
      ['token', 't'],
      ['track', TRACK],
      ['use', ''],
      ['use', hash],
      ['use', '0'.repeat(64)],
    ]);
    expect((await shown()).passage.forecasts).toEqual([`store:${hash}`]);
  });

  it('a form without files, or one of another page: refused', async () => {
    const plain = await fetch(`${server.url}/new`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/x-www-form-urlencoded', Origin: server.url },
      body: 'track=1',
    });
    expect(plain.status).toBe(415);
    const body = new FormData();
    body.append('track', TRACK);
    const foreign = await fetch(`${server.url}/new`, {
      method: 'POST',
      headers: { Origin: 'http://else.example' },
      body,
    });
    expect(foreign.status).toBe(403);
    expect((await shown()).number).toBe(1);
  });
});

describe('files added to the forecast’s list', () => {
  it('GRIB: in the store under the hash of its content, twice the same is one, and not planned with yet', async () => {
    const sent = [['forecast', file('a.grib2', control)]] as const;
    expect(await send('/forecast/upload', sent)).toMatchObject({ status: 303, place: '/forecast#files' });
    await send('/forecast/upload', [['forecast', file('b.grib2', control)]]);
    expect(stored()).toEqual(['a.grib2']);
    expect(await get('/forecast')).toContain('a.grib2');
    expect((await shown()).version).toBe(1);
    expect(gribFolder()).toHaveLength(1);
  });

  it('no GRIB, or no file: said, and nothing stays', async () => {
    const wrong = await send('/forecast/upload', [['forecast', file('notes.txt', 'wind will be light')]]);
    expect(wrong.status).toBe(422);
    expect(textOf(wrong.html)).toContain('notes.txt');
    const none = await send('/forecast/upload', [['forecast', file('', '')]]);
    expect(textOf(none.html)).toContain('No file was chosen.');
    expect([stored(), gribFolder()]).toEqual([[], []]);
  });

  it('torn off in the middle: nothing stays, and the next one is taken', async () => {
    const boundary = 'cut-here';
    const request = httpRequest(`${server.url}/forecast/upload`, {
      method: 'POST',
      headers: {
        'Content-Type': `multipart/form-data; boundary=${boundary}`,
        'Content-Length': String(control.length + 1000),
        Origin: server.url,
      },
    });
    request.once('error', () => null);
    request.write(`--${boundary}\r\nContent-Disposition: form-data; name="forecast"; filename="a.grib2"\r\n\r\n`);
    request.write(control.subarray(0, 200_000));
    expect(await isSoon(() => gribFolder().some((name) => name.endsWith('.part')))).toBe(true);
    request.destroy();
    expect(await isSoon(() => gribFolder().length === 0)).toBe(true);
    expect(stored()).toEqual([]);
    expect((await send('/forecast/upload', [['forecast', file('a.grib2', control)]])).status).toBe(303);
  });

  it('ends before its last boundary: refused as not whole, nothing stays', async () => {
    const answer = await fetch(`${server.url}/forecast/upload`, {
      method: 'POST',
      headers: { 'Content-Type': 'multipart/form-data; boundary=cut', Origin: server.url },
      body: '--cut\r\nContent-Disposition: form-data; name="forecast"; filename="a.grib2"\r\n\r\nGRIB',
    });
    expect(answer.status).toBe(400);
    expect([stored(), gribFolder()]).toEqual([[], []]);
  });
});
