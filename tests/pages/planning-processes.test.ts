/** The processes behind a plan: what of them is left, and what they hold to. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { appendFileSync, copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, describe, expect, it } from 'vitest';
import { planInOwnProcess } from '../../server/planning.ts';

const root = resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'planning-'));
afterAll(() => rmSync(folder, { recursive: true }));

const demo = JSON.parse(readFileSync(join(root, 'sample-forecasts/demo-passage.json'), 'utf8')) as object;
const text = JSON.stringify({
  ...demo,
  jobs: [{ id: 'oil', from: 'fastener-oil', handlings: ['hold-course'] }],
  forecasts: ['demo-control.grib2'],
  settings: { horizonH: 12, errorModel: 'none' },
});
copyFileSync(join(root, 'sample-forecasts/demo-control.grib2'), join(folder, 'demo-control.grib2'));

const isThere = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
};

const goneSoon = async (pid: number): Promise<void> => {
  while (isThere(pid)) await new Promise((settle) => setTimeout(settle, 50));
};

/** Processes begun by another, where the system tells (Linux). */
const childrenOf = (pid: number): number[] =>
  readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ').filter(Boolean).map(Number);

const isPlanning = (pid: number): boolean => readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes('planning-process');

/** Signals caught, as a mask: bit 0 is SIGHUP, which Node leaves alone and the program takes with SIGINT (Linux, proc(5)). */
const hearsSignals = (pid: number): boolean => {
  const [, mask = '0'] = /SigCgt:\s*([0-9a-f]+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
  return (BigInt(`0x${mask}`) & 1n) !== 0n;
};

describe('planning processes', () => {
  it('a forecast changed on the disk once it was read: the plan stands, and questions say so instead of answering from another forecast', async () => {
    let isChanged = false;
    const run = planInOwnProcess(() => Date.UTC(2026, 4, 27, 18))({
      passage: { number: 1, version: 1, text, where: 'passage 1', folder, storeFolder: null, fileName: 'p.json' },
      log: [],
      plans: [],
      onProgress: ({ readShare }) => {
        if (readShare !== 1 || isChanged) return;
        isChanged = true;
        appendFileSync(join(folder, 'demo-control.grib2'), 'newer');
      },
      standing: null,
    });
    expect((await run.finished).ok).toBe(true);
    const answer = await run.ask({ kind: 'windows', jobId: 'oil', blockIndex: 0, handlingId: 'hold-course' });
    expect(answer.ok ? [] : answer.problems.map(({ code }) => code)).toEqual(['plan.files-changed']);
    run.close();
  });

  it.runIf(process.platform === 'linux')(
    'the process that answers ended by the system: the open question is told so, and the next one is answered',
    async () => {
      copyFileSync(join(root, 'sample-forecasts/demo-control.grib2'), join(folder, 'kept.grib2'));
      const run = planInOwnProcess(() => Date.UTC(2026, 4, 27, 18))({
        passage: {
          number: 2,
          version: 1,
          text: text.replace('demo-control', 'kept'),
          where: 'passage 2',
          folder,
          storeFolder: null,
          fileName: 'p.json',
        },
        log: [],
        plans: [],
        onProgress: () => undefined,
        standing: null,
      });
      const windows = { kind: 'windows', jobId: 'oil', blockIndex: 0, handlingId: 'hold-course' } as const;
      const codes = async (): Promise<readonly string[]> => {
        const answer = await run.ask(windows);
        return answer.ok ? [] : answer.problems.map(({ code }) => code);
      };
      expect((await run.finished).ok).toBe(true);
      const open = codes();
      const answering = childrenOf(process.pid).filter(isPlanning);
      expect(answering).toHaveLength(1);
      for (const pid of answering) process.kill(pid, 'SIGKILL');
      expect(await open).toEqual(['plan.answering-ended']);
      expect(await codes()).toEqual([]);
      const again = childrenOf(process.pid).filter(isPlanning);
      expect(again).toHaveLength(1);
      expect(again).not.toEqual(answering);
      run.close();
      await Promise.all(again.map(goneSoon));
    },
  );

  it.runIf(process.platform === 'linux')(
    'the server killed while it plans: no process of it is left; an interrupt of the terminal does not end the plan before the server',
    async () => {
      const server: ChildProcess = spawn(
        process.execPath,
        ['--import', 'tsx', 'server/main.ts', '--port', '0', '--store', join(folder, 'store')],
        { cwd: root, stdio: ['ignore', 'pipe', 'ignore'] },
      );
      if (server.stdout === null || server.pid === undefined) throw new Error('the server did not start');
      await once(createInterface({ input: server.stdout }), 'line');
      let planning: number | undefined;
      while (planning === undefined) {
        await new Promise((settle) => setTimeout(settle, 50));
        planning = childrenOf(server.pid).find(isPlanning);
      }
      while (!hearsSignals(planning)) await new Promise((settle) => setTimeout(settle, 50));
      process.kill(planning, 'SIGINT');
      await new Promise((settle) => setTimeout(settle, 200));
      expect(isThere(planning)).toBe(true);
      server.kill('SIGKILL');
      await once(server, 'exit');
      await goneSoon(planning);
      expect(isThere(planning)).toBe(false);
    },
  );
});
