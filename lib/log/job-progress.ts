import { blocksOf, DEFAULT_SESSION, type Block, type Job, type Step } from '../jobs/index.ts';
import type { JobOrder } from '../passage/index.ts';
import { MS_PER_MIN } from '../time/index.ts';
import type { JobEventFile } from './entry.ts';
import type { FinishedStep, JobState } from './job-state.ts';
import type { LogNote } from './log-note.ts';

/** An event with its place in the log. */
export interface NumberedEvent {
  readonly number: number;
  readonly event: JobEventFile;
  readonly atEpochMs: number;
}

/** A job followed through its events, in order of time. */
export class JobProgress {
  private readonly job: Job;
  private readonly blocks: readonly Block[];
  private readonly finished: FinishedStep[] = [];
  private readonly notes: LogNote[] = [];
  private status: JobState['status'] = 'not-begun';
  private startedEpochMs: number | null = null;
  private lastEpochMs: number | null = null;
  private doneEpochMs: number | null = null;
  /** Since when she has been at work without a stop or safe point; null: she is not. */
  private atWorkSinceEpochMs: number | null = null;
  private workedMin = 0;
  /** Minutes at pace 1 that the passage file counts already. */
  private fileMin = 0;

  constructor(job: Job, order: Pick<JobOrder, 'isDone' | 'doneStepIds' | 'doneMin'> | null) {
    this.job = job;
    this.blocks = blocksOf(job);
    if (order === null) return;
    const doneCount = order.isDone ? job.steps.length : order.doneStepIds.length;
    this.finishTo(doneCount, null);
    this.fileMin = order.isDone ? 0 : order.doneMin;
    if (order.isDone) this.status = 'done';
    else if (doneCount > 0 || order.doneMin > 0) this.status = 'stopped';
  }

  take(of: NumberedEvent): void {
    if (this.status === 'done') {
      if (of.event.event !== 'done') this.note('after-done', of, `"${of.event.event}" comes after it was done`);
      return;
    }
    if (of.event.event === 'started') this.start(of);
    else if (of.event.event === 'done') this.finish(of);
    else this.leave(of);
    this.lastEpochMs = of.atEpochMs;
  }

  /** @param paceRatioOf own pace at a step of the job */
  state(paceRatioOf: (stepId: string) => number): JobState {
    const isDone = this.status === 'done';
    const next = this.job.steps[this.finished.length];
    const paceRatio = next === undefined ? 1 : paceRatioOf(next.id);
    const ownMin = isDone ? 0 : this.workedMin;
    return {
      jobId: this.job.id,
      status: this.status,
      startedEpochMs: this.startedEpochMs,
      lastEpochMs: this.lastEpochMs,
      doneEpochMs: this.doneEpochMs,
      finishedSteps: this.finished,
      safePointStepId: this.lastSafePoint(),
      workedMin: ownMin,
      doneMin: isDone ? 0 : this.fileMin + this.countedMin(ownMin / paceRatio),
      notes: this.notes,
    };
  }

  private start(of: NumberedEvent): void {
    if (this.status === 'under-way') return this.note('started-twice', of, 'it was under way already');
    this.status = 'under-way';
    this.startedEpochMs ??= of.atEpochMs;
    this.atWorkSinceEpochMs = of.atEpochMs;
  }

  private finish(of: NumberedEvent): void {
    if (this.startedEpochMs === null) this.note('done-unstarted', of, 'it is done, though its start was not logged');
    this.end(of.atEpochMs);
  }

  private end(atEpochMs: number): void {
    this.finishTo(this.job.steps.length, atEpochMs);
    this.status = 'done';
    this.doneEpochMs = atEpochMs;
    this.atWorkSinceEpochMs = null;
  }

  /** A safe point is reached, or the work is left. */
  private leave(of: NumberedEvent): void {
    const { event, atEpochMs } = of;
    if (this.startedEpochMs === null) {
      this.note('not-started', of, `"${event.event}" without a start in the log`);
      this.startedEpochMs = atEpochMs;
    }
    const toCount = this.reached(of);
    if (toCount > this.finished.length) {
      this.finishTo(toCount, atEpochMs);
      this.workedMin = 0;
      this.fileMin = 0;
      if (toCount === this.job.steps.length) return this.end(atEpochMs);
    } else if (event.event === 'stopped' || event.stepId === undefined)
      this.workedMin += event.workedMin ?? this.byTheClockMin(of);
    const isStopped = event.event === 'stopped' || this.status !== 'under-way';
    this.status = isStopped ? 'stopped' : 'under-way';
    if (isStopped) this.atWorkSinceEpochMs = null;
    else if (event.event === 'safe-point') this.atWorkSinceEpochMs = atEpochMs;
  }

  /** How many steps are finished for good after an event. */
  private reached(of: NumberedEvent): number {
    const { stepId, event } = of.event;
    const before = this.finished.length;
    if (stepId === undefined) return event === 'safe-point' ? this.nextSafePoint(of) : before;
    const toCount = this.job.steps.findIndex(({ id }) => id === stepId) + 1;
    if (toCount === 0) {
      this.note('step-unknown', of, `it has no step "${stepId}"`);
      return before;
    }
    if (toCount < before) this.note('step-behind', of, `"${stepId}" was finished before`);
    const keptCount = this.keptUpTo(toCount);
    if (keptCount < toCount && toCount > before)
      this.note('not-a-safe-point', of, `"${stepId}" does not end at a safe point: it goes on from the one before`);
    return Math.max(before, keptCount);
  }

  private nextSafePoint(of: NumberedEvent): number {
    const toCount = this.blockAt(this.finished.length)?.endCount ?? this.job.steps.length;
    if (toCount < this.job.steps.length) return toCount;
    this.note('safe-point-unclear', of, 'a safe point without its step, and none is left before the end');
    return this.finished.length;
  }

  /** Of so many steps worked, how many need not be worked again: to a safe point, or inside work that stops anywhere. */
  private keptUpTo(toCount: number): number {
    const block = this.blockAt(toCount - 1);
    if (block === null || block.endCount === toCount) return toCount;
    return block.block.session === null ? block.beginCount : toCount;
  }

  /** Minutes at pace 1 since the last safe point that count. */
  private countedMin(workedMin: number): number {
    const found = this.blockAt(this.finished.length);
    if (workedMin === 0 || found === null) return 0;
    if (found.block.session !== null) return workedMin;
    const firstNot = found.block.steps.findIndex(({ stop }) => stop !== 'anywhere');
    const leading: readonly Step[] = found.block.steps.slice(0, firstNot);
    const sumMin = (of: (step: Step) => number): number => leading.reduce((sum, step) => sum + of(step), 0);
    const isPassed = workedMin > sumMin(({ work }) => work.mostMin);
    return isPassed
      ? 0
      : Math.min(
          workedMin,
          sumMin(({ work }) => work.likelyMin),
        );
  }

  private byTheClockMin(of: NumberedEvent): number {
    if (this.atWorkSinceEpochMs === null) return 0;
    const sinceMin = (of.atEpochMs - this.atWorkSinceEpochMs) / MS_PER_MIN;
    const session = this.blockAt(this.finished.length)?.block.session ?? DEFAULT_SESSION;
    const takenMin = Math.round(Math.min(sinceMin, session.longestMin));
    this.note('minutes-by-clock', of, `no minutes are given: ${takenMin} min are taken from the clock`);
    return takenMin;
  }

  /** The block that a step belongs to, with the steps before it and up to its end. */
  private blockAt(stepIndex: number): { block: Block; beginCount: number; endCount: number } | null {
    let endCount = 0;
    for (const block of this.blocks) {
      const beginCount = endCount;
      endCount += block.steps.length;
      if (stepIndex >= beginCount && stepIndex < endCount) return { block, beginCount, endCount };
    }
    return null;
  }

  private lastSafePoint(): string | null {
    let [endCount, safePoint]: [number, string | null] = [0, null];
    for (const { steps } of this.blocks) {
      endCount += steps.length;
      if (endCount <= this.finished.length) safePoint = steps.at(-1)?.id ?? null;
    }
    return safePoint;
  }

  private finishTo(toCount: number, atEpochMs: number | null): void {
    for (const { id } of this.job.steps.slice(this.finished.length, toCount))
      this.finished.push({ stepId: id, atEpochMs });
  }

  private note(code: string, { number }: NumberedEvent, what: string): void {
    this.notes.push({
      code: `log.${code}`,
      entryNumbers: [number],
      text: `Entry ${number}, ${this.job.name}: ${what}.`,
    });
  }
}
