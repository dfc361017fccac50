import { SHORT_LOOKOUT_TEXT } from './lookout-text.ts';
import type { PassageView } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { watchChart } from './watch-chart.ts';
import type { WatchChart } from './watch-chart-model.ts';
import { type LongerWork, longerWork } from './watch-longer.ts';
import { type RestRuleRow, restRuleRows } from './watch-rest-rules.ts';
import { watchSentences } from './watch-sentences.ts';
import { type SleepDayRow, sleepDays, type SleepRow, sleepRows } from './watch-sleeps.ts';

/** How awake the sailor is through the plan, what its sleep buys, why work takes longer, and rest rules as yardsticks. */
export interface Watchkeeper {
  /** Before the drawing: the worst hour, where one is too tired, the low hours, the debt. */
  readonly sentences: readonly string[];
  readonly chart: WatchChart;
  readonly sleeps: readonly SleepRow[];
  /** What must be said wherever sleep appears; null: nobody sleeps. */
  readonly lookout: string | null;
  readonly days: readonly SleepDayRow[];
  /** Work against the prior sleep rule where it does not bar: ship’s time and words. */
  readonly priorSleep: readonly string[];
  readonly longer: readonly LongerWork[];
  /** Where the factors are changed. */
  readonly longerHint: string;
  readonly restRules: readonly RestRuleRow[];
  /** What the rest rules are for, and COLREG Rule 5. */
  readonly notes: readonly string[];
}

export function watchkeeper(view: PassageView, times: TimeTexts): Watchkeeper {
  const { watch } = view.plan;
  return {
    sentences: watchSentences(view, times),
    chart: watchChart(view, times),
    sleeps: sleepRows(watch, times),
    lookout: watch.sleeps.length > 0 ? SHORT_LOOKOUT_TEXT : null,
    days: sleepDays(watch, times),
    priorSleep: watch.priorSleep.map(({ startUtc, text }) => `${times.dayTime(epochOf(startUtc))}, ${text}`),
    longer: longerWork(view, times),
    longerHint:
      'Change them in the passage file, watchkeeper.timeFactors; the steps’ own dark factor with the step; your pace in watchkeeper.paceRatio.',
    restRules: restRuleRows(watch),
    notes: watch.notes,
  };
}
