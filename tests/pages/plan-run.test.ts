import { EventEmitter } from 'node:events';
import { describe, expect, it, vi } from 'vitest';
import { type PlanProgress, planRun, type PlanRun } from '../../server/plan-run.ts';
import type { NumberedQuestion, PlanningMessage, PlanningQuestion } from '../../server/planning-messages.ts';
import { lookAnswer, view, windowsAnswer } from './fixture-windows.ts';

const block = { jobId: 'drop', blockIndex: 0, handlingId: 'run-off' };
const question: PlanningQuestion = { kind: 'windows', ...block };
const look: PlanningQuestion = { kind: 'look', ...block, startEpochMs: 0 };

interface Played {
  readonly run: PlanRun;
  readonly asked: NumberedQuestion[];
  readonly progress: PlanProgress[];
  readonly state: { stopFlag: boolean; terminated: boolean };
  readonly say: (message: PlanningMessage) => void;
  readonly emit: (event: string, value: unknown) => void;
}

/** A run whose thread is played by the test. */
function played(stopGraceMs = 1000): Played {
  const emitter = new EventEmitter();
  const asked: NumberedQuestion[] = [];
  const progress: PlanProgress[] = [];
  const state = { stopFlag: false, terminated: false };
  const port = {
    postMessage: (one: NumberedQuestion): void => void asked.push(one),
    terminate: (): Promise<void> => {
      state.terminated = true;
      return Promise.resolve();
    },
    on: emitter.on.bind(emitter),
  };
  const run = planRun({
    port,
    raiseStopFlag: () => (state.stopFlag = true),
    onProgress: (one) => void progress.push(one),
    stopGraceMs,
  });
  const emit = (event: string, value: unknown): void => void emitter.emit(event, value);
  return { run, asked, progress, state, say: (message) => emit('message', message), emit };
}

const codeOf = (result: Awaited<ReturnType<PlanRun['ask']>> | Awaited<PlanRun['finished']>): string =>
  result.ok ? 'ok' : result.problems[0].code;

describe('planRun', () => {
  it('progress, then the plan', async () => {
    const { run, progress, say } = played();
    say({ readShare: 0.5 });
    say({ searchNumber: 2, searchShare: 0.25 });
    say({ result: { ok: true, value: view } });
    expect(codeOf(await run.finished)).toBe('ok');
    expect(progress).toEqual([{ readShare: 0.5 }, { searchNumber: 2, searchShare: 0.25 }]);
  });

  it('two questions answered in the other order: each gets its own answer, once', async () => {
    const { run, asked, say } = played();
    const [first, second] = [run.ask(question), run.ask(look)];
    expect(asked.map((one) => one.question.kind)).toEqual(['windows', 'look']);
    const [one, two] = asked.map(({ questionNumber }) => questionNumber);
    say({ questionNumber: two ?? 0, answer: { ok: true, value: lookAnswer({ ...block, startEpochMs: 0 }) } });
    say({ questionNumber: one ?? 0, answer: { ok: true, value: windowsAnswer(block) } });
    say({ questionNumber: one ?? 0, answer: { ok: true, value: lookAnswer({ ...block, startEpochMs: 0 }) } });
    const [a, b] = await Promise.all([first, second]);
    expect([a.ok && a.value.kind, b.ok && b.value.kind]).toEqual(['windows', 'look']);
  });

  it('problems of a question come back as they are', async () => {
    const { run, asked, say } = played();
    const answer = run.ask(question);
    const problem = { code: 'windows.job-unknown', where: 'job', what: 'No.', expected: 'one', remedy: 'Choose.' };
    say({ questionNumber: asked[0]?.questionNumber ?? 0, answer: { ok: false, problems: [problem] } });
    expect(await answer).toEqual({ ok: false, problems: [problem] });
  });

  it('a mistake while answering: that question rejects, the next is answered', async () => {
    const { run, asked, say } = played();
    const bad = run.ask(question);
    say({ questionNumber: asked[0]?.questionNumber ?? 0, mistake: 'index 7 of nothing' });
    await expect(bad).rejects.toThrow('index 7 of nothing');
    const good = run.ask(question);
    say({ questionNumber: asked[1]?.questionNumber ?? 0, answer: { ok: true, value: windowsAnswer(block) } });
    expect(codeOf(await good)).toBe('ok');
  });

  it('stop: the flag is raised, and a thread that answers in time is not ended', async () => {
    const { run, state, say } = played();
    run.stop();
    expect([state.stopFlag, state.terminated]).toEqual([true, false]);
    say({ result: { ok: true, value: view } });
    expect([codeOf(await run.finished), state.terminated]).toEqual(['ok', false]);
  });

  it('stop, and the thread does not hear it: ended after the grace, with the reason', async () => {
    vi.useFakeTimers();
    const { run, state } = played(500);
    run.stop();
    vi.advanceTimersByTime(499);
    expect(state.terminated).toBe(false);
    vi.advanceTimersByTime(1);
    vi.useRealTimers();
    expect([codeOf(await run.finished), state.terminated]).toEqual(['plan.stopped', true]);
  });

  it('closed with questions open: each is answered, and so is what comes after', async () => {
    const { run, state } = played();
    const open = run.ask(question);
    run.close();
    expect([codeOf(await open), codeOf(await run.ask(question)), codeOf(await run.finished)]).toEqual([
      'plan.closed',
      'plan.closed',
      'plan.closed',
    ]);
    expect(state.terminated).toBe(true);
  });

  it.each([
    ['error', new Error('out of memory'), 'out of memory'],
    ['exit', 1, 'ended with code 1'],
  ])('thread ends by %s: plan and questions reject with it', async (event, value, text) => {
    const { run, emit } = played();
    const open = run.ask(question);
    emit(event, value);
    await expect(open).rejects.toThrow(text);
    await expect(run.finished).rejects.toThrow(text);
    await expect(run.ask(question)).rejects.toThrow(text);
  });
});
