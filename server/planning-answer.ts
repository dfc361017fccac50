/** Runs in a process of its own once a plan is made: holds what questions about it need, and answers them. */
import { prepareWindows } from '../lib/planner/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import { answerOf, type Kept } from './planning-answers.ts';
import { afterLog } from './planning-log.ts';
import type { AnsweringTask, NumberedQuestion, PlanningMessage } from './planning-messages.ts';
import { printOf } from './planning-print.ts';
import { loadPassageText } from './stores/passage-files.ts';

/**
 * Prepares the passage as it was planned, but for the search, which leaves much behind that no question asks for; then
 * answers until the server ends it.
 */
export async function answerQuestions(task: AnsweringTask): Promise<void> {
  const say = (message: PlanningMessage): void => void process.send?.(message);
  const early: NumberedQuestion[] = [];
  const wait = (question: NumberedQuestion): void => void early.push(question);
  process.on('message', wait);
  const kept = await prepared(task);
  process.off('message', wait);
  const answer = ({ questionNumber, question }: NumberedQuestion): void => {
    try {
      say({ questionNumber, answer: kept.ok ? answerOf(kept.value, question) : kept });
    } catch (error) {
      say({ questionNumber, mistake: error instanceof Error ? (error.stack ?? error.message) : String(error) });
    }
  };
  process.on('message', answer);
  for (const question of early) answer(question);
}

async function prepared({ madeFrom, ...task }: AnsweringTask): Promise<Result<Kept>> {
  const loaded = await loadPassageText(task.passage);
  if (!loaded.ok) return loaded;
  if (printOf(loaded.value) !== madeFrom) return failed(changedSince);
  const nowEpochMs = loaded.value.passage.fixedNowEpochMs ?? task.nowEpochMs;
  const { forecast } = loaded.value;
  const { passage, seenWeather } = afterLog(loaded.value, task, nowEpochMs);
  const ready = prepareWindows({ passage, forecast, nowEpochMs, seenWeather });
  return ready.ok ? ok({ ...ready.value, passage, forecast }) : ready;
}

const changedSince: Problem = {
  code: 'plan.files-changed',
  where: 'the planner',
  what: 'The forecast or the track was changed on the disk after this plan was made of it.',
  expected: 'the files the plan was made of',
  remedy: 'Make the plan again.',
};
