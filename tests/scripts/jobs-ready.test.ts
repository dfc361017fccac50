import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import type { Plan } from '../../lib/planner/index.ts';
import { printReadiness } from '../../scripts/commands/jobs-ready.ts';
import { slatch } from '../end-to-end/run-slatch.ts';
import { deckJob, folderWith, removeFolders, utcAtH, writePassage } from '../end-to-end/small-passage.ts';

// Readiness of an invented passage, and that the plan goes by it. The words are ours.

afterAll(removeFolders);
const DEMO = fileURLToPath(new URL('../../sample-forecasts/demo-passage.json', import.meta.url));

async function ready(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const code = await printReadiness(args, {
    out: (text) => (out += text),
    err: (text) => (err += text),
    readFile: (path) => readFile(path),
    nowEpochMs: () => Date.UTC(2026, 4, 28),
  });
  return { code, out, err };
}

const job = (id: string, item: string | null, more: Readonly<Record<string, unknown>> = {}) => {
  const [work] = deckJobSteps();
  const materials = item === null ? [] : [{ item, amount: 1, unit: 'pieces' }];
  return deckJob(id, { steps: [{ ...work, materials }], ...more });
};
function deckJobSteps(): readonly object[] {
  const made = deckJob('x');
  return 'steps' in made && Array.isArray(made.steps) ? (made.steps as object[]) : [];
}

/** `late` from hour 12 on, `swap` once `bench` is done, `twice` short of the one rod that `bench` takes, `saw` without its tool. */
const passage = {
  jobs: [
    job('bench', 'rod', { priority: 8, makes: [{ item: 'batten', amount: 1, unit: 'pieces' }] }),
    job('swap', 'batten', { priority: 8, after: ['bench'] }),
    job('late', 'epoxy', { priority: 5 }),
    job('twice', 'rod', { priority: 3 }),
    job('saw', null, { priority: 3, needsTools: ['hacksaw'] }),
  ],
  locker: [
    { item: 'rod', unit: 'pieces', onBoard: 2, keep: 1 },
    { item: 'epoxy', unit: 'pieces', onBoard: 1, readyUtc: utcAtH(12) },
    { item: 'pliers', unit: 'pieces', onBoard: 1, kind: 'tool' },
  ],
};

describe('slatch jobs ready', () => {
  test('text: ready, from when, once what is done, not, with reasons and amounts', async () => {
    const { code, out } = await ready(writePassage({ passage, forecast: null }));
    expect(code).toBe(0);
    const lines = out.split('\n').map((line) => line.trim());
    expect(lines).toContain('bench  ready: Job bench');
    expect(lines).toContain('"twice" then goes short of 1 piece of rod.');
    expect(lines).toContain('swap   ready once "bench" is done: Job swap');
    expect(lines).toContain(`late   ready from ${utcAtH(12)}: Job late`);
    expect(lines).toContain('twice  not ready: Job twice');
    expect(lines).toContain(
      'rod: short by 1 piece; 1 piece needed, 2 pieces on board, 1 piece reserve, "bench" takes 1 piece.',
    );
    expect(lines).toContain('The locker does not list the tool "hacksaw".');
  });

  test('--json: the same with amounts as numbers', async () => {
    const { out } = await ready(writePassage({ passage, forecast: null }), '--json');
    const { jobs } = JSON.parse(out) as { readonly jobs: readonly Record<string, unknown>[] };
    expect(jobs.map(({ jobId, status }) => [jobId, status])).toEqual([
      ['bench', 'ready'],
      ['swap', 'later'],
      ['late', 'later'],
      ['twice', 'not'],
      ['saw', 'not'],
    ]);
    expect(jobs[1]).toMatchObject({ madeByJobIds: ['bench'], readyFromUtc: null });
    expect(Date.parse(String(jobs[2]?.['readyFromUtc']))).toBe(Date.parse(utcAtH(12)));
    expect(jobs[3]?.['findings']).toMatchObject([{ code: 'material-short', neededAmount: 1, shortAmount: 1 }]);
  });

  test('the demo passage: every job ready, or once the one before it has made its batten', async () => {
    const { out } = await ready(DEMO, '--json');
    const { jobs } = JSON.parse(out) as {
      readonly jobs: readonly { readonly jobId: string; readonly status: string }[];
    };
    expect(jobs.filter(({ status }) => status !== 'ready').map(({ jobId }) => jobId)).toEqual(['swap']);
    expect(jobs.find(({ jobId }) => jobId === 'swap')?.status).toBe('later');
  });

  test('a passage that is wrong: exit code 1; none given: wrong use', async () => {
    const wrong = await ready(writePassage({ passage: { locker: [{ item: 'x', unit: 'm' }] }, forecast: null }));
    expect([wrong.code, wrong.out]).toEqual([1, '']);
    expect(wrong.err).toContain('locker[0].onBoard: It is missing.');
    expect((await ready(join(folderWith({}), 'none.json'))).code).toBe(1);
    await expect(ready()).rejects.toThrow('no passage file is given');
  });

  test('slatch plan of the same passage: none that is not ready, none before it is ready', async () => {
    const { code, out, err } = await slatch('plan', writePassage({ passage }), '--json');
    expect(code, err).toBe(0);
    const plan = JSON.parse(out) as Plan;
    const startMs = (jobId: string): number =>
      Date.parse(plan.jobs.find((of) => of.jobId === jobId)?.startUtc ?? 'not planned');
    const endMs = (jobId: string): number => Date.parse(plan.jobs.find((of) => of.jobId === jobId)?.endUtc ?? '');
    expect(plan.jobs.map(({ jobId, status }) => [jobId, status])).toEqual([
      ['bench', 'planned'],
      ['swap', 'planned'],
      ['late', 'planned'],
      ['twice', 'unplanned'],
      ['saw', 'unplanned'],
    ]);
    expect(startMs('late')).toBeGreaterThanOrEqual(Date.parse(utcAtH(12)));
    expect(startMs('swap')).toBeGreaterThanOrEqual(endMs('bench'));
    const misses = plan.jobs.flatMap(({ nearestMiss }) => (nearestMiss === null ? [] : [nearestMiss]));
    expect(misses.map(({ reason }) => reason)).toEqual(['materials', 'materials']);
    expect(misses[0]?.text).toContain('rod: short by 1 piece.');
    expect(misses[1]?.text).toContain('does not list the tool "hacksaw"');
  });
});
