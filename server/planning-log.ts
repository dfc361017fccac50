import {
  adjustByLog,
  effectiveEntries,
  matchForecast,
  matchText,
  passageAfterLog,
  seenOfLog,
} from '../lib/log/index.ts';
import type { Passage } from '../lib/passage/index.ts';
import type { PlanInput } from '../lib/planner/index.ts';
import type { PlanningTask } from './planning-messages.ts';
import type { FromLog } from './presenters/plan-standing.ts';

/** What a plan is made of once the log is read. */
export interface AfterLog {
  readonly passage: Passage;
  /** Weighs and shifts the scenarios by what was seen. */
  readonly seenWeather: NonNullable<PlanInput['seenWeather']>;
  /** What the log told; of the forecast only once a plan is made. */
  readonly fromLog: () => FromLog;
}

/** The passage as it stands after its log, and the forecast as it was seen. */
export function afterLog(
  passage: Passage,
  { log, plans }: Pick<PlanningTask, 'log' | 'plans'>,
  nowEpochMs: number,
): AfterLog {
  const after = passageAfterLog(passage, log, nowEpochMs, { plans });
  const { seen, placelessCount } = seenOfLog(effectiveEntries(log), passage.boat, nowEpochMs);
  let match: readonly string[] = [];
  return {
    passage: after.passage,
    seenWeather: (set, purpose) => {
      const found = matchForecast(set, seen, { seed: passage.settings.seed });
      // The windows are searched on the set the plan is searched on.
      if (purpose === 'planning') match = [...matchText(found), ...placelessText(placelessCount)];
      return adjustByLog(set, found);
    },
    fromLog: () => ({
      notes: after.notes.filter(({ code }) => !isPace(code)).map(({ text }) => text),
      match,
      pace: after.notes.filter(({ code }) => isPace(code)).map(({ text }) => text),
      paceByWork: after.passage.watchkeeper.paceByWork ?? {},
      usualPaceRatio: passage.watchkeeper.paceRatio,
    }),
  };
}

const isPace = (code: string): boolean => code.includes('pace');

const placelessText = (count: number): string[] =>
  count === 0
    ? []
    : [
        count === 1
          ? 'One observation is left out: it cannot be said where the boat was.'
          : `${count} observations are left out: it cannot be said where the boat was.`,
      ];
