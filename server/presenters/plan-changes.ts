import { changeReasons, jobNamesOf, planChanges, planChangesText } from '../../lib/brief/index.ts';
import type { PassageView } from './plan-standing.ts';
import { compareHref } from './plans-page.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { sentenceIn } from './units/sentence.ts';

export interface Changes {
  /** `3 changes since plan 2` */
  readonly count: string;
  /** `plan 2 of Thu 08:12` */
  readonly since: string;
  /** The two beside each other among all plans; null: one of them has no number. */
  readonly href: string | null;
  /** One sentence each; empty: nothing has changed. */
  readonly sentences: readonly string[];
}

/** Against the plan that stood before; null: there was none. */
export function planChangesSaid({ plan, picture, before }: PassageView, times: TimeTexts): Changes | null {
  if (before === null) return null;
  const { shipTimeOffsetMin, handlingNames } = picture;
  const plans = { older: before, newer: plan };
  const changes = planChanges(before, plan);
  const wording = { shipTimeOffsetMin, handlingNames, jobNames: jobNamesOf(before, plan) };
  const { planNumber } = before;
  const since = planNumber === null ? 'the plan before' : `plan ${planNumber}`;
  const sentences = planChangesText(changes, wording, changeReasons(plans, changes)).map((sentence) =>
    sentenceIn(sentence, times.units),
  );
  return {
    count: `${countText(sentences.length)} since ${since}`,
    since: `${planNumber === null ? 'the plan' : since} of ${times.dayTime(epochOf(before.madeAtUtc))}`,
    href: planNumber === null || plan.planNumber === null ? null : compareHref(planNumber, plan.planNumber),
    sentences,
  };
}

function countText(changeCount: number): string {
  if (changeCount === 0) return 'Nothing changed';
  return changeCount === 1 ? '1 change' : `${changeCount} changes`;
}
