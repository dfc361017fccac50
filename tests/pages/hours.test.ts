/** What is fixed about a job on the pages: locked, bounded, forbidden, and taken back. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { demoText } from './test-documents.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { statusOf, testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const html = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
const post = (path: string, fields: Record<string, string>, referer = '/'): Promise<Response> =>
  fetch(server.url + path, {
    method: 'POST',
    body: new URLSearchParams(fields),
    redirect: 'manual',
    headers: { Referer: server.url + referer },
  });
interface Kept {
  readonly version: string;
  readonly jobs: readonly Record<string, unknown>[];
  readonly forbidden: unknown;
}
async function kept(): Promise<Kept> {
  const text = server.kept.documents.passageText();
  if (!text.ok) throw new Error(text.problems[0].what);
  const { jobs, forbidden } = JSON.parse(text.value.text) as Omit<Kept, 'version'>;
  return { version: `${text.value.number}.${text.value.version}`, jobs, forbidden };
}
const jobOf = async (id: string): Promise<Record<string, unknown>> =>
  (await kept()).jobs.find((job) => job['id'] === id) ?? {};
/** The form on a page whose action is this. */
const formOf = (page: string, action: string): string =>
  new RegExp(`<form[^>]*action="${action}".*?</form>`, 's').exec(page)?.[0] ?? '';

describe('locking a job of the plan', () => {
  it('one button: start and handling of the plan are kept, and the plan is made again', async () => {
    const form = formOf(await html('/plan'), '/jobs/drop/lock');
    expect(textOf(form)).toMatch(/Lock it to \w{3} \d\d:\d\d/);
    const fields = fieldsOf(form);
    const answer = await post('/jobs/drop/lock', fields);
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/plan?saved=1.2#job-drop']);
    expect(await jobOf('drop')).toMatchObject({ startUtc: fields['startUtc'], lockHandling: 'run-off' });
    expect(server.pressed).toEqual(['renew']);
    const page = await html('/plan?saved=1.2');
    expect(textOf(page)).toMatch(/Fixed by you: starts exactly at \w{3} \d+ \w{3} \d\d:\d\d; worked only under “.+”\./);
    expect(formOf(page, '/jobs/drop/lock')).toBe('');
  });

  it('lock taken off: as it was before, to the letter', async () => {
    const before = await jobOf('drop');
    await post('/jobs/drop/lock', fieldsOf(formOf(await html('/plan'), '/jobs/drop/lock')));
    const answer = await post('/jobs/drop/unlock', fieldsOf(formOf(await html('/plan'), '/jobs/drop/unlock')));
    expect(answer.headers.get('Location')).toBe('/plan?saved=1.3#job-drop');
    expect(await jobOf('drop')).toEqual(before);
  });

  it('from an old page: 409, the start is in the form of what is kept now, and one press saves it', async () => {
    const fields = fieldsOf(formOf(await html('/plan'), '/jobs/drop/lock'));
    await post('/jobs/oil/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: '' });
    const answer = await post('/jobs/drop/lock', fields);
    expect(answer.status).toBe(409);
    expect((await kept()).version).toBe('1.2');
    const again = await post('/jobs/drop/hours', fieldsOf(formOf(await answer.text(), '/jobs/drop/hours')));
    expect(again.status).toBe(303);
    expect((await jobOf('drop'))['startUtc']).toBe(fields['startUtc']);
  });

  it('a job the passage has no more: no form for it; sent all the same, no such job', async () => {
    const page = await html('/plan');
    expect(page).toContain('id="job-make"');
    expect(formOf(page, '/jobs/make/lock')).toBe('');
    expect((await post('/jobs/make/lock', { version: '1.1', startUtc: '2026-05-28T01:00Z' })).status).toBe(404);
  });

  it('what is no instant: 422, said at its field with what was sent', async () => {
    const answer = await post('/jobs/drop/lock', { version: '1.1', startUtc: 'noon', handling: '' });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(textOf(page)).toContain('"noon" is not an instant');
    expect(fieldsOf(formOf(page, '/jobs/drop/hours'))['startUtc']).toBe('noon');
    expect((await kept()).version).toBe('1.1');
  });
});

describe('a start looked at on the windows page', () => {
  const look = '/windows?job=drop&part=1&handling=run-off&start=2026-05-28T02:00Z';

  it('“Start then”: locked to it, in UTC and under the handling looked at', async () => {
    const form = formOf(await html(look), '/jobs/drop/lock');
    expect(textOf(form)).toContain('Start then');
    expect((await post('/jobs/drop/lock', fieldsOf(form))).status).toBe(303);
    expect(await jobOf('drop')).toMatchObject({ startUtc: '2026-05-28T02:00Z', lockHandling: 'run-off' });
  });

  it('no start looked at, or looked at and not pressed: nothing is saved', async () => {
    expect(await html('/windows?job=drop')).not.toContain('Start then');
    await html(look);
    expect((await kept()).version).toBe('1.1');
  });

  it('a start of a later part: no button, for the lock is of the first', async () => {
    const text = demoText.replace('"id": "bench"', '"id": "make"').replaceAll('"bench"', '"make"');
    await server.close();
    server = await testServer(undefined, text);
    expect(await html('/windows?job=make&part=1&start=2026-05-28T02:00Z')).toContain('Start then');
    expect(await html('/windows?job=make&part=2&start=2026-05-28T02:00Z')).not.toContain('Start then');
  });
});

describe('hours of a job', () => {
  it('bounds in ship’s time (UTC+12): kept in UTC; emptied: taken out', async () => {
    const form = formOf(await html('/jobs/oil/hours'), '/jobs/oil/hours');
    const fields = { ...fieldsOf(form), notBeforeUtc: '2026-05-28T14:00', finishByUtc: '2026-05-29T06:30' };
    expect((await post('/jobs/oil/hours', fields)).headers.get('Location')).toBe('/plan?saved=1.2#job-oil');
    expect(await jobOf('oil')).toMatchObject({ notBeforeUtc: '2026-05-28T02:00Z', finishByUtc: '2026-05-28T18:30Z' });
    const shown = fieldsOf(formOf(await html('/jobs/oil/hours'), '/jobs/oil/hours'));
    expect([shown['notBeforeUtc'], shown['finishByUtc']]).toEqual(['2026-05-28T14:00', '2026-05-29T06:30']);
    await post('/jobs/oil/hours', { ...shown, notBeforeUtc: '', finishByUtc: '' });
    expect(await jobOf('oil')).not.toHaveProperty('finishByUtc');
  });

  it('nothing touched: nothing is written, and an instant with seconds stays', async () => {
    await server.close();
    const text = demoText.replace('"id": "oil",', '"id": "oil", "notBeforeUtc": "2026-05-28T02:00:30Z",');
    server = await testServer(undefined, text);
    const fields = fieldsOf(formOf(await html('/jobs/oil/hours'), '/jobs/oil/hours'));
    await post('/jobs/oil/hours', fields);
    expect((await kept()).version).toBe('1.1');
    await post('/jobs/oil/hours', { ...fields, finishByUtc: '2026-05-30T06:30' });
    expect((await jobOf('oil'))['notBeforeUtc']).toBe('2026-05-28T02:00:30Z');
  });

  it.each([
    [
      'finished before it may begin',
      { notBeforeUtc: '2026-05-29T14:00', finishByUtc: '2026-05-28T14:00' },
      'finishByUtc',
    ],
    ['no time at all', { startUtc: 'after tea' }, 'startUtc'],
    ['a handling that is not one of its own', { lockHandling: 'heave-to' }, 'lockHandling'],
  ])('%s: 422, at its input, with what was entered', async (_name, entered: Record<string, string>, wrong) => {
    const fields = { ...fieldsOf(formOf(await html('/jobs/oil/hours'), '/jobs/oil/hours')), ...entered };
    const answer = await post('/jobs/oil/hours', fields);
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toMatch(new RegExp(`id="f-${wrong}"[^>]*aria-invalid="true"`));
    expect(page).toContain(`href="#f-${wrong}"`);
    expect(fieldsOf(formOf(page, '/jobs/oil/hours'))).toMatchObject(entered);
    expect((await kept()).version).toBe('1.1');
  });

  it('hours forbidden for it and for every job, listed where they bind, and allowed again', async () => {
    const forbid = async (fields: Record<string, string>): Promise<Response> =>
      post('/jobs/oil/forbid', { ...fieldsOf(formOf(await html('/jobs/oil/hours'), '/jobs/oil/forbid')), ...fields });
    const own = { fromUtc: '2026-05-28T14:00', toUtc: '2026-05-28T16:00' };
    expect((await forbid(own)).headers.get('Location')).toBe('/jobs/oil/hours?saved=1.2#forbidden');
    await forbid({ fromUtc: '2026-05-28T18:00', toUtc: '2026-05-28T20:00', job: 'every' });
    expect((await kept()).forbidden).toEqual([
      { fromUtc: '2026-05-28T02:00Z', toUtc: '2026-05-28T04:00Z', job: 'oil' },
      { fromUtc: '2026-05-28T06:00Z', toUtc: '2026-05-28T08:00Z' },
    ]);
    const others = textOf(await html('/jobs/drop/hours'));
    expect(others).toContain('Thu 18:00 to 20:00, every job');
    expect(others).not.toContain('Thu 14:00 to 16:00');
    const page = await html('/jobs/oil/hours');
    expect(textOf(await html('/plan'))).toContain('Fixed by you: no work from Thu 14:00 to 16:00');
    await post('/jobs/oil/allow', fieldsOf(formOf(page, '/jobs/oil/allow')));
    expect((await kept()).forbidden).toEqual([{ fromUtc: '2026-05-28T06:00Z', toUtc: '2026-05-28T08:00Z' }]);
    await post('/jobs/oil/allow', fieldsOf(formOf(await html('/jobs/oil/hours'), '/jobs/oil/allow')));
    expect((await kept()).forbidden).toBeUndefined();
  });

  it('forbidden hours that end before they begin, or hold the locked start: 422, said in their form', async () => {
    const send = async (fields: Record<string, string>): Promise<string> => {
      const { version = '' } = fieldsOf(formOf(await html('/jobs/oil/hours'), '/jobs/oil/forbid'));
      const answer = await post('/jobs/oil/forbid', { version, ...fields });
      expect(answer.status).toBe(422);
      return textOf(formOf(await answer.text(), '/jobs/oil/forbid'));
    };
    expect(await send({ fromUtc: '2026-05-28T16:00', toUtc: '2026-05-28T14:00' })).toContain('not after it begins');
    expect(await send({ fromUtc: '', toUtc: '2026-05-28T14:00' })).toContain('is not an instant');
    await post('/jobs/oil/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: '' });
    expect(await send({ fromUtc: '2026-05-28T13:00', toUtc: '2026-05-28T15:00' })).toContain('inside forbidden[0]');
  });

  it.each(['lock', 'unlock', 'hours', 'forbid', 'allow'])(
    '%s without its version: 400; from others: 403',
    async (to) => {
      expect((await post(`/jobs/oil/${to}`, { startUtc: '2026-05-28T02:00Z' })).status).toBe(400);
      const headers = { 'Sec-Fetch-Site': 'cross-site', Host: server.host };
      expect(await statusOf(`${server.url}/jobs/oil/${to}`, { method: 'POST', headers })).toBe(403);
      expect((await kept()).version).toBe('1.1');
    },
  );
});

describe('the last change taken back', () => {
  const textNow = (): string => {
    const text = server.kept.documents.passageText();
    return text.ok ? text.value.text : '';
  };

  it('from the notice: the text of the version before as a new one, and put back by the same way', async () => {
    await post('/jobs/oil/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: '' });
    const changed = textNow();
    const page = await html('/plan?saved=1.2');
    expect(textOf(page)).toContain('Take this change back');
    const answer = await post('/document/undo', fieldsOf(formOf(page, '/document/undo')), '/plan?saved=1.2#job-oil');
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/plan?back=1&saved=1.3']);
    expect(textNow()).toBe(demoText);
    expect(server.pressed).toEqual(['renew', 'renew']);
    const back = await html('/plan?back=1&saved=1.3');
    expect(textOf(back)).toContain('Taken back The passage is again as it was at version 1, and kept as version 3.');
    await post('/document/undo', fieldsOf(formOf(back, '/document/undo')));
    expect(textNow()).toBe(changed);
    expect((await kept()).version).toBe('1.4');
  });

  it.each([
    ['/jobs/oil/hours?saved=1.2', '/jobs?back=1&saved=1.3'],
    ['/elsewhere', '/?back=1&saved=1.3'],
  ])('on %s: then on %s, for what it was about may be gone', async (referer, to) => {
    await post('/jobs/oil/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: '' });
    const answer = await post('/document/undo', { version: '1.2' }, referer);
    expect(answer.headers.get('Location')).toBe(to);
  });

  it('on the page of the passage as it is kept: the last change, or any version', async () => {
    expect(await html('/document')).not.toContain('/document/undo');
    for (const [version, hour] of [
      ['1.1', '02'],
      ['1.2', '03'],
    ] as const)
      await post('/jobs/oil/lock', { version, startUtc: `2026-05-28T${hour}:00Z`, handling: '' });
    const page = await html('/document');
    expect(page.match(/name="wanted"/g)).toHaveLength(2);
    expect((await post('/document/bring-back', { version: '1.3', wanted: '1' })).headers.get('Location')).toBe(
      '/document?back=1&saved=1.4',
    );
    expect(textNow()).toBe(demoText);
    expect((await post('/document/undo', fieldsOf(formOf(await html('/document'), '/document/undo')))).status).toBe(
      303,
    );
    expect((await jobOf('oil'))['startUtc']).toBe('2026-05-28T03:00Z');
  });

  it('nothing to take back, changed meanwhile, no such version, no version: refused, nothing is written', async () => {
    const first = await post('/document/undo', { version: '1.1' });
    expect([first.status, textOf(await first.text())]).toEqual([422, expect.stringContaining('no version 0 of it')]);
    await post('/jobs/oil/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: '' });
    expect((await post('/document/undo', { version: '1.1' })).status).toBe(409);
    expect((await post('/document/bring-back', { version: '1.2', wanted: '2' })).status).toBe(422);
    expect((await post('/document/bring-back', { version: '1.2', wanted: 'x' })).status).toBe(400);
    expect((await post('/document/undo', {})).status).toBe(400);
    expect((await kept()).version).toBe('1.2');
  });

  it('another passage shown: its last change is not offered to be taken back', async () => {
    await post('/jobs/oil/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: '' });
    await post('/document/take-over', { version: '1.2' });
    const shown = await post('/document/show', { number: '1' });
    const page = await html(shown.headers.get('Location') ?? '');
    expect(textOf(page)).toContain('The passage is at version 2.');
    expect(page).not.toContain('/document/undo');
  });
});
