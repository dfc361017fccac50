import { Worker } from 'node:worker_threads';
import type { MakePlan, PassageView } from './deps.ts';
import type { Result } from '../lib/result/index.ts';

/** What the planning thread is given. */
export interface PlanningTask {
  readonly passageFile: string;
  /** Of the live clock; used unless the passage holds a fixed one. */
  readonly nowEpochMs: number;
}

/** What it says: how much of the forecast is read, 0 to 1, and at last the plan or why there is none. */
export type PlanningMessage = { readonly readShare: number } | { readonly result: Result<PassageView> };

/** Makes plans of a passage file on a thread of its own, so that pages are answered meanwhile. */
export function planOnThread(passageFile: string, nowEpochMs: () => number): MakePlan {
  return (onRead) =>
    new Promise<Result<PassageView>>((settle, fail) => {
      const task: PlanningTask = { passageFile, nowEpochMs: nowEpochMs() };
      const worker = new Worker(new URL('planning-thread.mjs', import.meta.url), { workerData: task });
      worker.on('message', (message: PlanningMessage) => {
        if ('readShare' in message) onRead(message.readShare);
        else settle(message.result);
      });
      worker.once('error', fail);
      worker.once('exit', (code) => fail(new Error(`the planning thread ended with code ${code} and no answer`)));
    });
}
