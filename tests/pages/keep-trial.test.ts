/** The keeper of trials: one at a time, of now or said to be of an earlier state, saved only when it is taken. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ok, type Result } from '../../lib/result/index.ts';
import type { PassageView } from '../../server/deps.ts';
import { stopped } from '../../server/plan-run.ts';
import type { PlanStanding } from '../../server/presenters/plan-standing.ts';
import type { AskedTrial } from '../../server/keep-trial.ts';
import { broken, made, missedView, TRIED_UTC, triedView } from './fixture-trial.ts';
import { view } from './fixture-windows.ts';
import { testDocuments, type TestDocuments } from './test-documents.ts';
import { testTrials, type TestTrials } from './test-trials.ts';

let kept: TestDocuments;
let trials: TestTrials;
let pressed: string[];
let standing: PlanStanding;

beforeEach(async () => {
  kept = testDocuments();
  await kept.documents.followFile();
  pressed = [];
  standing = { kind: 'ready', view };
  trials = testTrials({ kept, standing: () => standing, pressed });
});
afterEach(() => {
  trials.keeper.close();
  kept.close();
});

const asked = (startUtc = TRIED_UTC, version = 1): AskedTrial => ({
  expected: { number: 1, version },
  tried: { jobId: 'drop', partIndex: 0, shownHandlingId: 'run-off', startUtc },
  change: (file) =>
    ok({ ...file, jobs: (file.jobs ?? []).map((job) => (job.id === 'drop' ? { ...job, startUtc } : job)) }),
});
const codesOf = (result: Result<unknown>): string[] => (result.ok ? [] : result.problems.map(({ code }) => code));
const stateNow = (): string => trials.keeper.trial()?.state.kind ?? 'none';
const versionNow = (): number => {
  const text = kept.documents.passageText();
  return text.ok ? text.value.version : 0;
};
const lockedStart = (): unknown => {
  const text = kept.documents.passageText();
  if (!text.ok) throw new Error('no passage');
  const file = JSON.parse(text.value.text) as { jobs: readonly { id: string; startUtc?: string }[] };
  return file.jobs.find(({ id }) => id === 'drop')?.startUtc;
};

async function tried(result: Result<PassageView>): Promise<number> {
  await trials.keeper.beginTrial(asked());
  trials.runs.at(-1)?.made.resolve(result);
  await expect.poll(stateNow).not.toBe('planning');
  return trials.keeper.trial()?.number ?? 0;
}
const edit = (version: number, name: string): Promise<unknown> =>
  kept.documents.savePassage({ expected: { number: 1, version }, change: (file) => ok({ ...file, name }) });

describe('beginTrial', () => {
  it('planned is the passage with that start, from the plan that stands; nothing is saved', async () => {
    const begun = await trials.keeper.beginTrial(asked());
    expect(begun).toMatchObject({
      ok: true,
      value: { tried: { jobName: 'Drop the mainsail' }, state: { kind: 'planning' }, outdated: null },
    });
    const beginning = trials.runs[0]?.beginning;
    expect(beginning?.passage.text).toContain(`"startUtc": "${TRIED_UTC}"`);
    expect(beginning?.standing).toBe(view.plan);
    expect([versionNow(), lockedStart(), pressed]).toEqual([1, undefined, []]);
  });

  it('the same twice: one run; another start: the first is ended, and only the second is there', async () => {
    const first = await trials.keeper.beginTrial(asked());
    const again = await trials.keeper.beginTrial(asked());
    expect([first.ok && first.value.number, again.ok && again.value.number, trials.runs.length]).toEqual([1, 1, 1]);
    await trials.keeper.beginTrial(asked('2026-05-28T04:00Z'));
    expect([trials.runs.map(({ closed }) => closed), trials.keeper.trial()?.number]).toEqual([[true, false], 2]);
    // What comes late of the first is no answer to the second.
    trials.runs[0]?.made.resolve(made(triedView));
    await Promise.resolve();
    expect(stateNow()).toBe('planning');
  });

  it.each<[string, PlanStanding, string]>([
    ['no plan', { kind: 'stopped' }, 'trial.no-plan'],
    [
      'a new plan in the making',
      { kind: 'ready', view, making: { kind: 'planning', sinceEpochMs: 0 } },
      'trial.plan-in-the-making',
    ],
  ])('%s: refused', async (_name, now, code) => {
    standing = now;
    expect(codesOf(await trials.keeper.beginTrial(asked()))).toEqual([code]);
    expect(trials.runs).toHaveLength(0);
  });

  it('the plan that stands is of an earlier state: refused', async () => {
    trials.of = { number: 1, version: 0, logNumber: 0 };
    expect(codesOf(await trials.keeper.beginTrial(asked()))).toEqual(['trial.plan-outdated']);
  });

  it('from an old page, a start that is none, and what is locked already: each refused with its reason', async () => {
    await edit(1, 'Edited');
    expect(codesOf(await trials.keeper.beginTrial(asked()))).toEqual(['store.version-conflict']);
    expect(codesOf(await trials.keeper.beginTrial(asked('noon', 2)))).not.toEqual([]);
    await kept.documents.savePassage(asked(TRIED_UTC, 2));
    expect(codesOf(await trials.keeper.beginTrial(asked(TRIED_UTC, 3)))).toEqual(['trial.nothing-to-try']);
    expect(trials.runs).toHaveLength(0);
  });
});

describe('while and after it is made', () => {
  it('progress is told; stop: said at once, and the best found is shown', async () => {
    await trials.keeper.beginTrial(asked());
    trials.runs[0]?.beginning.onProgress({ searchShare: 0.4 });
    trials.keeper.stopTrial(7);
    expect(trials.runs[0]?.stopCount).toBe(0);
    trials.keeper.stopTrial(1);
    expect(trials.keeper.trial()?.state).toMatchObject({ searchShare: 0.4, isStopping: true });
    expect(trials.runs[0]?.stopCount).toBe(1);
    trials.runs[0]?.made.resolve(made({ ...triedView, isStoppedEarly: true }));
    await expect.poll(stateNow).toBe('ready');
  });

  it('stopped with nothing found, failed, broken: said, and its thread is ended', async () => {
    await tried({ ok: false, problems: [stopped] });
    expect([stateNow(), trials.runs[0]?.closed]).toEqual(['stopped', true]);
    await trials.keeper.beginTrial(asked('2026-05-28T04:00Z'));
    trials.runs[1]?.made.resolve(broken);
    await expect.poll(stateNow).toBe('failed');
    await trials.keeper.beginTrial(asked('2026-05-28T05:00Z'));
    trials.runs[2]?.made.reject(new Error('index 7'));
    await expect.poll(stateNow).toBe('failed');
    expect(trials.reported).toHaveLength(1);
    expect(JSON.stringify(trials.keeper.trial()?.state)).not.toContain('index 7');
  });

  it('left: gone, its thread ended; of another number: nothing happens', async () => {
    const number = await tried(made(triedView));
    trials.keeper.leaveTrial(number + 1);
    expect(stateNow()).toBe('ready');
    trials.keeper.leaveTrial(number);
    expect([stateNow(), trials.runs[0]?.closed, versionNow()]).toEqual(['none', true, 1]);
  });

  it('passage, log, plan or hour of it are past: said which', async () => {
    const live = { ...view, picture: { ...view.picture, clock: 'live' as const } };
    standing = { kind: 'ready', view: live };
    await tried(made(triedView));
    const outdated = (): unknown => trials.keeper.trial()?.outdated;
    expect(outdated()).toBeNull();
    trials.nowEpochMs = Date.parse(TRIED_UTC) + 1;
    expect(outdated()).toBe('start-passed');
    standing = { kind: 'ready', view: { ...view } };
    expect(outdated()).toBe('plan');
    const entry = { kind: 'sleep' as const, atUtc: '2026-05-27T12:00Z', endUtc: '2026-05-27T13:00Z' };
    await kept.log.writeLog({ passageNumber: 1, entry, atEpochMs: 0, formToken: 'x' });
    expect(outdated()).toBe('log');
    await edit(1, 'Edited');
    expect(outdated()).toBe('passage');
  });

  it('the clock of the passage is held: its start does not pass', async () => {
    await tried(made(triedView));
    trials.nowEpochMs = Date.parse(TRIED_UTC) + 1;
    expect(trials.keeper.trial()?.outdated).toBeNull();
  });
});

describe('takeTrial', () => {
  it('saved as one version, and its plan stands as one of that version, not planned again', async () => {
    const number = await tried(made(triedView));
    const taken = await trials.keeper.takeTrial(number);
    expect([taken.ok && taken.value.version, versionNow(), lockedStart()]).toEqual([2, 2, TRIED_UTC]);
    expect(trials.taken).toMatchObject([{ document: { number: 1, version: 2, logNumber: 0 }, view: triedView }]);
    // What is asked for last does nothing where the plan is of now.
    expect(pressed).toEqual(['take', 'renew']);
    expect([stateNow(), trials.runs[0]?.closed]).toEqual(['none', false]);
  });

  it('work of it has begun meanwhile: it stands, and is planned again from it', async () => {
    const live = { ...view, picture: { ...view.picture, clock: 'live' as const } };
    standing = { kind: 'ready', view: live };
    const number = await tried(made({ ...triedView, picture: live.picture }));
    // After the first work of the plan, and before the start that is tried.
    trials.nowEpochMs = Date.parse(TRIED_UTC) - 60_000;
    expect((await trials.keeper.takeTrial(number)).ok).toBe(true);
    expect(pressed).toEqual(['take', 'make']);
  });

  it('the passage was changed since: refused and told, nothing is written, the trial is there still', async () => {
    const number = await tried(made(triedView));
    await edit(1, 'Edited in another tab');
    expect(codesOf(await trials.keeper.takeTrial(number))).toEqual(['trial.outdated']);
    expect([versionNow(), lockedStart(), pressed, stateNow()]).toEqual([2, undefined, [], 'ready']);
  });

  it('changed while it is being taken: the version check of the store refuses it', async () => {
    const number = await tried(made(triedView));
    const { savePassage } = kept.documents;
    const racing = testTrials({
      kept: {
        ...kept,
        documents: {
          ...kept.documents,
          savePassage: async (change) => {
            await edit(1, 'Faster');
            return savePassage(change);
          },
        },
      },
      standing: () => standing,
      pressed,
    });
    await racing.keeper.beginTrial(asked());
    racing.runs[0]?.made.resolve(made(triedView));
    await expect.poll(() => racing.keeper.trial()?.state.kind).toBe('ready');
    expect(codesOf(await racing.keeper.takeTrial(1))).toEqual(['store.version-conflict']);
    expect([racing.taken.length, racing.keeper.trial()?.outdated, number]).toEqual([0, 'passage', 1]);
  });

  it('gone, not finished, or without the job: refused', async () => {
    expect(codesOf(await trials.keeper.takeTrial(1))).toEqual(['trial.gone']);
    await trials.keeper.beginTrial(asked());
    expect(codesOf(await trials.keeper.takeTrial(1))).toEqual(['trial.not-finished']);
    const number = await tried(made(missedView));
    expect(codesOf(await trials.keeper.takeTrial(number))).toEqual(['trial.job-not-planned']);
    expect(versionNow()).toBe(1);
  });
});
