/** The order of the work on its page: put in, refused, taken out, from two tabs. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { orderBetween, withoutSequence, withSequence } from '../../server/order-forms/index.ts';
import { demoText } from './test-documents.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { statusOf, testServer, type TestServer } from './test-server.ts';

let server: TestServer;
const html = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
const post = (path: string, fields: Record<string, string>): Promise<Response> =>
  fetch(server.url + path, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' });

interface Kept {
  readonly version: string;
  readonly afterOf: (jobId: string) => readonly string[] | undefined;
}
function kept(): Kept {
  const text = server.kept.documents.passageText();
  if (!text.ok) throw new Error(text.problems[0].what);
  const { jobs } = JSON.parse(text.value.text) as { jobs: readonly { id: string; after?: readonly string[] }[] };
  return {
    version: `${text.value.number}.${text.value.version}`,
    afterOf: (jobId) => jobs.find(({ id }) => id === jobId)?.after,
  };
}

/** Forms of one action on a page, each as a browser would send it. */
const formsOf = (page: string, action: string): readonly { fields: Record<string, string>; html: string }[] =>
  [...page.matchAll(new RegExp(`<form[^>]*action="${action}".*?</form>`, 'gs'))].map(([form]) => ({
    fields: fieldsOf(form),
    html: form,
  }));

describe('order of the work', () => {
  beforeEach(async () => {
    server = await testServer();
  });
  afterEach(() => server.close());

  it('in the order of the plan, each with its time; a job the plan does not know says so', async () => {
    const page = await html('/plan/order');
    const ids = [...page.matchAll(/<li id="order-([^"]+)"/g)].map(([, id]) => id);
    // The fixture's plan: stitch stands after drop and bolt, whatever the file lists first.
    expect(ids.indexOf('drop')).toBeLessThan(ids.indexOf('stitch'));
    expect(new Set(ids).size).toBe(12);
    expect(textOf(page)).toMatch(/Drop and lash the mainsail \w{3} \d\d:\d\d to \d\d:\d\d/);
    expect(textOf(page)).toContain('not in this plan yet');
  });

  it('linked from the plan', async () => {
    expect(await html('/plan')).toContain('href="/plan/order"');
  });

  it('“Earlier”: the job passed waits for it, and the plan is made again; taken out: as before, to the letter', async () => {
    const page = await html('/plan/order');
    const move = formsOf(page, '/plan/order').find(({ html: form }) => form.includes('aria-label="Earlier'));
    const { first = '', second = '' } = move?.fields ?? {};
    const before = kept().afterOf(second);
    const answer = await post('/plan/order', move?.fields ?? {});
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/plan/order?saved=1.2']);
    expect(kept().afterOf(second)).toEqual([...(before ?? []), first]);
    expect(server.pressed).toEqual(['renew']);
    const after = await html('/plan/order?saved=1.2');
    expect(textOf(after)).toContain('Take this change back');
    const out = formsOf(after, '/plan/order/out').find(
      ({ fields }) => fields['first'] === first && fields['second'] === second,
    );
    expect((await post('/plan/order/out', out?.fields ?? {})).headers.get('Location')).toBe('/plan/order?saved=1.3');
    expect(kept().afterOf(second)).toEqual(before);
  });

  it('two jobs with an order between them, however long: no button, and why', async () => {
    const page = await html('/plan/order');
    const pairs = formsOf(page, '/plan/order').map(({ fields }) => `${fields['first']} ${fields['second']}`);
    // In the demo passage hoist comes after drop, and inspect after hoist.
    for (const never of ['hoist drop', 'stitch drop', 'inspect hoist', 'inspect drop']) {
      expect(pairs).not.toContain(never);
    }
    expect(textOf(page)).toMatch(/“[^”]+” is ordered after it|It is ordered after “[^”]+”/);
  });

  it('any two jobs chosen: kept', async () => {
    expect((await post('/plan/order', { version: '1.1', first: 'filter', second: 'bench' })).status).toBe(303);
    expect(kept().afterOf('bench')).toEqual(['filter']);
  });

  it.each([
    ['a circle by way of others', 'inspect', 'drop', /cannot come before .*: the order is already .*, then .*, then /],
    ['a job before itself', 'oil', 'oil', /cannot come before itself/],
    ['an order that is there already', 'drop', 'inspect', /This order is there already/],
    ['a job that is not there', 'oil', 'rudder', /“rudder” is not in the passage any more/],
    ['nothing chosen', '', 'oil', /No job is chosen/],
  ])('%s: 422, why, what was chosen stays chosen, nothing is written', async (_, first, second, why) => {
    const answer = await post('/plan/order', { version: '1.1', first, second });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(textOf(page)).toMatch(why);
    const chosen = formsOf(page, '/plan/order').at(-1)?.fields ?? {};
    expect(chosen['first']).toBe(first);
    expect(kept().version).toBe('1.1');
    expect(server.pressed).toEqual([]);
  });

  it('from an old page, in or out: 409, nothing of it is written', async () => {
    await post('/plan/order', { version: '1.1', first: 'filter', second: 'bench' });
    const late = await post('/plan/order', { version: '1.1', first: 'oil', second: 'bench' });
    expect(late.status).toBe(409);
    expect(textOf(await late.text())).toContain('changed in the meantime');
    expect((await post('/plan/order/out', { version: '1.1', first: 'filter', second: 'bench' })).status).toBe(409);
    expect(kept().afterOf('bench')).toEqual(['filter']);
  });

  it('an order taken out twice: the second is told', async () => {
    const answer = await post('/plan/order/out', { version: '1.1', first: 'oil', second: 'drop' });
    expect([answer.status, textOf(await answer.text())]).toEqual([
      422,
      expect.stringContaining('This order is not in the passage any more.'),
    ]);
  });

  it.each(['/plan/order', '/plan/order/out'])('%s without its version: 400; from others: 403', async (path) => {
    expect((await post(path, { first: 'oil', second: 'bench' })).status).toBe(400);
    const headers = { 'Sec-Fetch-Site': 'cross-site', Host: server.host };
    expect(await statusOf(server.url + path, { method: 'POST', headers })).toBe(403);
    expect(kept().version).toBe('1.1');
  });

  it('a job that is done is not listed: no order concerns it any more', async () => {
    await server.close();
    server = await testServer(undefined, demoText.replace('"id": "oil",', '"id": "oil", "done": true,'));
    expect(await html('/plan/order')).not.toContain('id="order-oil"');
  });
});

describe('orders as data', () => {
  const jobs = [
    { id: 'a', name: 'A', after: [] },
    { id: 'b', name: 'B', after: ['a'] },
    { id: 'c', name: 'C', after: ['b', 'a'] },
    { id: 'd', name: 'D', after: ['c'] },
    { id: 'e', name: 'E', after: [] },
  ];

  it.each([
    ['a', 'b', ['a', 'b']],
    // The direct order is the shorter way than the one over b.
    ['a', 'c', ['a', 'c']],
    ['a', 'd', ['a', 'c', 'd']],
    ['b', 'd', ['b', 'c', 'd']],
    ['d', 'a', null],
    ['e', 'a', null],
  ])('from %s to %s: %j', (firstId, secondId, way) => {
    expect(orderBetween(jobs, { firstId, secondId })).toEqual(way);
  });

  it('orders that already wait for one another do not run for ever', () => {
    const ring = [
      { id: 'x', name: 'X', after: ['y'] },
      { id: 'y', name: 'Y', after: ['x'] },
    ];
    expect(orderBetween(ring, { firstId: 'z', secondId: 'x' })).toBeNull();
  });

  it('put in and taken out: the file is as it was, other jobs untouched', () => {
    const file = { slatch: 1, jobs: [{ id: 'a' }, { id: 'e', priority: 3 }] } as const;
    const sequence = { firstId: 'a', secondId: 'e' };
    const passage = { ...file, jobs: [...file.jobs] } as unknown as Parameters<typeof withoutSequence>[0];
    const put = withSequence(passage, jobs, sequence);
    if (!put.ok) throw new Error(put.problems[0].what);
    expect(put.value.jobs).toEqual([{ id: 'a' }, { id: 'e', priority: 3, after: ['a'] }]);
    const out = withoutSequence(put.value, sequence);
    expect(out.ok && out.value).toEqual(file);
  });
});
