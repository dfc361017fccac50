import type { Forecast } from '../lib/forecast/index.ts';
import { weighedAfterLog, type WeighedAfterLog } from '../lib/log/index.ts';
import type { Passage } from '../lib/passage/index.ts';
import type { PlanningTask } from './planning-messages.ts';
import type { FromLog } from './presenters/plan-standing.ts';

/** What a plan is made of once the log is read. */
export interface AfterLog extends Pick<WeighedAfterLog, 'passage' | 'seenWeather'> {
  /** What the log told; of the forecast only once a plan is made. */
  readonly fromLog: () => FromLog;
}

/** The passage as it stands after its log, and the forecast as it was seen. */
export function afterLog(
  loaded: { readonly passage: Passage; readonly forecast: Forecast },
  { log, plans, passage: { itemsCountedAt } }: Pick<PlanningTask, 'log' | 'plans' | 'passage'>,
  nowEpochMs: number,
): AfterLog {
  const { passage, forecast } = loaded;
  // With a clock that is held nobody knows what was counted before what was logged: then all is taken off.
  const counts = passage.fixedNowEpochMs === null && itemsCountedAt !== undefined ? { itemsCountedAt } : {};
  const after = weighedAfterLog(passage, log, { forecast, nowEpochMs, plans, ...counts });
  return {
    passage: after.passage,
    seenWeather: after.seenWeather,
    fromLog: () => ({
      notes: after.notes.filter(({ code }) => !isPace(code)).map(({ text }) => text),
      match: after.matchLines(),
      pace: after.notes.filter(({ code }) => isPace(code)).map(({ text }) => text),
      paceByWork: after.passage.watchkeeper.paceByWork ?? {},
      usualPaceRatio: passage.watchkeeper.paceRatio,
    }),
  };
}

const isPace = (code: string): boolean => code.includes('pace');
