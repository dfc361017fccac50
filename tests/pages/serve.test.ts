import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import type { Result } from '../../lib/result/index.ts';
import type { PassageView } from '../../server/deps.ts';
import { deferred } from '../../server/deferred.ts';
import type { PlanProgress, StartPlan } from '../../server/plan-run.ts';
import { serve } from '../../server/serve.ts';
import { picture } from './fixture-plan.ts';
import { view } from './fixture-windows.ts';
import { runOf } from './plan-runs.ts';

const open: Server[] = [];
afterEach(() => {
  for (const server of open.splice(0)) server.close().closeAllConnections();
});

async function served(startPlan: StartPlan, port = 0): Promise<{ said: string[]; complained: string[]; port: number }> {
  const [said, complained]: [string[], string[]] = [[], []];
  const server = await serve({
    config: { host: '127.0.0.1', port, passageFile: null, allowedHosts: [] },
    startPlan,
    nowEpochMs: () => picture.nowEpochMs,
    print: (line) => void said.push(line),
    printError: (line) => void complained.push(line),
  });
  if (server !== null) open.push(server);
  return { said, complained, port: server === null ? 0 : (server.address() as AddressInfo).port };
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
    const stopped = deferred<Result<PassageView>>();
    const stop = (): void =>
      stopped.resolve({
        ok: false,
        problems: [{ code: 'plan.stopped', where: '', what: '', expected: '', remedy: '' }],
      });
    const { said, port } = await served(runOf(() => stopped.promise, { stop }));
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
