/** Messages over HTTP, with plain forms, as a browser without script sends them. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { smsLength } from '../../lib/message/index.ts';
import { demoText } from './test-documents.ts';
import { testServer, type TestServer } from './test-server.ts';

const KEY = new TextEncoder().encode('an invented key of many letters');

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const html = async (path: string, at = server): Promise<string> => (await fetch(at.url + path)).text();
const decoded = (text: string): string =>
  text.replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&amp;', '&').replaceAll('&gt;', '>');
const textOf = (page: string): string => decoded(page.replaceAll(/<[^>]*>/g, ' ')).replaceAll(/\s+/g, ' ');
const post = (path: string, fields: Readonly<Record<string, string>>, at = server): Promise<Response> =>
  fetch(at.url + path, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' });
const valueIn = (page: string, name: string): string =>
  decoded(new RegExp(`name="${name}"[^>]*value="([^"]*)"`).exec(page)?.[1] ?? '');

const PLAN = { kind: 'plan', length: 'sms', sender: 'sh', detail: 'full', hours: '48', observations: '1' };

/** The form of the page, filled in and sent. */
async function write(fields: Readonly<Record<string, string>>, at = server): Promise<Response> {
  const page = await html('/messages', at);
  return post(
    '/messages/write',
    { version: valueIn(page, 'version'), token: valueIn(page, 'token'), ...PLAN, ...fields },
    at,
  );
}

/** The parts of a message as its page shows them. */
async function parts(number: number, at = server): Promise<readonly string[]> {
  const page = await html(`/messages/${number}`, at);
  return [...page.matchAll(/<textarea id="part-\d+"[^>]*>([^<]*)</g)].map(([, text = '']) => decoded(text));
}

const read = async (text: string, fields: Readonly<Record<string, string>> = {}, at = server): Promise<string> =>
  (await post('/messages/read', { text, ...fields }, at)).text();

/** The form of the first message found, pressed. */
const take = (page: string, act: string, at = server): Promise<Response> =>
  post(
    '/messages/take',
    {
      version: valueIn(page, 'version'),
      text: valueIn(page, 'text'),
      fingerprint: valueIn(page, 'fingerprint'),
      unsigned: valueIn(page, 'unsigned'),
      do: act,
    },
    at,
  );

/** Another boat or the shore, with a log of its own, writes a message; its parts. */
async function elsewhere(
  fields: Readonly<Record<string, string>>,
  of: { readonly keyOctets?: Uint8Array; readonly log?: readonly Readonly<Record<string, string>>[] } = {},
): Promise<readonly string[]> {
  const other = await testServer(undefined, undefined, of.keyOctets ?? null);
  try {
    for (const entry of of.log ?? []) await logged(entry, other);
    const answer = await write(fields, other);
    if (answer.status !== 303) throw new Error(textOf(await answer.text()));
    return await parts(1, other);
  } finally {
    await other.close();
  }
}

async function logged(entry: Readonly<Record<string, string>>, at: TestServer): Promise<void> {
  const { kind = 'note', ...fields } = entry;
  const page = await html(`/log/new/${kind}`, at);
  const form = { version: valueIn(page, 'version'), token: valueIn(page, 'token') };
  await post(`/log/new/${kind}`, { ...form, clock: 'utc', ...fields }, at);
}

const SEEN = {
  kind: 'observation',
  atUtc: '2026-05-27T16:00',
  position: '36 18.2 S 178 06.0 E',
  'wind.kind': 'true',
  'wind.speedKn': '18',
  'wind.fromDegTrue': '250',
  pressureHpa: '1009.5',
};
const NOTED = { kind: 'note', atUtc: '2026-05-27T16:10', note: 'Sail seen to the south' };
const entries = async (): Promise<readonly string[]> =>
  (await html('/log.jsonl')).split('\n').filter((line) => line !== '');

describe('writing', () => {
  it('a plan for the telephone: parts of at most 160 septets, its words, a plain line, and its place in the list', async () => {
    const answer = await write({});
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/messages/1?written=yes']);
    const texts = await parts(1);
    expect(texts.length).toBeGreaterThan(1);
    // 3GPP TS 23.038, 6.2.1: all of it in the default alphabet; TS 23.040: 160 septets a message.
    for (const text of texts) expect(smsLength(text)).toMatchObject({ encoding: 'gsm-7', segmentCount: 1 });
    const page = textOf(await html('/messages/1?written=yes'));
    expect(page).toContain('Nothing has been sent');
    expect(page).toContain('its name in every part is P.SH.1.');
    expect(page).toContain('Not signed: no key was on board.');
    expect(page).toMatch(/Part 1 of \d+ .* 1[56]\d of 160 septets/);
    expect(page).toContain('Advice, not permission');
    expect(page).toMatch(/Plain line .*Plan of \w+ 2\d May/);
    expect(textOf(await html('/messages'))).toMatch(/The list 1 message .*Plan 1 from SH message 1, written here/);
  });

  it('looked at: no number is used up; written again from another form: the next one', async () => {
    await html('/messages');
    await html('/messages/1');
    await write({});
    expect((await write({})).headers.get('location')).toBe('/messages/2?written=yes');
    expect(textOf(await html('/messages/2'))).toContain('P.SH.2.');
  });

  it('pressed twice: one message, one number; changed and sent from the same form: another', async () => {
    const page = await html('/messages');
    const form = { version: valueIn(page, 'version'), token: valueIn(page, 'token'), ...PLAN };
    const answers = await Promise.all([post('/messages/write', form), post('/messages/write', form)]);
    expect(answers.map((answer) => answer.headers.get('location'))).toEqual(Array(2).fill('/messages/1?written=yes'));
    const changed = await post('/messages/write', { ...form, note: 'All well' });
    expect(changed.headers.get('location')).toBe('/messages/2?written=yes');
  });

  it('another kind, another sender: counted for themselves; the form keeps sender and length', async () => {
    await write({});
    await write({ kind: 'digest', length: 'satellite' });
    await write({ sender: 'LW' });
    expect(textOf(await html('/messages/2'))).toContain('D.SH.1.');
    expect(textOf(await html('/messages/3'))).toContain('P.LW.1.');
    const page = await html('/messages');
    expect([valueIn(page, 'sender'), /value="sms" checked/.test(page)]).toEqual(['LW', true]);
  });

  it('a digest of 48 h: two bursts of 270 octets, and the weather in words', async () => {
    await write({ kind: 'digest', length: 'satellite' });
    const texts = await parts(1);
    expect(texts).toHaveLength(2);
    for (const text of texts) expect(new TextEncoder().encode(text).length).toBeLessThanOrEqual(270);
    const page = textOf(await html('/messages/1'));
    expect(page).toContain('Weather along the way');
    expect(page).toMatch(/wind from \d{3} \d+ kn/);
  });

  it('a digest in fewer parts than it needs, no sender, a strange length: said at the inputs, no number used', async () => {
    const answer = await write({ kind: 'digest', length: 'sms', parts: '1' });
    const page = await answer.text();
    expect([answer.status, page]).toEqual([422, expect.stringMatching(/name="parts"[^>]*aria-invalid/)]);
    expect(textOf(page)).toContain('Its hours do not fit into one part of that length.');
    const other = await (await write({ sender: 'north', length: 'other', limit: '12', counter: 'x' })).text();
    for (const name of ['sender', 'limit', 'counter'])
      expect(other).toMatch(new RegExp(`name="${name}"[^>]*aria-invalid`));
    expect((await write({ kind: 'digest' })).headers.get('location')).toBe('/messages/1?written=yes');
    expect(textOf(await html('/messages/1'))).toContain('D.SH.1.');
  });

  it('a counter of its own: from there on, never back', async () => {
    await write({ counter: '41' });
    await write({});
    expect(textOf(await html('/messages/2'))).toContain('P.SH.42.');
    const back = await write({ counter: '42' });
    expect([back.status, textOf(await back.text())]).toEqual([422, expect.stringContaining('Counter 42 is used up')]);
  });

  it('a report: of the log; from an empty one: refused with the reason', async () => {
    const empty = await write({ kind: 'report' });
    expect([empty.status, textOf(await empty.text())]).toEqual([422, expect.stringContaining('The log is empty')]);
    await logged(SEEN, server);
    expect((await write({ kind: 'report' })).status).toBe(303);
    expect(textOf(await html('/messages/1'))).toContain('18 kn');
  });

  it('a form without its hidden fields: 400, nothing written', async () => {
    expect((await post('/messages/write', PLAN)).status).toBe(400);
    expect(textOf(await html('/messages'))).toContain('The list 0 messages');
  });
});

describe('reading', () => {
  it('a mail with the parts in any order, quoted and doubled: whole, in plain words, and nothing kept', async () => {
    const [first = '', second = '', ...rest] = await elsewhere({});
    const mail = `Hello,\n> ${second}\n> ${first}\n${rest.toReversed().join('\n')}\n${second}\nFair winds`;
    const page = textOf(await read(mail));
    expect(page).toContain('One message read. Nothing of it is taken over yet.');
    expect(page).toContain('Plan 1 from SH');
    expect(page).toContain('One part came more than once.');
    expect(page).toContain('Not signed: anybody may have written it.');
    expect(page).toContain('The list 0 messages');
  });

  it('a part missing, a part damaged: named, with what to ask for; the text stays in the box', async () => {
    const texts = await elsewhere({});
    const missing = await read(texts.slice(1).join('\n'));
    expect(textOf(missing)).toMatch(/Plan 1 from SH \(P\.SH\.1\): it is not used .*Ask: send .* again/);
    expect(missing).toContain(decoded(texts[1] ?? 'no second part'));
    const [first = '', ...rest] = texts;
    const broken = textOf(await read([first.replace(/A/, 'B'), ...rest].join('\n')));
    expect(broken).toContain('is damaged');
    expect(broken).not.toContain('What it says');
  });

  it('nothing in it; letters made small: said, and read as capitals once that is ticked', async () => {
    expect(textOf(await read('Fair winds'))).toContain('There is no message in this text');
    const small = (await elsewhere({})).join('\n').toLowerCase();
    expect(textOf(await read(small))).toContain('tick below that it is read as capitals');
    expect(textOf(await read(small, { capitals: 'yes' }))).toContain('One message read');
  });

  it('markup in a text: shown as text', async () => {
    expect(await read('<script>alert(1)</script>')).not.toContain('<script>alert');
  });
});

describe('with a key on board', () => {
  let keyed: TestServer;
  beforeEach(async () => {
    keyed = await testServer(undefined, undefined, KEY);
  });
  afterEach(() => keyed.close());

  it('signed with it: verified; with another: refused; not signed: refused until that is ticked', async () => {
    const verified = (await elsewhere({}, { keyOctets: KEY })).join('\n');
    expect(textOf(await read(verified, {}, keyed))).toContain('the signature fits the key on board');
    const other = (await elsewhere({}, { keyOctets: new TextEncoder().encode('another key of many letters') })).join(
      '\n',
    );
    expect(textOf(await read(other, { unsigned: 'yes' }, keyed))).toContain('does not fit this key');
    const unsigned = (await elsewhere({})).join('\n');
    const refused = textOf(await read(unsigned, {}, keyed));
    expect(refused).toContain('is not signed');
    expect(refused).toContain('To read it all the same, tick that below.');
    expect(refused).not.toContain('What it says');
    expect(textOf(await read(unsigned, { unsigned: 'yes' }, keyed))).toContain(
      'Not signed: anybody may have written it.',
    );
  });

  it('no key on board: a signed message is read and said not to be verified', async () => {
    const signed = (await elsewhere({}, { keyOctets: KEY })).join('\n');
    expect(textOf(await read(signed))).toContain('not verified: no key is on board');
  });

  it('an unsigned message with a high number, taken: does not shut out verified ones', async () => {
    const forged = (await elsewhere({ counter: '999999' })).join('\n');
    await take(await read(forged, { unsigned: 'yes' }, keyed), 'keep', keyed);
    const page = await read((await elsewhere({}, { keyOctets: KEY })).join('\n'), {}, keyed);
    expect(textOf(page)).not.toContain('taken before: counter');
    expect((await take(page, 'keep', keyed)).headers.get('location')).toBe('/messages/2?taken=keep');
  });

  it('the key itself: on no page', async () => {
    await write({}, keyed);
    const pages = await Promise.all(['/messages', '/messages/1', '/messages/key'].map((path) => html(path, keyed)));
    expect(pages.join('')).not.toContain('an invented key');
    expect(textOf(pages[1] ?? '')).toContain('Signed with the key on board.');
  });
});

describe('taking over', () => {
  it('a plan: kept once, held against the plan here; then an older one is told', async () => {
    const older = (await elsewhere({ counter: '6' })).join('\n');
    const page = await read((await elsewhere({ counter: '7' })).join('\n'));
    expect(textOf(page)).toContain('Against the plan here');
    const answers = [await take(page, 'keep'), await take(page, 'keep')];
    expect(answers.map((answer) => answer.headers.get('location'))).toEqual(Array(2).fill('/messages/1?taken=keep'));
    expect(textOf(await html('/messages/1?taken=keep'))).toContain('It is kept as message 1 of the list.');
    const again = textOf(await read(valueIn(page, 'text')));
    expect(again).toContain('It was taken before: it is message 1 of the list.');
    const late = await read(older);
    expect(textOf(late)).toContain('A newer plan from SH was taken before: counter 7.');
    expect(late).not.toContain('Keep it in the list');
    const version = valueIn(page, 'version');
    const fingerprint = valueIn(page, 'fingerprint');
    expect((await post('/messages/take', { version, text: older, fingerprint, do: 'keep' })).status).toBe(400);
  });

  it('a report: its entries shown, written once, told when it comes again', async () => {
    const text = (await elsewhere({ kind: 'report', sender: 'LW' }, { log: [SEEN, NOTED] })).join('\n');
    const page = await read(text);
    expect(textOf(page)).toContain('Write 2 entries into the log');
    expect(textOf(page)).toContain('Thu 28 May 04:00 Wed 16:00 UTC');
    expect(await entries()).toEqual([]);
    const answers = await Promise.all([take(page, 'log'), take(page, 'log')]);
    expect(answers.map((answer) => answer.status)).toEqual([303, 303]);
    expect((await entries()).map((line): unknown => JSON.parse(line))).toMatchObject([
      { kind: 'observation', atUtc: '2026-05-27T16:00Z', wind: { speedKn: 18, fromDegTrue: 250 }, pressureHpa: 1009.5 },
      { kind: 'note' },
    ]);
    expect((await entries())[1]).toMatch(/sail seen to the south/i);
    expect(server.pressed).toContain('renew');
    const again = textOf(await read(text));
    expect(again).toContain('All 2 of its entries are in the log already.');
    expect(await entries()).toHaveLength(2);
  });

  it('a report with a job this passage does not have: that entry is told, the others are written', async () => {
    const text = (
      await elsewhere(
        { kind: 'report', sender: 'LW' },
        { log: [SEEN, { kind: 'job?job=oil', event: 'done', atUtc: '2026-05-27T15:00' }] },
      )
    ).join('\n');
    const small = await testServer(undefined, withOneJob('drop'));
    try {
      const found = await read(text, {}, small);
      expect(textOf(found)).toContain('This cannot be written into the log here');
      expect((await take(found, 'log', small)).headers.get('location')).toBe('/messages/1?taken=log&count=1');
    } finally {
      await small.close();
    }
  });

  it('a digest: becomes the forecast of the passage, once, and is said to be', async () => {
    const page = await read((await elsewhere({ kind: 'digest', length: 'satellite' })).join('\n'));
    const answers = [await take(page, 'plan-with'), await take(page, 'plan-with')];
    expect(answers.map((answer) => answer.headers.get('location'))).toEqual(
      Array(2).fill('/messages/1?taken=plan-with'),
    );
    const forecast = textOf(await html('/forecast'));
    expect(forecast).toContain('digest-2026-05-27T1800Z.txt');
    const document = await server.kept.documents.passageDocument();
    expect(document.ok ? document.value.passage.forecasts : []).toEqual([
      expect.stringMatching(/^store:[0-9a-f]{64}$/),
    ]);
    expect(await html('/messages/1')).not.toContain('Plan with this digest');
  });

  it('a digest out of the list, after another forecast was chosen: the button is there again', async () => {
    const page = await read((await elsewhere({ kind: 'digest', length: 'satellite' })).join('\n'));
    await take(page, 'plan-with');
    const files = await html('/forecast');
    const version = valueIn(files, 'version');
    await post('/forecast/files', { version, use: 'demo-control.grib2' });
    const one = await html('/messages/1');
    expect(one).toContain('Plan with this digest');
    const answer = await post('/messages/1/take', { version: valueIn(one, 'version'), do: 'plan-with' });
    expect(answer.headers.get('location')).toBe('/messages/1?taken=plan-with');
  });

  it('what the button does not fit, what was written here, what is not there: refused', async () => {
    const page = await read((await elsewhere({})).join('\n'));
    expect((await take(page, 'log')).status).toBe(400);
    await write({});
    expect((await post('/messages/1/take', { version: '1.1', do: 'keep' })).status).toBe(400);
    expect((await fetch(`${server.url}/messages/9`)).status).toBe(404);
    expect((await fetch(`${server.url}/messages/x`)).status).toBe(404);
  });
});

describe('the key to the fields', () => {
  it('a page of its own, to be printed', async () => {
    const page = textOf(await html('/messages/key'));
    expect(page).toContain('EVERY PART');
    expect(page).toContain('BODY OF A PLAN OR REPORT');
  });
});

/** The demo with one job left, so that a report from the demo tells of one it does not have. */
function withOneJob(id: string): string {
  const demo = JSON.parse(demoText) as { readonly jobs: readonly { readonly id: string }[] };
  return JSON.stringify({ ...demo, jobs: demo.jobs.filter((job) => job.id === id) });
}
