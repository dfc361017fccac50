/** The forecast's page: what it holds, which files the plan is made of, and getting another one. */
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildForecast } from '../../lib/forecast/index.ts';
import { parsePassage } from '../../lib/passage/index.ts';
import type { PlanStanding } from '../../server/deps.ts';
import { forecastSummary } from '../../server/presenters/forecast-summary.ts';
import { loadPassageText } from '../../server/stores/passage-files.ts';
import { picture } from './fixture-plan.ts';
import { straightWay } from './fixture-way.ts';
import { view } from './fixture-windows.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { demoFile, demoText } from './test-documents.ts';
import { readyStanding, testServer, type TestServer } from './test-server.ts';

const control = new Uint8Array(readFileSync(path.join(path.dirname(demoFile), 'demo-control.grib2')));
const members = new Uint8Array(readFileSync(path.join(path.dirname(demoFile), 'demo-members.grib2')));
const files = [{ name: 'demo-control.grib2', bytes: control }];

let server: TestServer;
let standing: PlanStanding = readyStanding;
beforeEach(async () => {
  standing = readyStanding;
  server = await testServer(() => standing);
});
afterEach(() => server.close());

const html = async (): Promise<string> => (await fetch(`${server.url}/forecast`)).text();
const text = async (): Promise<string> => textOf(await html());

interface Answer {
  readonly status: number;
  readonly place: string | null;
  readonly text: string;
}

async function send(to: string, fields: readonly (readonly [string, string])[]): Promise<Answer> {
  const answer = await fetch(server.url + to, {
    method: 'POST',
    headers: { 'Content-Type': 'application/x-www-form-urlencoded', Origin: server.url },
    body: new URLSearchParams(fields.map(([name, value]) => [name, value])).toString(),
    redirect: 'manual',
  });
  return { status: answer.status, place: answer.headers.get('location'), text: textOf(await answer.text()) };
}

const version = async (): Promise<string> => fieldsOf(await html())['version'] ?? '';
const chosen = async (): Promise<readonly string[]> => {
  const document = await server.kept.documents.passageDocument();
  return document.ok ? document.value.passage.forecasts : [];
};
async function stored(fileName: string, octets: Uint8Array): Promise<string> {
  const kept = await server.kept.forecasts.keepFile({ fileName, octets });
  if (!kept.ok) throw new Error(JSON.stringify(kept.problems));
  return kept.value.hash;
}

describe('what the forecast holds', () => {
  it('no plan yet: says so, and the files can be chosen all the same', async () => {
    standing = { kind: 'stopped' };
    const page = await text();
    expect(page).toContain('No plan has read the forecast yet');
    expect(page).toContain('demo-control.grib2');
  });

  it('age, span, members, quantities and what is missing', async () => {
    const forecast = buildForecast(files);
    const passage = parsePassage(demoText, 'demo');
    if (!forecast.ok || !passage.ok) throw new Error('the demo cannot be read');
    const way = straightWay({ lat: -36.3, lon: 178.1 }, { lat: -36.5, lon: 179 });
    const of = { passage: passage.value, forecast: forecast.value, files, ...way, nowEpochMs: picture.nowEpochMs };
    standing = { kind: 'ready', view: { ...view, forecast: forecastSummary(of) } };
    const page = await text();
    expect(page).toContain('The forecast of Thu 28 May 00:00 (Wed 12:00 UTC)');
    expect(page).toContain('It is 6 h old and reaches to Fri 5 Jun 00:00');
    expect(page).toContain('It is one forecast, not an ensemble');
    expect(page).toMatch(
      /wind at 10 m, gust, significant wave height.*Thu 28 May 00:00 to Fri 5 Jun 00:00 3 h one run/,
    );
    expect(page).toContain('relative humidity at 2 m, CAPE, cloud, current: what depends on them is unknown');
    expect(page).not.toContain('Where it is silent');
    expect(page).toContain('All it holds is known wherever she will be, to the end of the plan');
    expect(page).toMatch(/demo-control\.grib2 .*run of Thu 28 May 00:00 \(Wed 12:00 UTC\), 6 h old: wind at 10 m/);
    expect(page).toContain('at every hour of the plan');
  });

  it('members every 6 h and control every 3 h: the table tells the two apart', async () => {
    const both = [...files, { name: 'demo-members.grib2', bytes: members }];
    const forecast = buildForecast(both);
    const passage = parsePassage(demoText, 'demo');
    if (!forecast.ok || !passage.ok) throw new Error('the demo cannot be read');
    const way = straightWay({ lat: -36.3, lon: 178.1 }, { lat: -36.5, lon: 179 });
    const of = {
      passage: passage.value,
      forecast: forecast.value,
      files: both,
      ...way,
      nowEpochMs: picture.nowEpochMs,
    };
    standing = { kind: 'ready', view: { ...view, forecast: forecastSummary(of) } };
    expect(await text()).toMatch(/to Fri 5 Jun 00:00 6 h, control 3 h 20 members, control/);
  });

  it('a way that leaves it: where and by how much', async () => {
    const forecast = buildForecast(files);
    const passage = parsePassage(demoText, 'demo');
    if (!forecast.ok || !passage.ok) throw new Error('the demo cannot be read');
    const way = straightWay({ lat: -36.3, lon: 178.1 }, { lat: -20, lon: 179 });
    const of = { passage: passage.value, forecast: forecast.value, files, ...way, nowEpochMs: picture.nowEpochMs };
    standing = { kind: 'ready', view: { ...view, forecast: forecastSummary(of) } };
    const page = await text();
    expect(page).toMatch(/Where it is silent.*lie outside.*the farthest by 240 nm/);
    expect(page).toMatch(
      /She leaves the area of wind at 10 m, .* before the plan ends: no work on deck can be planned/,
    );
    expect(page).toMatch(/she leaves the area of .*, or comes to its land\./);
  });
});

describe('the files of the plan', () => {
  it('ticked anew: the passage is planned with these, and with a file of the store by its content', async () => {
    const hash = await stored('fetched.grib2', control);
    expect(await text()).toContain('fetched.grib2');
    const answer = await send('/forecast/files', [
      ['version', await version()],
      ['use', `store:${hash}`],
      ['use', 'demo-members.grib2'],
    ]);
    expect(answer.status).toBe(303);
    expect(answer.place).toContain('/forecast?saved=');
    expect(await chosen()).toEqual([`store:${hash}`, 'demo-members.grib2']);
    expect(server.pressed).toEqual(['renew']);
  });

  it('files beside the passage that were left out stand there still, to be ticked again', async () => {
    await send('/forecast/files', [
      ['version', await version()],
      ['use', 'demo-control.grib2'],
    ]);
    const page = await html();
    expect(page).toMatch(/value="demo-control\.grib2" checked/);
    expect(page).toMatch(/value="demo-members\.grib2"\/?>/);
  });

  it('none ticked: refused, nothing written', async () => {
    const answer = await send('/forecast/files', [['version', await version()]]);
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('without a forecast there is no plan');
    expect(await chosen()).toEqual(['demo-control.grib2', 'demo-members.grib2']);
  });

  it('a form made before somebody else saved: told, nothing overwritten', async () => {
    const before = await version();
    await send('/forecast/files', [
      ['version', before],
      ['use', 'demo-control.grib2'],
    ]);
    const answer = await send('/forecast/files', [
      ['version', before],
      ['use', 'demo-members.grib2'],
    ]);
    expect(answer.status).toBe(409);
    expect(await chosen()).toEqual(['demo-control.grib2']);
  });

  it('a file of the store is planned with: it is read from there', async () => {
    const hash = await stored('fetched.grib2', control);
    await send('/forecast/files', [
      ['version', await version()],
      ['use', `store:${hash}`],
    ]);
    const passageText = server.kept.documents.passageText();
    if (!passageText.ok) throw new Error('no passage');
    const loaded = await loadPassageText(passageText.value);
    expect(loaded.ok ? loaded.value.forecast.held : loaded.problems).toContain('wind');
  });

  it('one that was removed from the store is a problem of the passage, with what to do', async () => {
    const passageText = server.kept.documents.passageText();
    if (!passageText.ok) throw new Error('no passage');
    const file = JSON.stringify({ ...JSON.parse(demoText), forecasts: [`store:${'a'.repeat(64)}`] });
    const loaded = await loadPassageText({ ...passageText.value, text: file });
    const [problem] = loaded.ok ? [] : loaded.problems;
    expect(problem?.code).toBe('file.unreadable');
    expect(problem?.remedy).toContain('removed from the store');
  });

  it('one that came from a source: whose it is and on which terms, in the list and beside the plan made of it', async () => {
    const credit = { sourceName: 'Trial model', attribution: 'Data: the trial office.', terms: 'any use' };
    const added = await server.kept.store.forecasts.add({
      fileName: 'trial.grib2',
      content: [control],
      mostOctets: 10_000_000,
      atEpochMs: 0,
      credit,
    });
    if (!added.ok) throw new Error('not stored');
    const named = 'Trial model. Data: the trial office. Terms: any use.';
    expect(await html()).toContain(`<small class="forecast-line">${named}</small>`);
    await send('/forecast/files', [
      ['version', await version()],
      ['use', `store:${added.value.hash}`],
    ]);
    expect(await html()).toContain(`<p class="forecast-attribution">${named}</p>`);
  });

  it('removing: only what the passage is not planned with', async () => {
    const hash = await stored('fetched.grib2', control);
    await send('/forecast/files', [
      ['version', await version()],
      ['use', `store:${hash}`],
    ]);
    expect((await send('/forecast/remove', [['hash', hash]])).status).toBe(409);
    await send('/forecast/files', [
      ['version', await version()],
      ['use', 'demo-control.grib2'],
    ]);
    expect((await send('/forecast/remove', [['hash', hash]])).status).toBe(303);
    expect(await text()).not.toContain('fetched.grib2');
  });
});

describe('getting a forecast', () => {
  let source: Server | null = null;
  afterEach(() => source?.close().closeAllConnections());

  async function served(octets: Uint8Array): Promise<string> {
    const answering = createServer((_, response) => {
      response.writeHead(200, { 'Content-Type': 'application/octet-stream', 'Content-Length': octets.length });
      response.end(octets);
    });
    source = answering;
    await new Promise<void>((settle) => answering.listen(0, '127.0.0.1', settle));
    return `http://127.0.0.1:${(answering.address() as AddressInfo).port}/fair-winds.grib2`;
  }

  const asked = (address: string, button: string): (readonly [string, string])[] => [
    ['source', 'address'],
    ['address', address],
    ['do', button],
  ];

  it('an address of one’s own: it comes, is found good, and can be planned with', async () => {
    const address = await served(control);
    expect(await send('/forecast/fetch', asked(address, 'fetch'))).toMatchObject({ status: 303 });
    await expect.poll(text, { timeout: 8000 }).toContain('fair-winds.grib2 is here');
    expect(await text()).toMatch(/1\.2 MB, \d+ fields: wind at 10 m/);
    expect(await html()).toContain('Plan with this alone');
  });

  it('a page instead of a forecast: refused with the reason, and nothing is kept', async () => {
    const address = await served(new TextEncoder().encode('<html>Please log in</html>'));
    await send('/forecast/fetch', asked(address, 'fetch'));
    await expect.poll(text, { timeout: 8000 }).toContain('fair-winds.grib2 did not come');
    expect(server.kept.store.forecasts.list()).toEqual({ ok: true, value: [] });
  });

  it('how much it would be: said, and nothing is fetched', async () => {
    const address = await served(control);
    const answer = await send('/forecast/fetch', asked(address, 'estimate'));
    expect(answer.status).toBe(200);
    expect(answer.text).toMatch(/It is 1\.2 MB in one file: 1 h 8 min over a satellite line/);
    expect(server.kept.forecasts.fetchStanding()).toBeNull();
  });

  it.each([
    ['no web address', asked('ftp://example.org/a.grib2', 'fetch'), 'source'],
    ['a rate that is none', [...asked('http://127.0.0.1:1/a', 'fetch'), ['rate', 'fast'] as const], 'is no rate'],
    ['an unknown source', [['source', 'nowhere'] as const, ['do', 'fetch'] as const], 'There is no source'],
    ['an unreadable run', [['source', 'gfs'] as const, ['cycle', 'soon'] as const, ['do', 'fetch'] as const], ''],
  ])('%s: refused at the form, with what was entered', async (_, fields, said) => {
    const answer = await send('/forecast/fetch', fields);
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(said);
  });

  it('the terms of every source can be read', async () => {
    const page = await text();
    expect(server.kept.forecasts.sources.length).toBeGreaterThan(3);
    for (const { licence } of server.kept.forecasts.sources) expect(page).toContain(licence);
  });
});
