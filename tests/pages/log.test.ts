/** The log over HTTP, with plain forms, as a browser without script sends them. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { fieldsOf, textOf } from './sent-forms.ts';
import { demoText } from './test-documents.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const html = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
const text = async (path: string): Promise<string> => textOf(await html(path));

async function post(path: string, fields: Readonly<Record<string, string>>): Promise<Response> {
  return fetch(server.url + path, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' });
}
/** The form of a page, filled in and sent. */
const send = async (path: string, fields: Readonly<Record<string, string>>): Promise<Response> =>
  post(path, { ...fieldsOf(await html(path)), ...fields });

const entries = async (): Promise<readonly unknown[]> =>
  (await html('/log.jsonl')).split('\n').flatMap((line): unknown[] => (line === '' ? [] : [JSON.parse(line)]));

const SEEN = { position: '36 18.2 S 178 06.0 E', 'wind.speedKn': '18', 'wind.fromDegTrue': '250' };
/** The clock of the demo is held at 2026-05-27T18:00Z, 06:00 of the next day on the ship. */
const NOW = '2026-05-27T18:00Z';

describe('an observation', () => {
  it('place and true wind: written as now, and told with both clocks and the weekday', async () => {
    const answer = await send('/log/new/observation', { ...SEEN, pressureHpa: '1009,5', rain: 'no', sky: 'overcast' });
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/log?logged=1']);
    expect(await entries()).toEqual([
      {
        kind: 'observation',
        atUtc: NOW,
        lat: -36.30333,
        lon: 178.1,
        wind: { kind: 'true', speedKn: 18, fromDegTrue: 250 },
        pressureHpa: 1009.5,
        sky: 'overcast',
        rain: false,
      },
    ]);
    const page = await text('/log?logged=1');
    expect(page).toContain('Thu 28 May 06:00 Wed 18:00 UTC');
    expect(page).toContain("36°18.2'S 178°06.0'E, wind 18 kn from 250° true, barometer 1009.5 hPa, overcast, dry.");
    expect(page).toContain('Written down Entry 1:');
  });

  it.each([
    ['-36.3, 178.1', -36.3, 178.1],
    ["36°18.0'S 178°06.0'E", -36.3, 178.1],
    ['S36-18 W178-30', -36.3, -178.5],
  ])('position "%s": %d, %d', async (position, lat, lon) => {
    await send('/log/new/observation', { position });
    expect(await entries()).toMatchObject([{ lat, lon }]);
  });

  it('apparent wind with all it needs: kept as the masthead showed it', async () => {
    await send('/log/new/observation', {
      'wind.kind': 'apparent',
      'wind.speedKn': '21',
      'wind.angleDeg': '-60',
      'wind.headingDegTrue': '85',
      'wind.boatSpeedKn': '6.2',
      gustKn: '26',
    });
    expect(await entries()).toMatchObject([
      { wind: { kind: 'apparent', speedKn: 21, angleDeg: -60, headingDegTrue: 85, boatSpeedKn: 6.2 }, gustKn: 26 },
    ]);
    // The next form begins with the kind of wind that was read last.
    expect(fieldsOf(await html('/log/new/observation'))['wind.kind']).toBe('apparent');
  });

  it('apparent wind without heading and speed, true wind with them: every problem at its input, and nothing is lost', async () => {
    const first = await send('/log/new/observation', { 'wind.kind': 'apparent', 'wind.speedKn': '21', note: 'gybed' });
    expect(first.status).toBe(422);
    const page = await first.text();
    expect(page.match(/aria-invalid/g)).toHaveLength(3);
    expect(textOf(page)).toContain('It is missing: the heading.');
    expect(fieldsOf(page)).toMatchObject({ 'wind.kind': 'apparent', 'wind.speedKn': '21', note: 'gybed' });
    const second = await send('/log/new/observation', { ...SEEN, 'wind.headingDegTrue': '85' });
    expect([second.status, textOf(await second.text())]).toEqual([
      422,
      expect.stringContaining('It does not belong to a true wind: the heading.'),
    ]);
    expect(await entries()).toEqual([]);
  });

  it('nothing seen, a strange position, a wind that is none, a gust below it: all said, 422', async () => {
    expect(await (await send('/log/new/observation', {})).text()).toContain('nothing but its time');
    const answer = await send('/log/new/observation', { position: 'off Cape', 'wind.speedKn': 'fresh', airC: '99' });
    const page = textOf(await answer.text());
    expect(answer.status).toBe(422);
    expect(page).toContain('"off Cape" is not a position.');
    expect(page).toContain('"fresh" does not fit.');
    expect(page).toContain('Expected: at most 60.');
    const gust = await send('/log/new/observation', { ...SEEN, gustKn: '12' });
    expect(textOf(await gust.text())).toContain('The gust of 12 kn is less than the wind of 18 kn.');
  });
});

describe('times', () => {
  it.each([
    ['ship', '2026-05-28T03:10', '2026-05-27T15:10Z'],
    ['utc', '2026-05-27T15:10', '2026-05-27T15:10Z'],
  ])('on the %s clock %s: %s', async (clock, atUtc, expected) => {
    await send('/log/new/note', { note: 'Squalls to the south', clock, atUtc });
    expect(await entries()).toMatchObject([{ atUtc: expected }]);
  });

  it('still to come, as ship’s time taken for UTC is: refused at its input', async () => {
    const answer = await send('/log/new/note', { note: 'x', clock: 'utc', atUtc: '2026-05-28T03:10' });
    const page = await answer.text();
    expect([answer.status, page]).toEqual([422, expect.stringMatching(/name="atUtc"[^>]*aria-invalid/)]);
    expect(textOf(page)).toContain('2026-05-28T03:10Z is still to come');
  });

  it('no instant at all: refused, the text stays', async () => {
    const answer = await send('/log/new/note', { note: 'x', atUtc: 'yesterday' });
    expect([answer.status, fieldsOf(await answer.text())['atUtc']]).toEqual([422, 'yesterday']);
  });
});

describe('a sleep', () => {
  it('from and to: its length, and how long in the last day', async () => {
    await send('/log/new/sleep', { clock: 'utc', atUtc: '2026-05-27T12:00', endUtc: '2026-05-27T15:10' });
    expect(await entries()).toEqual([{ kind: 'sleep', atUtc: '2026-05-27T12:00Z', endUtc: '2026-05-27T15:10Z' }]);
    const page = await text('/log');
    expect(page).toContain('Asleep 3 h 10 min, up again 03:10.');
    expect(page).toContain('In the bunk in the last 24 h: 3 h 10 min.');
  });

  it('up again left empty: now; when one lay down must be said', async () => {
    await send('/log/new/sleep', { clock: 'utc', atUtc: '2026-05-27T16:00' });
    expect(await entries()).toMatchObject([{ endUtc: NOW }]);
    const answer = await send('/log/new/sleep', { endUtc: '2026-05-28T05:00' });
    expect([answer.status, await answer.text()]).toEqual([422, expect.stringMatching(/name="atUtc"[^>]*aria-invalid/)]);
  });

  it('ends before it begins: refused where it ends', async () => {
    const sleep = { clock: 'utc', atUtc: '2026-05-27T15:00', endUtc: '2026-05-27T12:00' };
    const answer = await send('/log/new/sleep', sleep);
    expect(await answer.text()).toMatch(/name="endUtc"[^>]*aria-invalid/);
  });
});

describe('a job', () => {
  const tap = async (job: string, event: string, fields: Record<string, string> = {}): Promise<Response> => {
    const shown = fieldsOf(await html('/log'));
    return post('/log/tap', { version: shown['version'] ?? '', token: shown['token'] ?? '', job, event, ...fields });
  };

  it('its buttons: started, safe point, done; what stands of it is told', async () => {
    expect((await tap('oil', 'started')).headers.get('location')).toBe('/log?logged=1');
    expect(await text('/log')).toContain('under way since Thu 06:00, no step finished');
    await tap('oil', 'done');
    expect(await entries()).toMatchObject([
      { kind: 'job', jobId: 'oil', event: 'started', atUtc: NOW },
      { kind: 'job', jobId: 'oil', event: 'done' },
    ]);
    expect(await text('/log')).toContain('Done: Oil the seized gooseneck bolt (Thu 06:00).');
  });

  it('pressed twice: written once', async () => {
    const token = 'of-one-page';
    await tap('oil', 'started', { token });
    expect((await tap('oil', 'started', { token })).headers.get('location')).toBe('/log?logged=1');
    expect(await entries()).toHaveLength(1);
  });

  it('another button of the same page: written too', async () => {
    const token = 'of-one-page';
    await tap('oil', 'started', { token });
    await tap('oil', 'stopped', { token });
    expect(await entries()).toMatchObject([{ event: 'started' }, { event: 'stopped' }]);
  });

  it('with minutes, step and hour: all of it is kept', async () => {
    expect(await text('/log/new/job')).toContain('Which job?');
    const page = await html('/log/new/job?job=stitch&event=safe-point');
    const steps = [...page.matchAll(/<option value="([^"]+)"/g)].map(([, id]) => id);
    const stepId =
      steps.find((id) => id !== undefined && !['started', 'safe-point', 'stopped', 'done'].includes(id)) ?? '';
    await send('/log/new/job?job=stitch&event=safe-point', {
      stepId,
      workedMin: '95',
      clock: 'utc',
      atUtc: '2026-05-27T17:00',
    });
    expect(await entries()).toEqual([
      { kind: 'job', atUtc: '2026-05-27T17:00Z', jobId: 'stitch', event: 'safe-point', stepId, workedMin: 95 },
    ]);
  });

  it('minutes of a start, an unknown event, an unknown job: refused', async () => {
    const answer = await send('/log/new/job?job=oil', { event: 'started', workedMin: '5' });
    expect([answer.status, await answer.text()]).toEqual([
      422,
      expect.stringMatching(/name="workedMin"[^>]*aria-invalid/),
    ]);
    expect((await tap('oil', 'lost')).status).toBe(400);
    expect((await tap('oyl', 'done')).status).toBe(422);
    expect((await fetch(`${server.url}/log/new/job?job=oyl`)).status).toBe(404);
    expect(await entries()).toEqual([]);
  });
});

describe('sent twice', () => {
  it('the same form: one entry, and the answer of the first', async () => {
    const form = { ...fieldsOf(await html('/log/new/note')), note: 'Sail seen, bearing 210' };
    const answers = await Promise.all([post('/log/new/note', form), post('/log/new/note', form)]);
    expect(answers.map((answer) => answer.headers.get('location'))).toEqual(['/log?logged=1', '/log?logged=1']);
    expect(await entries()).toHaveLength(1);
  });

  it('the same form changed, out of the browser’s store: a second entry', async () => {
    const form = fieldsOf(await html('/log/new/note'));
    await post('/log/new/note', { ...form, note: 'First' });
    await post('/log/new/note', { ...form, note: 'Second' });
    expect(await entries()).toMatchObject([{ note: 'First' }, { note: 'Second' }]);
  });

  it('a form without its hidden fields: 400, nothing written', async () => {
    expect((await post('/log/new/note', { note: 'x' })).status).toBe(400);
    expect((await post('/log/new/note', { note: 'x', version: '1.0' })).status).toBe(400);
    expect(await entries()).toEqual([]);
  });
});

describe('the plan', () => {
  it('is made anew of every entry', async () => {
    await send('/log/new/observation', SEEN);
    expect(server.pressed).toEqual(['renew']);
  });

  it('an entry for another passage than the one shown: 409, written in neither', async () => {
    const form = { ...fieldsOf(await html('/log/new/note')), note: 'x', version: '7.0' };
    const answer = await post('/log/new/note', form);
    const page = await answer.text();
    expect([answer.status, fieldsOf(page)['note']]).toEqual([409, 'x']);
    expect(textOf(page)).toContain('Another passage is shown meanwhile: passage 1');
    expect(await entries()).toEqual([]);
  });
});

describe('the page', () => {
  it('an empty log: says so, and names what it is for', async () => {
    expect(await text('/log')).toContain('Nothing yet. What is written here moves the plan');
  });

  it('many entries: sixty to a page, the newest first, all reachable', async () => {
    const { store } = server.kept;
    for (let i = 0; i < 130; i += 1) {
      const atUtc = new Date(Date.UTC(2026, 4, 20) + i * 3_600_000).toISOString();
      const json = JSON.stringify({ kind: 'note', atUtc, note: `hour ${i}` });
      store.log.append({ passageNumber: 1, kind: 'note', atEpochMs: Date.parse(atUtc), json, writtenAtEpochMs: 0 });
    }
    const first = await text('/log');
    expect(first).toContain('130 entries');
    expect(first.indexOf('hour 129')).toBeLessThan(first.indexOf('hour 128'));
    expect(first).not.toContain('hour 69 ');
    const last = await text('/log?from=120');
    expect([last.includes('hour 0 '), last.includes('Older entries'), last.includes('Newer entries')]).toEqual([
      true,
      false,
      true,
    ]);
  });

  it('words of a reader: text, never markup', async () => {
    await send('/log/new/note', { note: '<img src=x onerror=alert(1)> & so on' });
    const page = await html('/log');
    expect(page).not.toContain('<img src=x');
    expect(textOf(page)).toContain('& so on');
  });

  it('as a table: a header and a line for each entry, RFC 4180', async () => {
    await send('/log/new/note', { note: 'a "quoted", word' });
    const answer = await fetch(`${server.url}/log.csv`);
    const lines = (await answer.text()).split('\r\n');
    expect(answer.headers.get('content-disposition')).toContain('log.csv');
    expect([lines[0]?.startsWith('number,kind,at_utc'), lines[1]?.includes('"a ""quoted"", word"')]).toEqual([
      true,
      true,
    ]);
  });

  it('from a page of others: 403, nothing written', async () => {
    const form = new URLSearchParams({ ...fieldsOf(await html('/log/new/note')), note: 'x' });
    const headers = { 'Content-Type': 'application/x-www-form-urlencoded', Origin: 'http://evil.example' };
    const answer = await fetch(`${server.url}/log/new/note`, { method: 'POST', body: form, headers });
    expect([answer.status, await entries()]).toEqual([403, []]);
  });

  it('no jobs in the passage: the log takes all else', async () => {
    await server.close();
    server = await testServer(undefined, JSON.stringify({ ...(JSON.parse(demoText) as object), jobs: [] }));
    expect(await text('/log')).toContain('No job is under way');
    expect(await text('/log/new/job')).toContain('No job of this passage is open.');
    expect((await send('/log/new/note', { note: 'fine' })).status).toBe(303);
  });

  it('written, then the server started anew: everything is there', async () => {
    await send('/log/new/note', { note: 'kept' });
    const kept = server.kept.restartedKeeping().log.passageLog();
    expect(kept.ok ? kept.value.entries.map(({ entry }) => entry) : kept).toMatchObject([{ note: 'kept' }]);
  });
});
