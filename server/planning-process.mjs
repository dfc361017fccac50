// Plain JavaScript, because a process starts without the loader that reads TypeScript.
import { Worker } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

// Ctrl-C reaches every process of the terminal: the server ends this one when it ends itself.
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => undefined);

/** One word that both threads see: 1 once the plan is no longer wanted. */
const stopFlag = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
// The search leaves its thread no time to listen: another one does.
new Worker(new URL('planning-stop.mjs', import.meta.url), { workerData: stopFlag }).unref();

register();
const { makePlan } = await import('./planning-make.ts');
const { answerQuestions } = await import('./planning-answer.ts');
process.once(
  'message',
  (task) => void (task.madeFrom === undefined ? makePlan(task, stopFlag) : answerQuestions(task)),
);
