import { readinessOf, toolsLeft, type Job } from '../../jobs/index.ts';
import type { JobOrder, Passage, PlanOrders } from '../../passage/index.ts';
import { itemKey, type Locker } from '../../stock/index.ts';
import type { JobState } from '../job-state.ts';
import type { LogNote } from '../log-note.ts';
import { utcWords } from '../words.ts';
import type { Known, Noted } from './known.ts';
import { waitOver } from './wait-over.ts';

const NO_ORDER: JobOrder = {
  notBeforeEpochMs: null,
  finishByEpochMs: null,
  lockedStartEpochMs: null,
  lockedHandlingId: null,
  isDone: false,
  doneStepIds: [],
  doneMin: 0,
  tools: [],
};

/**
 * The orders after the log: what is done stays done, a job begun goes on from its last safe point, what waits for a soak
 * or a cure still running does not start before it is over, nor what needs something of the locker before that is ready.
 *
 * A start that was fixed for a job that has begun is fixed no more.
 */
export function ordersNow(passage: Passage, known: Known, locker: Locker): Noted<PlanOrders> {
  const orders = new Map(passage.orders.jobs);
  for (const state of known.states) {
    if (state.lastEpochMs === null) continue;
    orders.set(state.jobId, advanced(orders.get(state.jobId) ?? NO_ORDER, state));
  }
  const waits = runningWaits(passage, known);
  for (const { overEpochMs, jobIds } of waits) for (const id of jobIds) holdBack(orders, id, overEpochMs);
  const open = passage.jobs.filter(({ id }) => orders.get(id)?.isDone !== true);
  for (const { jobId, fromEpochMs } of readinessOf({ jobs: passage.jobs, locker, progress: orders }, open))
    if (fromEpochMs !== null) holdBack(orders, jobId, fromEpochMs);
  return { value: { ...passage.orders, jobs: orders }, notes: waits.map(({ note }) => note) };
}

function advanced(order: JobOrder, state: JobState): JobOrder {
  const isDone = state.status === 'done';
  return {
    ...order,
    isDone,
    doneStepIds: state.finishedSteps.map(({ stepId }) => stepId),
    doneMin: state.doneMin,
    lockedStartEpochMs: state.status === 'not-begun' ? order.lockedStartEpochMs : null,
  };
}

function holdBack(orders: Map<string, JobOrder>, jobId: string, untilEpochMs: number): void {
  const order = orders.get(jobId) ?? NO_ORDER;
  orders.set(jobId, { ...order, notBeforeEpochMs: Math.max(order.notBeforeEpochMs ?? -Infinity, untilEpochMs) });
}

interface RunningWait {
  readonly overEpochMs: number;
  readonly jobIds: readonly string[];
  readonly note: LogNote;
}

/** Waits begun in the log and not over yet, with the jobs that wait for them. */
function runningWaits({ jobs, orders }: Passage, known: Known): RunningWait[] {
  return known.states.flatMap((state) => {
    const job = jobs.find(({ id }) => id === state.jobId);
    const last = state.finishedSteps.at(-1);
    const step = job?.steps.find(({ id }) => id === last?.stepId);
    const wait = step?.waitAfter ?? null;
    const fromEpochMs = last?.atEpochMs ?? null;
    if (job === undefined || step === undefined || wait === null || fromEpochMs === null) return [];
    const { epochMs: overEpochMs, isInSight } = waitOver(wait, fromEpochMs, known);
    if (overEpochMs <= known.nowEpochMs) return [];
    const tools = orders.jobs.get(job.id)?.tools ?? [];
    const waiting = jobs.filter((other) => {
      if (known.states.find(({ jobId }) => jobId === other.id)?.status === 'done') return false;
      if (other.id === job.id) return state.status !== 'done';
      const comesAfter = state.status === 'done' && other.after.includes(job.id);
      return comesAfter || sharesTool(toolsLeft(other, orders.jobs), tools);
    });
    const end = isInSight ? `until about ${utcWords(overEpochMs)}` : 'with no end in sight in this cold';
    const text = `${job.name}: the ${WAIT_WORDS[wait.kind]} after "${step.name}" goes on ${end}${namesOf(waiting)}.`;
    return [
      { overEpochMs, jobIds: waiting.map(({ id }) => id), note: { code: 'log.wait-running', entryNumbers: [], text } },
    ];
  });
}

const WAIT_WORDS = { soak: 'soak', cure: 'cure', dry: 'drying', settle: 'settling' } as const;

const sharesTool = (tools: readonly string[], held: readonly string[]): boolean =>
  tools.some((tool) => held.some((other) => itemKey(other) === itemKey(tool)));

const namesOf = (waiting: readonly Job[]): string =>
  waiting.length === 0 ? '' : `; ${waiting.map(({ name }) => name).join(', ')} not before`;
