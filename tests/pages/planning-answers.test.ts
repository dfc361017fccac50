/** Questions answered by a passage that was only prepared, beside the same questions asked of the plan itself. */
import { afterAll, describe, expect, it } from 'vitest';
import { planPassage, prepareWindows } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { answerOf, type Kept } from '../../server/planning-answers.ts';
import type { PlanningQuestion } from '../../server/planning-messages.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { removeFolders, writePassage } from '../end-to-end/small-passage.ts';
import { QUICK } from '../planner/plan-little.ts';

afterAll(removeFolders);

/** Windows of every job under every handling, and looks at starts of a day. */
function questionsOf({ passage }: Kept, nowEpochMs: number): PlanningQuestion[] {
  return passage.jobs.flatMap(({ id: jobId, handlings }) =>
    handlings.flatMap((handlingId): PlanningQuestion[] => {
      const block = { jobId, blockIndex: 0, handlingId };
      const looks = [0, 3, 7, 20].map(
        (h) => ({ kind: 'look', ...block, startEpochMs: nowEpochMs + h * MS_PER_H }) as const,
      );
      return [{ kind: 'windows', ...block }, ...looks];
    }),
  );
}

describe('answerOf', () => {
  it('prepared without a search: every answer is that of the plan, which the search does not change', async () => {
    const loaded = await loadPassage(writePassage());
    if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
    const { passage, forecast } = loaded.value;
    const nowEpochMs = passage.fixedNowEpochMs ?? passage.start.epochMs;
    const planned = planPassage({ passage, forecast, nowEpochMs }, QUICK);
    const ready = prepareWindows({ passage, forecast, nowEpochMs });
    if (!planned.ok || !ready.ok) throw new Error('the passage can be planned');
    const ofPlan: Kept = { ...planned.value, passage, forecast };
    const questions = questionsOf(ofPlan, nowEpochMs);
    expect(questions.length).toBeGreaterThan(5);
    for (const question of questions) {
      const answer = answerOf({ ...ready.value, passage, forecast }, question);
      expect(answer.ok).toBe(true);
      expect(answer).toEqual(answerOf(ofPlan, question));
    }
  });
});
