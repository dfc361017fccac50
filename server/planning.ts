import { planRun, type StartPlan } from './plan-run.ts';
import type { PlanningTask } from './planning-messages.ts';
import { planningProcesses } from './planning-processes.ts';

/**
 * Makes plans in a process of its own each, so that pages are answered meanwhile. Another process answers questions about
 * the plan afterwards, until it is closed.
 */
export function planInOwnProcess(nowEpochMs: () => number): StartPlan {
  return ({ passage, log, plans, onProgress, standing }) => {
    const task: PlanningTask = { passage, log, plans, nowEpochMs: nowEpochMs(), standing };
    const port = planningProcesses(task);
    return planRun({ port, raiseStopFlag: port.raiseStopFlag, onProgress });
  };
}
