/** Every plan by number, two of them compared, and what is shown while a new one is made. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readPlan } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { PlanStanding } from '../../server/deps.ts';
import type { PlanReady } from '../../server/presenters/plan-standing.ts';
import { plan } from './fixture-plan.ts';
import { view } from './fixture-windows.ts';
import { demoText } from './test-documents.ts';
import { readyStanding, testServer, type TestServer } from './test-server.ts';

let server: TestServer;
const numbered: PlanReady = { ...readyStanding, view: { ...view, plan: { ...plan, planNumber: 3 } } };
let standing: PlanStanding = numbered;
beforeEach(async () => {
  standing = numbered;
  server = await testServer(() => standing);
});
afterEach(() => server.close());

const html = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
const textOf = (page: string): string =>
  page
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll(/\s+/g, ' ');
const text = async (path: string): Promise<string> => textOf(await html(path));

/** Keeps a plan as the keeper does. */
function keep(change: Partial<Plan> = {}, of: { version?: number; logNumber?: number } = {}): Plan {
  const kept = server.kept.plans.keepInHistory(
    { ...view, plan: { ...plan, ...change } },
    { number: 1, version: 1, logNumber: 0, ...of },
  );
  if (!kept.ok) throw new Error(JSON.stringify(kept.problems));
  return kept.value;
}

/** The same plan with the first job an hour later. */
const laterJobs = plan.jobs.map((job) =>
  job.jobId === 'drop' && job.startUtc !== null
    ? { ...job, startUtc: new Date(Date.parse(job.startUtc) + 3_600_000).toISOString().replace(':00.000Z', 'Z') }
    : job,
);

describe('the list', () => {
  it('no plan yet: says so', async () => {
    expect(await text('/plans')).toContain('There is no finished plan yet.');
  });

  it('each with its number, when it was made, of what, its jobs and its chance; the newest first', async () => {
    keep();
    keep({ madeAtUtc: '2026-05-27T21:00Z' }, { version: 2, logNumber: 5 });
    const page = await text('/plans');
    expect(page).toMatch(/2 Thu 28 May 09:00 Wed 21:00 UTC .* 1 Thu 28 May 08:12 Wed 20:12 UTC/);
    expect(page).toContain('version 2, log to entry 5');
    expect(page).toContain('version 1, no log');
    expect(page).toContain('75 of 100');
    const planned = plan.jobs.filter(({ status }) => status === 'planned').length;
    expect(page).toContain(`${planned} planned`);
  });

  it('one of them as a file: as it is published, with its number', async () => {
    keep();
    keep();
    const answer = await fetch(`${server.url}/plans/2.json`);
    expect(answer.headers.get('content-disposition')).toContain('plan-2.json');
    const read = readPlan(await answer.text(), 'plan-2.json');
    expect(read.ok ? read.value : read.problems).toEqual({ ...plan, planNumber: 2 });
  });

  it.each(['/plans/3.json', '/plans/x.json', '/plans/1'])('%s: no such plan, 404', async (path) => {
    keep();
    expect((await fetch(server.url + path)).status).toBe(404);
  });

  it('plans of another passage are not among them', async () => {
    const other = server.kept.store.passages.create({ name: 'Another', json: demoText, atEpochMs: 0 });
    if (!other.ok) throw new Error('no second passage');
    server.kept.plans.keepInHistory(view, { number: other.value.number, version: 1, logNumber: 0 });
    expect(await text('/plans')).toContain('There is no finished plan yet.');
  });
});

describe('two compared', () => {
  it('what moved, and what was new: forecast, log, what was edited', async () => {
    keep();
    const saved = await server.kept.documents.savePassage({
      expected: { number: 1, version: 1 },
      change: (file) => ({ ok: true, value: { ...file, name: 'Renamed' } }),
    });
    expect(saved.ok).toBe(true);
    keep(
      {
        madeAtUtc: '2026-05-28T02:00Z',
        jobs: laterJobs,
        forecast: { ...plan.forecast, baseTimeUtc: '2026-05-28T00:00Z' },
      },
      { version: 2, logNumber: 3 },
    );
    const page = await text('/plans?from=1&to=2');
    expect(page).toContain('From plan 1 of Thu 08:12 to plan 2 of Thu 14:00');
    expect(page).toContain('Drop the mainsail: 1 h later');
    expect(page).toContain('The forecast is that of Thu 28 May 12:00, it was that of Thu 28 May 06:00.');
    expect(page).toContain('The passage was edited: name.');
    expect(page).toContain('The log goes to entry 3, it went to none.');
    // The older is always the one it starts from.
    expect(await text('/plans?from=2&to=1')).toContain('From plan 1 of');
  });

  it('twice the same plan: nothing has changed', async () => {
    keep();
    keep();
    expect(await text('/plans?from=1&to=2')).toContain('Nothing has changed.');
  });

  it.each(['from=1&to=9', 'from=one&to=2', 'from=&to='])('%s: 404, and what there is', async (query) => {
    keep();
    keep();
    const answer = await fetch(`${server.url}/plans?${query}`);
    expect([answer.status, textOf(await answer.text())]).toEqual([
      404,
      expect.stringMatching(/is not the number|There is no plan 9/),
    ]);
  });
});

describe('kept', () => {
  it('the server started anew: numbers go on, the latest is the one that stands', () => {
    keep();
    keep({ passageName: 'second' });
    const { plans } = server.kept.restartedKeeping();
    expect(plans.latestPlan(1)).toMatchObject({ planNumber: 2, passageName: 'second' });
    expect(plans.latestPlan(2)).toBeNull();
    const third = plans.keepInHistory(view, { number: 1, version: 1, logNumber: 0 });
    expect(third.ok ? third.value.planNumber : third.problems).toBe(3);
  });

  it('a plan of another version of the program: in the list, but it does not stand and cannot be compared', async () => {
    keep();
    server.kept.store.plans.append({
      passageNumber: 1,
      seed: 1,
      madeAtUtc: '2026-05-27T22:00Z',
      json: '{"of":"another version"}',
      writtenAtEpochMs: 0,
    });
    expect(server.kept.plans.latestPlan(1)).toBeNull();
    expect(await text('/plans')).toContain('not known');
    expect((await fetch(`${server.url}/plans?from=1&to=2`)).status).toBe(404);
  });

  it('work of the log: the plans made last before it, with their work alone', () => {
    for (const hour of ['18', '19', '20', '21', '22']) keep({ madeAtUtc: `2026-05-27T${hour}:00Z` });
    const done = { kind: 'job', atUtc: '2026-05-27T21:30Z', jobId: 'oil', event: 'done' } as const;
    const plans = server.kept.plans.plansOfWork(1, [{ number: 1, entry: done }]);
    expect(plans.map(({ madeAtUtc }) => madeAtUtc.slice(11, 13))).toEqual(['19', '20', '21']);
    expect(plans.every(({ entries }) => entries.every(({ kind }) => kind === 'work'))).toBe(true);
    expect(server.kept.plans.plansOfWork(1, [])).toEqual([]);
  });
});

describe('the number', () => {
  it.each(['/', '/plan'])('%s: stands on the page, and leads to the list', async (path) => {
    expect(await html(path)).toMatch(/<a href="\/plans">Plan 3, made Thu 08:12 \(Wed 20:12 UTC\)<\/a>/);
  });

  it('one that could not be kept: no number, and why', async () => {
    const full = {
      code: 'store.disk-full',
      where: 'store',
      what: 'The disk is full.',
      expected: 'room',
      remedy: 'Make room.',
    };
    standing = { kind: 'ready', view: { ...view, plan: { ...plan, planNumber: null } }, notKept: [full] };
    const page = await text('/plan');
    expect(page).toContain('Plan without a number, made Thu 08:12');
    expect(page).toContain('The disk is full.');
  });
});

describe('while a new plan is made', () => {
  const making = { kind: 'planning', sinceEpochMs: 0, searchNumber: 1, searchShare: 0.4 } as const;

  it.each(['/', '/plan', '/windows', '/jobs', '/log', '/plans'])(
    '%s: the plan that stands is shown, with a line',
    async (path) => {
      standing = { ...numbered, making };
      const page = await html(path);
      expect(page).toContain('A new plan is being made');
      expect(page).toContain('What is shown is plan 3 of Thu 08:12. Searching: 40 % done.');
      expect(page).not.toContain('aria-busy');
      // It can be stopped, and the page does not go away under a form that is being filled in.
      expect(page).toContain('action="/plan/stop"');
      expect(page).not.toMatch(/http-equiv="refresh"/);
    },
  );

  it('the line asked for again: how far it is, then that another plan stands', async () => {
    standing = { ...numbered, making };
    expect(await html('/plan/making')).toMatch(/^<p id="making" hx-get="\/plan\/making".*40 % done/);
    standing = { kind: 'ready', view: { ...view, plan: { ...plan, planNumber: 4 } } };
    const line = await html('/plan/making');
    expect(line).not.toContain('hx-get');
    expect(textOf(line)).toContain('The plan that stands now is plan 4 of Thu 08:12. Load the page again.');
    standing = { ...numbered, notRenewed: [] };
    expect(await text('/plan/making')).toContain('No new plan came of it; plan 3 of Thu 08:12 stands.');
  });
});

describe('taken along', () => {
  it.each([
    ['/plan.ics', 'text/calendar', 'BEGIN:VCALENDAR'],
    ['/plan.gpx', 'application/gpx+xml', '<gpx version="1.1"'],
    ['/plan.csv', 'text/csv', 'Drop the mainsail'],
    ['/plan.txt', 'text/plain', 'WATCH BILL'],
  ])('%s: a file of its kind with the number in its name', async (path, type, holds) => {
    const answer = await fetch(server.url + path);
    expect(answer.headers.get('content-type')).toContain(type);
    expect(answer.headers.get('content-disposition')).toContain(`plan-3${path.slice(5)}`);
    expect(await answer.text()).toContain(holds);
  });

  it('no plan yet: 404, and why', async () => {
    standing = making();
    const answer = await fetch(`${server.url}/plan.ics`);
    expect([answer.status, textOf(await answer.text())]).toEqual([
      404,
      expect.stringContaining('no plan to take along'),
    ]);
  });
});

const making = (): PlanStanding => ({ kind: 'planning', sinceEpochMs: 0 });
