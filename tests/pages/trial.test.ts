/** A start tried in the plan from the windows page: begun, looked at, taken or left. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ok } from '../../lib/result/index.ts';
import type { PassageView } from '../../server/deps.ts';
import { broken, made, missedView, TRIED_UTC, triedView } from './fixture-trial.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { statusOf, testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const LOOK = `/windows?job=drop&part=1&handling=run-off&start=${TRIED_UTC}`;
const html = async (path: string, headers: Record<string, string> = {}): Promise<string> =>
  (await fetch(server.url + path, { headers })).text();
const post = (path: string, fields: Record<string, string>): Promise<Response> =>
  fetch(server.url + path, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' });
/** The form on a page whose action is this. */
const formOf = (page: string, action: string): string =>
  new RegExp(`<form[^>]*action="${action}".*?</form>`, 's').exec(page)?.[0] ?? '';
const versionNow = (): string => {
  const text = server.kept.documents.passageText();
  return text.ok ? `${text.value.number}.${text.value.version}` : '';
};

const begin = async (): Promise<Response> => post('/trial', fieldsOf(formOf(await html(LOOK), '/trial')));
async function tried(view: PassageView): Promise<string> {
  await begin();
  server.trials.runs.at(-1)?.made.resolve(made(view));
  await expect.poll(() => html('/trial')).not.toContain('aria-busy');
  return html('/trial');
}

describe('beginning a trial', () => {
  it('the look at a start says what the plan has, and offers to try it; GET begins nothing', async () => {
    const page = await html(LOOK);
    expect(textOf(page)).toMatch(
      /The plan starts it at Thu 13:00, inside its limits in 86 of 100 ± 4: this start is 2 h later\./,
    );
    expect(textOf(formOf(page, '/trial'))).toContain('Try this in the plan');
    await html('/trial');
    expect(server.trials.runs).toHaveLength(0);
  });

  it('one button: begun and shown, with progress for htmx and for browsers without script; nothing is saved', async () => {
    const answer = await begin();
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/trial']);
    server.trials.runs[0]?.beginning.onProgress({ searchShare: 0.42 });
    const page = await html('/trial');
    expect(page).toMatch(/<noscript><meta http-equiv="refresh" content="3"/);
    expect(page).toMatch(/<main[^>]*aria-busy="true"[^>]*hx-get="\/trial"/);
    expect(textOf(page)).toMatch(/Drop the mainsail Thu 28 May 15:00 Thu 03:00 UTC/);
    expect(textOf(page)).toContain('Searching: 42 % done.');
    expect([versionNow(), server.pressed]).toEqual(['1.1', []]);
    // A part has no head and no stop button, which stays as it is beside it.
    const part = await html('/trial', { 'HX-Request-Type': 'partial' });
    expect(part).toMatch(/^<main/);
    expect(part).not.toContain('/trial/stop');
  });

  it('stopped by its button', async () => {
    await begin();
    const form = formOf(await html('/trial'), '/trial/stop');
    expect((await post('/trial/stop', fieldsOf(form))).headers.get('Location')).toBe('/trial');
    expect(server.trials.runs[0]?.stopCount).toBe(1);
    expect(textOf(await html('/trial'))).toContain('Stopping: the best plan found so far is written up.');
  });

  it('from an old page: 409 and told; the passage as it is now is not touched', async () => {
    const fields = fieldsOf(formOf(await html(LOOK), '/trial'));
    await post('/jobs/oil/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: '' });
    const answer = await post('/trial', fields);
    expect(answer.status).toBe(409);
    expect(textOf(await answer.text())).toContain('The passage was changed meanwhile');
    expect([versionNow(), server.trials.runs.length]).toEqual(['1.2', 0]);
  });

  it.each([
    ['no instant', { startUtc: 'noon' }, 'noon'],
    ['a job that is not there', { job: 'tiller' }, 'There is no such start to try'],
    ['a part that is not there', { part: '9' }, 'There is no such start to try'],
  ])('%s: 422, said with what to do', async (_name, wrong: Record<string, string>, text) => {
    const answer = await post('/trial', { ...fieldsOf(formOf(await html(LOOK), '/trial')), ...wrong });
    expect(answer.status).toBe(422);
    expect(textOf(await answer.text())).toMatch(new RegExp(`This start was not tried.*${text}`));
    expect(server.trials.runs).toHaveLength(0);
  });

  it('start inside forbidden hours: 422 with the reason of the passage', async () => {
    await post('/jobs/drop/forbid', {
      version: '1.1',
      fromUtc: '2026-05-28T14:00',
      toUtc: '2026-05-28T18:00',
      job: '',
    });
    const answer = await begin();
    expect([answer.status, textOf(await answer.text())]).toEqual([422, expect.stringContaining('inside forbidden[0]')]);
  });

  it('without its version: 400; from others: 403', async () => {
    expect((await post('/trial', { job: 'drop', startUtc: TRIED_UTC })).status).toBe(400);
    const headers = { 'Sec-Fetch-Site': 'cross-site', Host: server.host };
    expect(await statusOf(`${server.url}/trial`, { method: 'POST', headers })).toBe(403);
  });
});

describe('the trial', () => {
  it('none: says how one is begun', async () => {
    expect(textOf(await html('/trial'))).toContain('No start is being tried');
  });

  it('before and after, job by job with chance and error bar, and what falls out with its reason', async () => {
    const page = textOf(await tried(triedView));
    expect(page).toContain('Trial: not the plan, and nothing of it is saved');
    expect(page).toContain('All planned jobs together inside their limits 75 of 100 ± 4 66 of 100 ± 3');
    expect(page).toContain('Drop the mainsail its start is tried Thu 13:00 86 of 100 ± 4 Thu 15:00 79 of 100 ± 4');
    expect(page).toContain(' 2 h later, Thu 28 May 15:00 instead of Thu 28 May 13:00.');
    expect(page).toContain(
      'Together they stay inside their limits in 66 of 100 ± 3, without it in 75 of 100 ± 4; you want 65.',
    );
    expect(page).toMatch(/What falls out of the plan [^.]*no longer planned\. No two hours are left/);
    expect(page).toMatch(/With this start (\d) jobs are planned, without it \d\./);
  });

  it('stands above plan and windows, not as the plan: their own figures are those of the plan that stands', async () => {
    await tried(triedView);
    for (const path of ['/plan', '/windows']) {
      // One after the other: the server is one.
      // oxlint-disable-next-line no-await-in-loop
      const page = textOf(await html(path));
      expect(page).toContain('A start was tried “Drop the mainsail” from Thu 15:00.');
      expect(page).not.toContain('66 of 100');
    }
    expect(server.pressed).toEqual([]);
  });

  it('taken: one version with the start, its plan stands, and the plan page is shown', async () => {
    const form = formOf(await tried(triedView), '/trial/take');
    const answer = await post('/trial/take', fieldsOf(form));
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/plan?saved=1.2#job-drop']);
    const text = server.kept.documents.passageText();
    expect(text.ok && text.value.text).toContain(`"startUtc": "${TRIED_UTC}"`);
    expect([server.pressed, server.trials.taken.length]).toEqual([['take', 'renew'], 1]);
    expect(textOf(await html('/trial'))).toContain('No start is being tried');
  });

  it('taken twice from two tabs: the second is told that it is gone, 409', async () => {
    const fields = fieldsOf(formOf(await tried(triedView), '/trial/take'));
    await post('/trial/take', fields);
    const answer = await post('/trial/take', fields);
    expect([answer.status, textOf(await answer.text())]).toEqual([
      409,
      expect.stringMatching(/The trial was not taken .* is not there any more/),
    ]);
    expect(versionNow()).toBe('1.2');
  });

  it('the passage changed meanwhile: said, no button to take it, one to try it again; sent all the same, 409', async () => {
    const fields = fieldsOf(formOf(await tried(triedView), '/trial/take'));
    const changed = { number: 1, version: 1 };
    await server.kept.documents.savePassage({ expected: changed, change: (file) => ok({ ...file, name: 'Edited' }) });
    const page = await html('/trial');
    expect(textOf(page)).toContain('This trial is of an earlier state: the passage was changed since it was begun.');
    expect(formOf(page, '/trial/take')).toBe('');
    expect((await post('/trial/take', fields)).status).toBe(409);
    const again = formOf(page, '/trial');
    expect(fieldsOf(again)).toMatchObject({ version: '1.2', startUtc: TRIED_UTC, job: 'drop' });
    expect((await post('/trial', fieldsOf(again))).status).toBe(303);
    expect(server.trials.runs.map(({ closed }) => closed)).toEqual([true, false]);
  });

  it('left: back to the look at that start, nothing is saved', async () => {
    const form = formOf(await tried(triedView), '/trial/leave');
    const answer = await post('/trial/leave', fieldsOf(form));
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, LOOK]);
    expect([versionNow(), server.pressed, server.trials.runs[0]?.closed]).toEqual(['1.1', [], true]);
  });

  it('no plan with that start: by how much it misses, the nearest start, and nothing to take', async () => {
    const page = await tried(missedView);
    expect(textOf(page)).toContain(
      'There is no plan with this start: “Drop the mainsail” would not be planned at all.',
    );
    expect(textOf(page)).toContain('81 of 100, 1 h 30 min earlier.');
    expect(page).toContain('/windows?job=drop&amp;part=1&amp;handling=run-off&amp;start=2026-05-28T01:30Z');
    expect(formOf(page, '/trial/take')).toBe('');
  });

  it('could not be made: every problem, and the plan stands', async () => {
    await begin();
    server.trials.runs[0]?.made.resolve(broken);
    await expect.poll(() => html('/trial')).toContain('The forecast file is gone.');
    expect(textOf(await html('/trial'))).toContain('The plan stands as it did.');
  });
});
