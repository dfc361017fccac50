import { Worker } from 'node:worker_threads';
import { planRun, type StartPlan } from './plan-run.ts';
import type { PlanningTask } from './planning-messages.ts';

/**
 * Makes plans on a thread of its own each, so that pages are answered meanwhile. The thread lives on after the plan and
 * answers questions about it, until it is closed.
 */
export function planOnThread(nowEpochMs: () => number): StartPlan {
  return ({ passage, log, plans, onProgress, standing }) => {
    const stopFlag = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
    const workerData: PlanningTask = { passage, log, plans, nowEpochMs: nowEpochMs(), standing, stopFlag };
    const port = new Worker(new URL('planning-thread.mjs', import.meta.url), { workerData });
    return planRun({ port, raiseStopFlag: () => void Atomics.store(stopFlag, 0, 1), onProgress });
  };
}
