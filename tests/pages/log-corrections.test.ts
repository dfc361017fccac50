/** Entries of the log corrected and withdrawn over HTTP, with plain forms. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parseLog } from '../../lib/log/index.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
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

describe('corrected', () => {
  it('a figure: an entry of its own, the first stays beside it, what was not touched keeps its value', async () => {
    const at = { clock: 'utc', atUtc: '2026-05-27T15:00' };
    await send('/log/new/observation', { ...SEEN, position: '-36.123456, 178.123456', ...at });
    await send('/log/1', { 'wind.speedKn': '16' });
    expect(await entries()).toMatchObject([
      { lat: -36.12346, lon: 178.12346, wind: { speedKn: 18 } },
      {
        kind: 'correction',
        corrects: 1,
        by: { lat: -36.12346, lon: 178.12346, atUtc: '2026-05-27T15:00Z', wind: { speedKn: 16 } },
      },
    ]);
    const page = await text('/log');
    expect(page).toMatch(
      /wind 16 kn from 250° true\. entry 1 .*Corrected Thu 06:00, entry 2; before: Thu 03:00, .*wind 18 kn/,
    );
    expect(parseLog(await html('/log.jsonl'), 'log').ok).toBe(true);
  });

  it('nothing changed: nothing written', async () => {
    await send('/log/new/observation', SEEN);
    expect((await send('/log/1', {})).status).toBe(303);
    expect(await entries()).toHaveLength(1);
  });

  it('again: of the entry as it was first written; a correction itself has no form', async () => {
    await send('/log/new/note', { note: 'A' });
    await send('/log/1', { note: 'B' });
    await send('/log/1', { note: 'C' });
    expect(await entries()).toMatchObject([{}, { corrects: 1 }, { corrects: 1, by: { note: 'C' } }]);
    expect((await fetch(`${server.url}/log/2`)).status).toBe(404);
  });

  it('by another tab meanwhile: 409, what was entered stands in the form beside what is kept now', async () => {
    await send('/log/new/observation', SEEN);
    const old = fieldsOf(await html('/log/1'));
    await send('/log/1', { 'wind.speedKn': '16', seaHeightM: '2' });
    const answer = await post('/log/1', { ...old, 'wind.speedKn': '15' });
    const page = await answer.text();
    expect(answer.status).toBe(409);
    expect(fieldsOf(page)).toMatchObject({ 'wind.speedKn': '15', seaHeightM: '2' });
    expect(textOf(page)).toContain('Kept now: 16 kn');
    expect(await entries()).toHaveLength(2);
    // Sent again it is made to what is kept now.
    expect((await post('/log/1', fieldsOf(page))).status).toBe(303);
    expect(await entries()).toHaveLength(3);
  });
});

describe('withdrawn', () => {
  const withdraw = (number: number, version: string): Promise<Response> => post(`/log/${number}/withdraw`, { version });

  it('an entry: struck out, and kept; twice is once; saved again it holds again', async () => {
    await send('/log/new/note', { note: 'Land ho' });
    expect((await withdraw(1, '1.0')).status).toBe(303);
    expect((await withdraw(1, '1.0')).status).toBe(303);
    expect(await entries()).toEqual([
      { kind: 'note', atUtc: NOW, note: 'Land ho' },
      { kind: 'correction', atUtc: NOW, corrects: 1, by: null },
    ]);
    expect(await html('/log')).toContain('<s>Land ho</s>');
    expect(await text('/log/1')).toContain('This entry is withdrawn.');
    await send('/log/1', {});
    expect(await entries()).toHaveLength(3);
    expect(await html('/log')).not.toContain('<s>');
  });

  it('one that was corrected meanwhile: 409, and it holds', async () => {
    await send('/log/new/note', { note: 'A' });
    await send('/log/1', { note: 'B' });
    expect((await withdraw(1, '1.0')).status).toBe(409);
    expect((await withdraw(1, '1.2')).status).toBe(303);
  });

  it('an entry that is not there: 404', async () => {
    expect((await withdraw(9, '1.0')).status).toBe(404);
  });
});
