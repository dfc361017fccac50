import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ok } from '../../lib/result/index.ts';
import { demoText } from './test-documents.ts';
import { statusOf, testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const page = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
const post = (path: string, body: Readonly<Record<string, string>>): Promise<Response> =>
  fetch(server.url + path, { method: 'POST', body: new URLSearchParams(body), redirect: 'manual' });
const shownNumber = async (): Promise<string> => {
  const shown = await server.kept.documents.documentInfo();
  return shown.ok ? `${shown.value.number}.${shown.value.version}` : shown.problems[0].code;
};
/** Changes the passage as a page would. */
async function edit(name: string): Promise<void> {
  const { documents } = server.kept;
  const text = documents.passageText();
  if (!text.ok) throw new Error('no passage');
  const saved = await documents.savePassage({ expected: text.value, change: (file) => ok({ ...file, name }) });
  if (!saved.ok) throw new Error(saved.problems[0].what);
}
const changeFile = (): void => server.kept.writeFile(demoText.replace('"name": "Torn main', '"name": "Mended main'));

describe('every page', () => {
  it.each(['/', '/windows', '/plan', '/document'])('%s: which passage is kept, and no notice', async (path) => {
    const html = await page(path);
    expect(html).toContain('Passage 1, version 1</a>, taken over from demo-passage.json');
    expect(html).not.toContain('class="notice');
  });

  it.each(['/', '/windows', '/plan', '/document'])('%s: the file has changed, said with its button', async (path) => {
    changeFile();
    const html = await page(path);
    expect(html).toMatch(/<section class="notices" aria-label="Notices">.*demo-passage\.json has changed/s);
    expect(html).toMatch(/action="\/document\/take-over"><input type="hidden" name="version" value="1\.1"/);
  });

  it('the part that htmx swaps in: no notice, for it is no page', async () => {
    changeFile();
    const part = await fetch(server.url, { headers: { 'HX-Request-Type': 'partial' } });
    expect(await part.text()).toMatch(/^<main id="passage">(?!.*class="notice)/s);
  });

  it('saved a moment ago: said once, not of a later version', async () => {
    await edit('Edited');
    expect(await page('/plan?saved=1.2')).toContain('The passage is at version 2.');
    expect(await page('/plan?saved=1.1')).not.toContain('class="notice');
  });
});

describe('/document', () => {
  it('what is kept, where it came from, its versions', async () => {
    await edit('Edited <here>');
    const html = await page('/document');
    expect(html).toContain('Passage 1, version 2');
    expect(html).toContain('Edited &lt;here>');
    expect(html).toContain(server.kept.file);
    expect(html).toContain('The passage was changed here since. The file is as it was.');
    expect(html.match(/<li>Version \d/g)).toHaveLength(2);
  });

  it('as a file: its text, under the name of the file', async () => {
    await edit('Edited');
    const answer = await fetch(`${server.url}/document/passage.json`);
    expect(answer.headers.get('Content-Disposition')).toMatch(/^attachment; filename="?demo-passage\.json"?$/);
    expect(await answer.json()).toEqual({ ...(JSON.parse(demoText) as object), name: 'Edited' });
  });

  it('file taken over after an edit: a new passage, and the way back to the first', async () => {
    await edit('Edited');
    const answer = await post('/document/take-over', { version: '1.2' });
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/?saved=2.1']);
    expect(await shownNumber()).toBe('2.1');
    expect(await page('/document')).toContain('<b>Edited</b>: Passage 1');
    expect((await post('/document/show', { number: '1' })).status).toBe(303);
    expect(await shownNumber()).toBe('1.2');
  });

  it('file taken over from an old page: 409, said, nothing changed', async () => {
    await edit('Edited');
    const answer = await post('/document/take-over', { version: '1.1' });
    expect(answer.status).toBe(409);
    expect(await answer.text()).toMatch(/Not saved.*it is at version 2, the change was made to version 1/s);
    expect(await shownNumber()).toBe('1.2');
  });

  it('file that is no passage any more: 422 with what is wrong, nothing changed', async () => {
    server.kept.writeFile('{"slatch": 1');
    const answer = await post('/document/take-over', { version: '1.1' });
    expect(answer.status).toBe(422);
    expect(await answer.text()).toMatch(/Not saved.*The file is not JSON/s);
    expect(await shownNumber()).toBe('1.1');
  });

  it.each([
    ['/document/take-over', {}, 400],
    ['/document/take-over', { version: '1' }, 400],
    ['/document/take-over', { version: '1.1.1' }, 400],
    ['/document/show', {}, 400],
    ['/document/show', { number: '-1' }, 400],
    ['/document/show', { number: '7' }, 422],
  ])('POST %s %j: %d', async (path, body, status) => {
    expect((await post(path, body)).status).toBe(status);
    expect(await shownNumber()).toBe('1.1');
  });

  it.each(['/document/take-over', '/document/show'])(
    '%s from a page of others: refused, nothing changed',
    async (path) => {
      await edit('Edited');
      const headers = { Host: server.host, 'Content-Type': 'application/x-www-form-urlencoded' };
      const body = 'version=1.2&number=1';
      for (const foreign of [{ Origin: 'http://evil.example' }, { 'Sec-Fetch-Site': 'cross-site' }, { Origin: 'null' }])
        expect(await statusOf(server.url + path, { method: 'POST', body, headers: { ...headers, ...foreign } })).toBe(
          403,
        );
      expect(await shownNumber()).toBe('1.2');
    },
  );

  it('GET of what changes something: leads to its page, nothing done', async () => {
    const answer = await fetch(`${server.url}/document/take-over`, { redirect: 'manual' });
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/document']);
    const list = server.kept.documents.documentList();
    expect(list.ok && list.value.length).toBe(1);
  });
});

describe('a passage file that is none', () => {
  it('pages answer all the same; the document says what is wrong', async () => {
    const bad = await testServer(() => ({ kind: 'stopped' }), '{"slatch":1}');
    const html = await (await fetch(`${bad.url}/document`)).text();
    expect(html).toContain('No passage was taken over yet');
    expect(html).toContain('demo-passage.json');
    expect((await fetch(bad.url)).status).toBe(200);
    expect((await fetch(`${bad.url}/document/passage.json`)).status).toBe(404);
    await bad.close();
  });
});
