import { describe, expect, it } from 'vitest';
import { failed, ok } from '../../lib/result/index.ts';
import { askedOnce } from '../../server/kept-answers.ts';
import type { AskPlan } from '../../server/planning-messages.ts';

type Question = Parameters<AskPlan>[0];

const windowsOf = (jobId: string): Question => ({ kind: 'windows', jobId, blockIndex: 0, handlingId: 'run-off' });
const digest: Question = { kind: 'digest', nowEpochMs: 0, aheadH: 48, mostCharacterCount: 440 };

/** Notes what reaches the thread; all of it is answered alike, or refused. */
function thread(isRefused: (question: Question) => boolean = () => false): { asked: string[]; ask: AskPlan } {
  const asked: string[] = [];
  return {
    asked,
    ask: async (question) => {
      asked.push(question.kind === 'digest' ? 'digest' : question.jobId);
      if (!isRefused(question)) return ok({ kind: 'look', look: null as never });
      return failed({ code: 'x', where: 'x', what: 'x', expected: 'x', remedy: 'x' });
    },
  };
}

describe('askedOnce', () => {
  it('the same windows twice, also while the first answer is on its way: the thread is asked once', async () => {
    const { asked, ask } = thread();
    const once = askedOnce(ask);
    const [first, second] = await Promise.all([once(windowsOf('drop')), once(windowsOf('drop'))]);
    expect(second).toBe(first);
    expect(await once(windowsOf('drop'))).toBe(first);
    await once(windowsOf('stitch'));
    expect(asked).toEqual(['drop', 'stitch']);
  });

  it('a digest depends on the clock: asked each time', async () => {
    const { asked, ask } = thread();
    const once = askedOnce(ask);
    await once(digest);
    await once(digest);
    expect(asked).toEqual(['digest', 'digest']);
  });

  it('refused, or a thread that failed: asked again', async () => {
    const { asked, ask } = thread(() => true);
    const once = askedOnce(ask);
    await once(windowsOf('none'));
    await once(windowsOf('none'));
    expect(asked).toEqual(['none', 'none']);
    let calls = 0;
    const failing = askedOnce(() => {
      calls += 1;
      return Promise.reject(new Error('the thread ended'));
    });
    await expect(failing(windowsOf('drop'))).rejects.toThrow('the thread ended');
    await expect(failing(windowsOf('drop'))).rejects.toThrow('the thread ended');
    expect(calls).toBe(2);
  });

  it('25 questions: the one not asked for longest is forgotten, one asked again in between is not', async () => {
    const { asked, ask } = thread();
    const once = askedOnce(ask);
    for (let i = 0; i < 24; i += 1) await once(windowsOf(`job-${i}`));
    await once(windowsOf('job-0'));
    await once(windowsOf('job-24'));
    await once(windowsOf('job-0'));
    expect(asked).toHaveLength(25);
    await once(windowsOf('job-1'));
    expect(asked).toHaveLength(26);
  });
});
