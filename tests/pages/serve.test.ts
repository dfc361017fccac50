import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import type { Result } from '../../lib/result/index.ts';
import type { PassageView } from '../../server/deps.ts';
import { deferred } from '../../server/deferred.ts';
import { type PlanBeginning, type PlanProgress, type StartPlan, stopped } from '../../server/plan-run.ts';
import { serve } from '../../server/serve.ts';
import { picture } from './fixture-plan.ts';
import { view } from './fixture-windows.ts';
import { runOf } from './plan-runs.ts';
import { demoText, testDocuments, type TestDocuments } from './test-documents.ts';

const open: Server[] = [];
const stores: TestDocuments[] = [];
afterEach(() => {
  for (const server of open.splice(0)) server.close().closeAllConnections();
  for (const store of stores.splice(0)) store.close();
});

interface Served {
  readonly said: string[];
  readonly complained: string[];
  readonly port: number;
  readonly kept: TestDocuments;
}

async function served(startPlan: StartPlan, port = 0, kept = testDocuments()): Promise<Served> {
  const [said, complained]: [string[], string[]] = [[], []];
  stores.push(kept);
  const server = await serve({
    config: { host: '127.0.0.1', address: '127.0.0.1', isLoopback: true, port },
    access: null,
    documents: kept.documents,
    log: kept.log,
    plans: kept.plans,
    forecasts: kept.forecasts,
    messages: kept.messages,
    startPlan,
    nowEpochMs: () => picture.nowEpochMs,
    print: (line) => void said.push(line),
    printError: (line) => void complained.push(line),
  });
  if (server !== null) open.push(server);
  return { kept, said, complained, port: server === null ? 0 : (server.address() as AddressInfo).port };
}

const good: Result<PassageView> = { ok: true, value: view };
const page = async (port: number): Promise<string> => (await fetch(`http://127.0.0.1:${port}/`)).text();

describe('serve', () => {
  it('plan still on its way: address printed and page answered; then summary and plan', async () => {
    let arrive: (result: Result<PassageView>) => void = () => undefined;
    const { said, port } = await served(runOf(() => new Promise((settle) => (arrive = settle))));
    expect(said).toEqual([`Slatch: http://127.0.0.1:${port}/`]);
    expect(await page(port)).toContain('Planning…');
    arrive(good);
    await expect.poll(() => said.length).toBe(2);
    expect(said[1]).toContain('Drop the mainsail: 86 of 100');
    expect(await page(port)).toContain('id="next-what">Drop the mainsail');
  });

  it('long work on its way: the page says how much is read, then how much of the search is done', async () => {
    let progress: (progress: PlanProgress) => void = () => undefined;
    const { port } = await served(runOf(({ onProgress }) => new Promise(() => (progress = onProgress))));
    progress({ readShare: 0.404 });
    expect(await page(port)).toContain('Reading the forecast: 40 %. 0 s so far.');
    progress({ readShare: 1 });
    expect(await page(port)).not.toContain('Reading');
    progress({ searchShare: 0.666 });
    expect(await page(port)).toContain('Searching: 66 % done. 0 s so far.');
  });

  it('stopped: the page says so and offers to make the plan', async () => {
    const ended = deferred<Result<PassageView>>();
    const stop = (): void =>
      ended.resolve({
        ok: false,
        problems: [{ code: 'plan.stopped', where: '', what: '', expected: '', remedy: '' }],
      });
    const { said, port } = await served(runOf(() => ended.promise, { stop }));
    const answer = await fetch(`http://127.0.0.1:${port}/plan/stop`, { method: 'POST', redirect: 'manual' });
    expect(answer.status).toBe(303);
    await expect.poll(() => said.length).toBe(2);
    expect(await page(port)).toMatch(/Stopped.*action="\/plan\/again"/s);
  });

  it('planner breaks: page says so, its words stand on the terminal only', async () => {
    const { complained, port } = await served(runOf(() => Promise.reject(new Error('index 7 of nothing'))));
    await expect.poll(() => complained.length).toBe(2);
    expect(complained[0]).toContain('index 7 of nothing');
    const html = await page(port);
    expect(html).toContain('The planner stopped on a mistake of its own.');
    expect(html).not.toContain('index 7');
  });

  it('passage taken over anew: the plan is made of it against the one that stands; stopped, that one is marked', async () => {
    const begun: PlanBeginning[] = [];
    let stop: () => void = () => undefined;
    const { port, kept, said } = await served((beginning) => {
      begun.push(beginning);
      const made = deferred<Result<PassageView>>();
      if (begun.length === 1) made.resolve(good);
      stop = () => made.resolve({ ok: false, problems: [stopped] });
      return { ...runOf(() => made.promise)(beginning), stop };
    });
    await expect.poll(() => said.length).toBe(2);
    kept.writeFile(demoText.replace('"name": "Torn main', '"name": "Mended main'));
    const post = (path: string, body: string): Promise<Response> =>
      fetch(`http://127.0.0.1:${port}${path}`, { method: 'POST', body: new URLSearchParams(body), redirect: 'manual' });
    expect((await post('/document/take-over', 'version=1.1')).status).toBe(303);
    expect(begun.map(({ passage, standing }) => [passage.version, standing?.passageName ?? null])).toEqual([
      [1, null],
      [2, view.plan.passageName],
    ]);
    expect(begun[1]?.passage.text).toContain('Mended main');
    // The plan that stands is shown meanwhile.
    expect(await page(port)).toMatch(/A new plan is being made.*id="next-what">Drop the mainsail/s);
    await post('/plan/stop', '');
    stop();
    await expect.poll(() => page(port)).toContain('This plan is of an earlier state of the passage');
    expect(await page(port)).toContain('It was made of version 1 of the passage; what is kept now is version 2.');
  });

  it('plan made again: of the file as it is now, where nobody has edited the passage', async () => {
    const begun: PlanBeginning[] = [];
    const { port, kept, said } = await served((beginning) => {
      begun.push(beginning);
      return runOf(async () => good)(beginning);
    });
    await expect.poll(() => said.length).toBe(2);
    kept.writeFile(demoText.replace('"name": "Torn main', '"name": "Mended main'));
    await fetch(`http://127.0.0.1:${port}/plan/again`, { method: 'POST', redirect: 'manual' });
    expect(begun.map(({ passage }) => /"name": "(\w+ main)/.exec(passage.text)?.[1])).toEqual([
      'Torn main',
      'Mended main',
    ]);
  });

  it('file changed into no passage before the start: the plan is made of what is kept, and what is wrong is printed', async () => {
    const first = testDocuments();
    await first.documents.followFile();
    first.writeFile('{');
    const { said, complained } = await served(
      runOf(async () => good),
      0,
      first,
    );
    await expect.poll(() => said.length).toBe(2);
    expect(complained).toHaveLength(1);
    expect(complained[0]).toContain('is not JSON');
  });

  it('an address others can reach, and no key to ask for: a mistake of ours, nothing listens', async () => {
    const kept = testDocuments();
    stores.push(kept);
    const serving = serve({
      config: { host: '192.0.2.1', address: '192.0.2.1', isLoopback: false, port: 0 },
      access: null,
      documents: kept.documents,
      log: kept.log,
      plans: kept.plans,
      forecasts: kept.forecasts,
      messages: kept.messages,
      startPlan: runOf(async () => good),
      nowEpochMs: () => picture.nowEpochMs,
      print: () => undefined,
      printError: () => undefined,
    });
    await expect(serving).rejects.toThrow('others can reach it, and it would ask for no key');
  });

  it('how long and how many: heads, requests, lines, and connections have an end', async () => {
    await served(runOf(async () => good));
    const [server] = open;
    expect(server).toMatchObject({
      headersTimeout: 15_000,
      requestTimeout: 1_800_000,
      keepAliveTimeout: 10_000,
      maxConnections: 256,
    });
    expect(server?.listenerCount('connection')).toBeGreaterThan(1);
    expect(server?.listenerCount('request')).toBe(2);
  });

  it('port taken: one line that says what to do, and no server', async () => {
    const first = await served(runOf(async () => good));
    const second = await served(
      runOf(async () => good),
      first.port,
    );
    expect(second.complained).toEqual([
      `Port ${first.port} is taken; start with: npm start -- --port ${first.port + 1}`,
    ]);
    expect(second.said).toEqual([]);
  });
});
