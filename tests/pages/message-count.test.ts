/** How much a message would fill, counted before it is written, and the copying of its parts. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { smsLength } from '../../lib/message/index.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const PLAN = { kind: 'plan', length: 'sms', sender: 'sh', detail: 'full', hours: '48', observations: '1' };

const html = async (path: string): Promise<string> => (await fetch(server.url + path)).text();

/** The form of the page, filled in and sent. */
async function sent(
  path: string,
  fields: Readonly<Record<string, string>>,
  headers: Readonly<Record<string, string>> = {},
): Promise<string> {
  const { version = '', token = '' } = fieldsOf(await html('/messages'));
  const body = new URLSearchParams({ version, token, ...PLAN, ...fields });
  return (await fetch(server.url + path, { method: 'POST', body, headers })).text();
}

/** The parts of a message as its page shows them. */
async function parts(number: number): Promise<readonly string[]> {
  const page = await html(`/messages/${number}`);
  return [...page.matchAll(/<textarea id="part-\d+"[^>]*>([^<]*)</g)].map(([, text = '']) => text);
}

describe('counting', () => {
  const count = (fields: Readonly<Record<string, string>>, headers: Readonly<Record<string, string>> = {}) =>
    sent('/messages/count', fields, headers);
  const live = { 'HX-Request-Type': 'partial' };

  it('the button: the page again with as many parts as are written afterwards, and nothing kept', async () => {
    const page = await count({ note: 'All well' });
    const told = /It would be (\d+) parts of at most 160 septets, (\d+) in all\./.exec(textOf(page));
    expect(fieldsOf(page)['note']).toBe('All well');
    expect(textOf(page)).toContain('The list 0 messages');
    await sent('/messages/write', { note: 'All well' });
    const texts = await parts(1);
    // 3GPP TS 23.038, 6.2.1: septets of the default alphabet.
    const septetCount = texts.reduce((sum, text) => sum + smsLength(text).unitCount, 0);
    expect(told?.slice(1)).toEqual([String(texts.length), String(septetCount)]);
    expect(textOf(await html('/messages/1'))).toContain('P.SH.1.');
  });

  it('while it is written: the count alone, longer by what is added', async () => {
    const of = async (note: string): Promise<number> => {
      const part = await count({ length: 'satellite', note }, live);
      expect(part).toMatch(/^<div id="message-count"/);
      return Number(/, (\d+) in all/.exec(part)?.[1]);
    };
    expect((await of('All well and dry')) - (await of('All well'))).toBeGreaterThanOrEqual(8);
  });

  it('no sender yet: counted with the longest, and said; a length that is none: why it cannot be counted', async () => {
    expect(textOf(await count({ sender: '' }, live))).toContain('Counted with a sender of four letters.');
    const wrong = textOf(await count({ length: 'other', limit: '12' }, live));
    expect(wrong).toMatch(/It cannot be counted as it stands\. .*a whole number from 80/);
  });

  it('a digest: asked for by the button alone', async () => {
    expect(textOf(await count({ kind: 'digest' }, live))).toContain('the button counts it');
    expect(textOf(await count({ kind: 'digest' }))).toMatch(/It would be \d+ parts/);
  });

  it('a message to be sent: each part can be copied, and all of them', async () => {
    await sent('/messages/write', {});
    const page = await html('/messages/1');
    const texts = await parts(1);
    const all = texts.map((_, i) => `part-${i + 1}`).join(' ');
    expect(page).toContain('data-copy="part-2"');
    expect(page).toContain(`data-copy="${all}"`);
    // Shown by the script alone.
    expect([...page.matchAll(/<button[^>]*data-copy[^>]*>/g)].every(([tag]) => / hidden/.test(tag))).toBe(true);
  });
});
