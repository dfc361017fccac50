import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ok, type Result } from '../../lib/result/index.ts';
import { deferred, type Deferred } from '../../server/deferred.ts';
import type { PassageView, PlanStanding } from '../../server/deps.ts';
import type { PlanText } from '../../server/keep-log.ts';
import { keepPlan, type PlanKeeper } from '../../server/keep-plan.ts';
import { keepViews, type KeptViews } from '../../server/keep-views.ts';
import { stopped } from '../../server/plan-run.ts';
import { programPrint } from '../../server/program-print.ts';
import { openStore, type Store } from '../../server/stores/index.ts';
import { view } from './fixture-windows.ts';
import { answerTo } from './plan-runs.ts';
import { testServer } from './test-server.ts';

let folder = '';
let store: Store;
const opened = (): Store => {
  const found = openStore(folder);
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.value;
};
const restarted = (): Store => {
  store.close();
  return (store = opened());
};
const viewsOf = (print = 'this program'): KeptViews => keepViews({ store, programPrint: () => print });
const named = (passageName: string): PassageView => ({ ...view, plan: { ...view.plan, passageName } });
const document = { number: 1, version: 3, logNumber: 7 };

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'slatch-views-'));
  store = opened();
  store.passages.create({ name: 'Tasman', json: '{}', atEpochMs: 0 });
});
afterEach(() => {
  store.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('keepViews', () => {
  it('kept, started anew: the same, every array of its kind, unknown values unknown', () => {
    const first = Float32Array.of(1.5, Number.NaN, -0);
    const picture = { ...view.picture, rainMmPerH: first };
    viewsOf().keepView({ ...view, picture }, document);
    restarted();
    expect(viewsOf().latestView(1)).toEqual({ view: { ...view, picture }, document });
  });

  it('the latest only, and of its own passage only', () => {
    const views = viewsOf();
    views.keepView(named('first'), document);
    views.keepView(named('second'), { ...document, version: 4 });
    expect(views.latestView(1)).toMatchObject({ view: { plan: { passageName: 'second' } }, document: { version: 4 } });
    expect(views.latestView(2)).toBeNull();
  });

  it('written by another program: none', () => {
    viewsOf('an older program').keepView(view, document);
    expect(viewsOf().latestView(1)).toBeNull();
  });

  it('damaged: none', () => {
    viewsOf().keepView(view, document);
    const found = store.planViews.get(1);
    if (!found.ok || found.value === null) throw new Error('nothing was kept');
    const octets = Uint8Array.from(found.value.octets, (octet, i) => (i === 40 ? octet ^ 255 : octet));
    store.planViews.keep({ ...found.value, octets });
    expect(viewsOf().latestView(1)).toBeNull();
  });

  it('the print of the program is a SHA-256, the same each time', () => {
    expect(programPrint()).toMatch(/^[0-9a-f]{64}$/);
    expect(programPrint()).toBe(programPrint());
  });
});

interface Started {
  readonly keeper: PlanKeeper;
  readonly runs: Deferred<Result<PassageView>>[];
  readonly ends: PlanStanding[];
}

/** A server's keeper over the store as it is. */
function started(): Started {
  const runs: Deferred<Result<PassageView>>[] = [];
  const ends: PlanStanding[] = [];
  const text: Result<PlanText> = ok({
    ...document,
    log: [],
    text: '{}',
    where: 'passage 1',
    folder: '.',
    storeFolder: null,
    fileName: 'passage.json',
  });
  const keeper = keepPlan({
    passageText: () => text,
    start: () => {
      const made = deferred<Result<PassageView>>();
      runs.push(made);
      return {
        finished: made.promise,
        ask: (question) => Promise.resolve(answerTo(question)),
        stop: () => undefined,
        close: () => undefined,
      };
    },
    history: {
      keepInHistory: ({ plan }) => ok({ ...plan, planNumber: 5 }),
      latestPlan: () => null,
      plansOfWork: () => [],
    },
    views: viewsOf(),
    nowEpochMs: () => 1000,
    report: () => undefined,
    onEnd: (standing) => void ends.push(standing),
  });
  return { keeper, runs, ends };
}

describe('keepPlan after a restart', () => {
  const planned = async (name: string): Promise<void> => {
    const all = started();
    all.keeper.makePlan();
    all.runs[0]?.resolve(ok(named(name)));
    await expect.poll(() => all.ends.length).toBe(1);
    expect(all.ends[0]).not.toHaveProperty('unasked');
    restarted();
  };

  it('the plan shown before is shown, with its number, while the next one is made; nobody answers for it yet', async () => {
    await planned('yesterday');
    const { keeper } = started();
    keeper.makePlan();
    expect(keeper.planStanding()).toMatchObject({
      kind: 'ready',
      view: { plan: { passageName: 'yesterday', planNumber: 5 } },
      making: { kind: 'planning' },
      unasked: { kind: 'planning' },
    });
    expect(keeper.plannedDocument()).toEqual(document);
    const asked = await keeper.askWindows({ jobId: 'drop', blockIndex: 0, handlingId: 'run-off' });
    expect(asked).toMatchObject({ ok: false, problems: [{ code: 'plan.none' }] });
  });

  it('the next plan takes its place, and its thread answers', async () => {
    await planned('yesterday');
    const { keeper, runs, ends } = started();
    keeper.makePlan();
    runs[0]?.resolve(ok(named('today')));
    await expect.poll(() => ends.length).toBe(1);
    expect(ends[0]).toMatchObject({ kind: 'ready', view: { plan: { passageName: 'today' } } });
    expect(ends[0]).not.toHaveProperty('unasked');
    expect((await keeper.askWindows({ jobId: 'drop', blockIndex: 0, handlingId: 'run-off' })).ok).toBe(true);
  });

  it('its making stopped with nothing found: still shown; what is saved next makes a plan', async () => {
    await planned('yesterday');
    const { keeper, runs, ends } = started();
    keeper.makePlan();
    runs[0]?.resolve({ ok: false, problems: [stopped] });
    await expect.poll(() => ends.length).toBe(1);
    expect(ends[0]).toMatchObject({ kind: 'ready', unasked: { kind: 'stopped' } });
    keeper.renewPlan();
    expect(runs).toHaveLength(2);
  });
});

describe('pages with a plan from before the start', () => {
  it('passage and plan: shown, and that a new one is made; windows: how far that is', async () => {
    const making = { kind: 'planning', sinceEpochMs: 0, searchShare: 0.4 } as const;
    const server = await testServer(() => ({ kind: 'ready', view, making, unasked: making }));
    const textOf = async (path: string): Promise<string> => (await fetch(server.url + path)).text();
    const [passage, plan, windows] = [await textOf('/'), await textOf('/plan'), await textOf('/windows?job=drop')];
    await server.close();
    for (const html of [passage, plan]) {
      expect(html).toContain('A new plan is being made');
      expect(html).toContain('Drop');
    }
    expect(windows).toContain('Searching: 40 % done.');
    expect(windows).not.toContain('class="hours"');
  });
});
