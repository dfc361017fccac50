/** Runs on a thread of its own: reads the passage, makes the plan, hands back what the page shows. */
import { parentPort, workerData } from 'node:worker_threads';
import { planPassage } from '../lib/planner/index.ts';
import { ok, type Result } from '../lib/result/index.ts';
import type { PassageView } from './deps.ts';
import type { PlanningMessage, PlanningTask } from './planning.ts';
import { loadPassage } from './stores/passage-files.ts';

const given: unknown = workerData;
if (!isTask(given)) throw new Error('the planning thread was started without a task');
const say = (message: PlanningMessage): void => parentPort?.postMessage(message);
say({ result: await plan(given) });

function isTask(data: unknown): data is PlanningTask {
  return typeof data === 'object' && data !== null && 'passageFile' in data && 'nowEpochMs' in data;
}

async function plan(task: PlanningTask): Promise<Result<PassageView>> {
  const loaded = await loadPassage(task.passageFile, {
    onProgress: ({ donePoints, allPoints }) => say({ readShare: donePoints / allPoints }),
  });
  if (!loaded.ok) return loaded;
  const { passage, forecast } = loaded.value;
  const planned = planPassage({ passage, forecast, nowEpochMs: passage.fixedNowEpochMs ?? task.nowEpochMs });
  return planned.ok ? ok({ plan: planned.value.plan, picture: planned.value.picture }) : planned;
}
