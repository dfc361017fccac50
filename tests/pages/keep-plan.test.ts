import { describe, expect, it } from 'vitest';
import type { Plan } from '../../lib/planner/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { type Deferred, deferred } from '../../server/deferred.ts';
import type { PassageView, PlanStanding } from '../../server/deps.ts';
import type { PlannedOf, PlanText } from '../../server/keep-log.ts';
import { keepPlan, type PlanKeeper } from '../../server/keep-plan.ts';
import { stopped } from '../../server/plan-run.ts';
import { view as fixture, windowsAnswer } from './fixture-windows.ts';
import { answerTo } from './plan-runs.ts';

const block = { jobId: 'drop', blockIndex: 0, handlingId: 'run-off' };

/** A passage at a version. */
const textAt = (version: number, logNumber = 0, number = 1): Result<PlanText> => ({
  ok: true,
  value: {
    number,
    version,
    logNumber,
    log: [],
    text: '{}',
    where: 'passage 1',
    folder: '.',
    storeFolder: null,
    fileName: 'passage.json',
  },
});

interface Kept {
  readonly keeper: PlanKeeper;
  /** Which version the passage is at. */
  readonly passage: { text: Result<PlanText> };
  /** What was kept so far, and the latest plan of an earlier start. */
  readonly history: { readonly of: PlannedOf[]; latest: Plan | null; isFull: boolean };
  readonly runs: {
    readonly version: number;
    readonly made: Deferred<Result<PassageView>>;
    readonly standing: Plan | null;
    closed: boolean;
    stopCount: number;
  }[];
  readonly ends: PlanStanding[];
  readonly reported: unknown[];
}

function kept(): Kept {
  const runs: Kept['runs'] = [];
  const ends: PlanStanding[] = [];
  const reported: unknown[] = [];
  const passage = { text: textAt(1) };
  const history: Kept['history'] = { of: [], latest: null, isFull: false };
  const keeper = keepPlan({
    passageText: () => passage.text,
    start: ({ standing, passage: { version } }) => {
      const run = { version, made: deferred<Result<PassageView>>(), standing, closed: false, stopCount: 0 };
      const name = `plan ${runs.push(run)}`;
      return {
        finished: run.made.promise,
        ask: (question) =>
          Promise.resolve(
            question.kind === 'windows'
              ? {
                  ok: true,
                  value: { ...windowsAnswer(question), windows: { jobId: name, windows: [], nearestMisses: [] } },
                }
              : answerTo(question),
          ),
        stop: () => (run.stopCount += 1),
        close: () => (run.closed = true),
      };
    },
    history: {
      keepInHistory: ({ plan }, of) => {
        if (history.isFull) return { ok: false, problems: [fullDisk] };
        return { ok: true, value: { ...plan, planNumber: history.of.push(of) } };
      },
      latestPlan: () => history.latest,
      plansOfWork: () => [],
    },
    nowEpochMs: () => 1000,
    report: (error) => void reported.push(error),
    onEnd: (standing) => void ends.push(standing),
  });
  return { keeper, passage, history, runs, ends, reported };
}

const fullDisk = { code: 'store.disk-full', where: 'store', what: 'Full.', expected: 'room', remedy: 'Make room.' };

const view = (passageName: string): Result<PassageView> => ({
  ok: true,
  value: { ...fixture, plan: { ...fixture.plan, passageName } },
});
const shownName = ({ keeper }: Kept): string => {
  const standing = keeper.planStanding();
  return standing.kind === 'ready' ? standing.view.plan.passageName : standing.kind;
};
/** Which thread answers; a problem's code where none does. */
const answering = async ({ keeper }: Kept): Promise<string> => {
  const answer = await keeper.askWindows(block);
  return answer.ok ? answer.value.windows.jobId : answer.problems[0].code;
};

describe('keepPlan', () => {
  it('before the first plan: planning, and questions are told so', async () => {
    const all = kept();
    expect(all.runs).toHaveLength(0);
    all.keeper.makePlan();
    expect([shownName(all), await answering(all)]).toEqual(['planning', 'plan.none']);
  });

  it('plan made: shown, and its thread answers', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    expect([shownName(all), await answering(all), all.runs[0]?.closed]).toEqual(['first', 'plan 1', false]);
    expect((await all.keeper.askLook({ ...block, startEpochMs: 7 })).ok).toBe(true);
  });

  it('asked for twice while in the making: made once', () => {
    const all = kept();
    all.keeper.makePlan();
    all.keeper.makePlan();
    expect(all.runs).toHaveLength(1);
  });

  it('made again: the old thread answers until the new plan is there, then it is ended', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.keeper.makePlan();
    expect(all.keeper.planStanding()).toMatchObject({
      kind: 'ready',
      making: { kind: 'planning', sinceEpochMs: 1000 },
    });
    expect([shownName(all), await answering(all)]).toEqual(['first', 'plan 1']);
    all.runs[1]?.made.resolve(view('second'));
    await expect.poll(() => all.ends.length).toBe(2);
    expect([shownName(all), await answering(all), all.runs.map(({ closed }) => closed)]).toEqual([
      'second',
      'plan 2',
      [true, false],
    ]);
    // The first is made from nothing, the second against the plan that stood.
    expect(all.runs.map(({ standing }) => standing?.passageName ?? null)).toEqual([null, 'first']);
  });

  it('stopped: said at once, then stopped; with an earlier plan, that one stands again', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.keeper.stopPlan();
    expect([all.keeper.planStanding(), all.runs[0]?.stopCount]).toEqual([
      { kind: 'planning', sinceEpochMs: 1000, isStopping: true },
      1,
    ]);
    all.runs[0]?.made.resolve({ ok: false, problems: [stopped] });
    await expect.poll(() => all.ends.length).toBe(1);
    expect(shownName(all)).toBe('stopped');
    all.keeper.makePlan();
    all.runs[1]?.made.resolve(view('second'));
    await expect.poll(() => all.ends.length).toBe(2);
    all.keeper.makePlan();
    all.keeper.stopPlan();
    expect(all.keeper.planStanding()).toMatchObject({ kind: 'ready', making: { isStopping: true } });
    all.runs[2]?.made.resolve({ ok: false, problems: [stopped] });
    await expect.poll(() => all.ends.length).toBe(3);
    expect([shownName(all), await answering(all)]).toEqual(['second', 'plan 2']);
  });

  it('nothing in the making: stop does nothing', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.keeper.stopPlan();
    expect([shownName(all), all.runs[0]?.stopCount]).toEqual(['first', 0]);
  });

  it('planner breaks: reported, and a problem without its words', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.reject(new Error('index 7'));
    await expect.poll(() => all.ends.length).toBe(1);
    expect([shownName(all), all.reported.length]).toEqual(['failed', 1]);
    expect(JSON.stringify(all.ends)).not.toContain('index 7');
  });

  it('made again and failed: the plan that stood is shown with what went wrong, and its thread still answers', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.keeper.makePlan();
    const problem = {
      code: 'passage.not-json',
      where: 'passage.json',
      what: 'A comma.',
      expected: 'JSON',
      remedy: 'Go.',
    };
    all.runs[1]?.made.resolve({ ok: false, problems: [problem] });
    await expect.poll(() => all.ends.length).toBe(2);
    expect(all.ends[1]).toMatchObject({ kind: 'ready', notRenewed: [problem] });
    expect([shownName(all), await answering(all)]).toEqual(['first', 'plan 1']);
    all.keeper.makePlan();
    all.runs[2]?.made.resolve(view('third'));
    await expect.poll(() => all.ends.length).toBe(3);
    expect(all.ends[2]).not.toHaveProperty('notRenewed');
  });

  it('passage saved while a plan is in the making: that one is ended, and one of the new text begun', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.passage.text = textAt(2);
    all.keeper.renewPlan();
    expect(all.runs.map(({ version, closed }) => [version, closed])).toEqual([
      [1, true],
      [2, false],
    ]);
    // What the ended one still says counts for nothing.
    all.runs[0]?.made.resolve(view('of the old text'));
    await Promise.resolve();
    expect([shownName(all), all.keeper.plannedDocument()]).toEqual(['planning', null]);
    all.runs[1]?.made.resolve(view('of the new text'));
    await expect.poll(() => all.ends.length).toBe(1);
    expect([shownName(all), all.keeper.plannedDocument()]).toEqual([
      'of the new text',
      { number: 1, version: 2, logNumber: 0 },
    ]);
  });

  it('passage saved after the plan: made anew against the plan that stands; asked again without a change: not', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.keeper.renewPlan();
    expect(all.runs).toHaveLength(1);
    all.passage.text = textAt(2);
    all.keeper.renewPlan();
    all.keeper.renewPlan();
    expect(all.runs.map(({ version, standing }) => [version, standing?.passageName ?? null])).toEqual([
      [1, null],
      [2, 'first'],
    ]);
  });

  it('another passage shown: the plan of the one before is let go at once, and stands for nothing', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.passage.text = textAt(1, 0, 2);
    all.keeper.renewPlan();
    expect([shownName(all), all.keeper.plannedDocument(), all.runs[0]?.closed]).toEqual(['planning', null, true]);
    expect(all.runs[1]?.standing).toBeNull();
    expect(await answering(all)).toBe('plan.none');
    all.keeper.stopPlan();
    all.runs[1]?.made.resolve({ ok: false, problems: [stopped] });
    await expect.poll(() => all.ends.length).toBe(2);
    expect(shownName(all)).toBe('stopped');
  });

  it('stopped while a changed passage is planned: the earlier plan stands, and is known to be of the earlier text', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.passage.text = textAt(2);
    all.keeper.renewPlan();
    all.keeper.stopPlan();
    all.runs[1]?.made.resolve({ ok: false, problems: [stopped] });
    await expect.poll(() => all.ends.length).toBe(2);
    expect([shownName(all), all.keeper.plannedDocument()]).toEqual(['first', { number: 1, version: 1, logNumber: 0 }]);
  });

  it('no passage: its problems, and no thread is started', () => {
    const all = kept();
    const problem = { code: 'passage.none', where: 'here', what: 'None.', expected: 'one', remedy: 'Give one.' };
    all.passage.text = { ok: false, problems: [problem] };
    all.keeper.makePlan();
    expect([all.keeper.planStanding(), all.runs.length]).toEqual([{ kind: 'failed', problems: [problem] }, 0]);
    all.passage.text = textAt(1);
    all.keeper.makePlan();
    expect(shownName(all)).toBe('planning');
  });

  it('closed: every thread is ended, and nobody is told of it', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.keeper.makePlan();
    all.keeper.close();
    all.runs[1]?.made.resolve({ ok: false, problems: [stopped] });
    await Promise.resolve();
    expect([all.runs.map(({ closed }) => closed), all.ends.length]).toEqual([[true, true], 1]);
  });

  it('an entry of the log after the plan: made anew with it, and known to be of that log', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.passage.text = textAt(1, 4);
    all.keeper.renewPlan();
    all.keeper.renewPlan();
    expect(all.runs).toHaveLength(2);
    expect(shownName(all)).toBe('first');
    all.runs[1]?.made.resolve(view('second'));
    await expect.poll(() => all.ends.length).toBe(2);
    expect(all.keeper.plannedDocument()).toEqual({ number: 1, version: 1, logNumber: 4 });
  });

  it('every finished plan: kept with a number and what it was made of; one that was ended is not', async () => {
    const all = kept();
    all.keeper.makePlan();
    all.passage.text = textAt(2);
    all.keeper.renewPlan();
    all.runs[0]?.made.resolve(view('ended'));
    all.runs[1]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    all.passage.text = textAt(2, 7);
    all.keeper.renewPlan();
    all.runs[2]?.made.resolve(view('second'));
    await expect.poll(() => all.ends.length).toBe(2);
    expect(all.history.of).toEqual([
      { number: 1, version: 2, logNumber: 0 },
      { number: 1, version: 2, logNumber: 7 },
    ]);
    const standing = all.keeper.planStanding();
    expect(standing.kind === 'ready' ? standing.view.plan.planNumber : null).toBe(2);
    // The plan before it, as it is kept.
    expect(all.runs[2]?.standing?.planNumber).toBe(1);
  });

  it('after a start: the latest plan kept is the one that stands for the planner', () => {
    const all = kept();
    all.history.latest = { ...fixture.plan, passageName: 'of yesterday' };
    all.keeper.makePlan();
    expect(all.runs[0]?.standing?.passageName).toBe('of yesterday');
    expect(shownName(all)).toBe('planning');
  });

  it('no room on the disk: the plan is shown all the same, and why it could not be kept', async () => {
    const all = kept();
    all.history.isFull = true;
    all.keeper.makePlan();
    all.runs[0]?.made.resolve(view('first'));
    await expect.poll(() => all.ends.length).toBe(1);
    expect(all.ends[0]).toMatchObject({ kind: 'ready', notKept: [fullDisk] });
    expect(shownName(all)).toBe('first');
  });
});
