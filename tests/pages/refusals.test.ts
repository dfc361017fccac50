/** Refused forms: what is said, at which input, and where the reader is taken. WCAG 2.2, 3.3.1 and 3.3.3. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { fieldsOf, textOf } from './sent-forms.ts';
import { statusOf, testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const post = (to: string, body: URLSearchParams | FormData): Promise<Response> =>
  fetch(server.url + to, { method: 'POST', body, headers: { Origin: server.url }, redirect: 'manual' });
const get = async (at: string): Promise<string> => (await fetch(server.url + at)).text();
const tagOf = (page: string, name: string): string =>
  new RegExp(`<(?:input|textarea)[^>]*name="${name}"[^>]*>`).exec(page)?.[0] ?? '';
/** Text of the part an input is described by. */
const saidOf = (page: string, name: string): string => {
  const id = /aria-describedby="([^" ]*)"/.exec(tagOf(page, name))?.[1] ?? '-';
  return textOf(page.slice(page.indexOf(`id="${id}"`)).slice(0, 1500));
};

describe('error pages', () => {
  it('more than a form may hold: how much it was, how much is taken, what to do', async () => {
    const answer = await post('/log/new/note', new URLSearchParams({ note: 'x'.repeat(300_000) }));
    expect(answer.status).toBe(413);
    expect(textOf(await answer.text())).toContain(
      '300 kB were sent; this page takes 262 kB at once. Nothing was changed. Load the page again and send less',
    );
  });

  it('an address that cannot be read: what to do', async () => {
    const answer = await fetch(`${server.url}/jobs/%`);
    expect(answer.status).toBe(400);
    expect(textOf(await answer.text())).toContain('Choose the page from those above');
    expect(server.reported).toEqual([]);
  });

  it('a message of no number: no number of ours is told', async () => {
    const page = textOf(await get('/messages/first'));
    expect(page).toContain('This is no number of a message.');
    expect(page).not.toContain('-1');
  });

  it.each([
    ['another host', { Host: 'evil.example' }, 421],
    ['a page of others', { Origin: 'http://evil.example' }, 403],
  ] as const)('%s: refused', async (_, headers, status) => {
    expect(await statusOf(`${server.url}/style`, { method: 'POST', headers: { ...headers } })).toBe(status);
  });
});

describe('refused forms', () => {
  it('a job as text that is no JSON: at its input, and there alone', async () => {
    const answer = await post('/jobs/oil/text', new URLSearchParams({ version: '1.1', entry: '{"id": <b>' }));
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(tagOf(page, 'entry')).toContain('aria-invalid="true"');
    expect(saidOf(page, 'entry')).toContain('The text is not JSON');
    expect(page.split('The text is not JSON')).toHaveLength(2);
    expect(page).toContain('{&quot;id&quot;: &lt;b></textarea>');
  });

  it('getting a forecast: what is wrong stands at its input, with what was entered', async () => {
    const fields = { source: fieldsOf(await get('/forecast'))['source'] ?? '', do: 'estimate', rate: 'fast' };
    const page = await (await post('/forecast/fetch', new URLSearchParams(fields))).text();
    expect(tagOf(page, 'rate')).toMatch(/value="fast".*aria-invalid="true"/);
    expect(saidOf(page, 'rate')).toContain('"fast" is no rate.');
    expect(tagOf(page, 'steps')).not.toContain('aria-invalid');
    const steps = await (
      await post('/forecast/fetch', new URLSearchParams({ ...fields, rate: '', steps: 'soon' }))
    ).text();
    expect(tagOf(steps, 'steps')).toMatch(/value="soon".*aria-invalid="true"/);
  });

  it('no file chosen: the page goes to the form, and the input says so', async () => {
    expect(await get('/forecast')).toContain('action="/forecast/upload#upload"');
    const page = await (await post('/forecast/upload', new FormData())).text();
    expect(saidOf(page, 'forecast')).toContain('No file was chosen.');
  });

  it('a passage of one’s own with something wrong: the reader is taken to what it is', async () => {
    const form = new FormData();
    form.set('token', 't-1');
    expect(await (await post('/new', form)).text()).toMatch(/<p class="form-note"[^>]*autofocus/);
    expect(await get('/new')).not.toContain('autofocus');
  });

  it('sawn twice, as by a second press: bars are taken once, and the page is the locker, no missing one', async () => {
    expect((await post('/locker/sawn', new URLSearchParams({ version: '1.1' }))).status).toBe(303);
    const again = await post('/locker/sawn', new URLSearchParams({ version: '1.1' }));
    expect(again.status).toBe(409);
    expect(textOf(await again.text())).toContain('What was saved then is kept.');
    const document = await server.kept.documents.passageDocument();
    expect(document.ok && document.value.version).toBe(2);
  });
});
