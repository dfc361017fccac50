import type { AskPlan } from './planning-messages.ts';

/** One answer holds some hundred kB; these are the pages somebody goes back and forth between. */
const MOST_ANSWERS = 24;

/**
 * Asks each question about windows or a start once: their answers follow from the plan alone and never change with the
 * clock. Of the latest 24 questions the answers stay; refused ones and those of digests are asked anew.
 */
export function askedOnce(ask: AskPlan): AskPlan {
  const answers = new Map<string, ReturnType<AskPlan>>();
  return (question) => {
    if (question.kind === 'digest') return ask(question);
    const key = JSON.stringify(question);
    const known = answers.get(key);
    answers.delete(key);
    const answer = known ?? ask(question);
    answers.set(key, answer);
    forgetOldest(answers);
    if (known === undefined) {
      const forget = (): void => {
        if (answers.get(key) === answer) answers.delete(key);
      };
      answer.then((result) => {
        if (!result.ok) forget();
      }, forget);
    }
    return answer;
  };
}

function forgetOldest(answers: Map<string, unknown>): void {
  for (const oldest of answers.keys()) {
    if (answers.size <= MOST_ANSWERS) return;
    answers.delete(oldest);
  }
}
