import { type PlannedJob, startCheckText } from '../../lib/planner/index.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { sentenceOrNullIn } from './units/sentence.ts';

/** What the start check will probably say at the planned start, and what to do; null: it is expected to pass. */
export const startWarning = (
  { startCheck, startBetween, fallback }: Pick<PlannedJob, 'startCheck' | 'startBetween' | 'fallback'>,
  times: TimeTexts,
): string | null =>
  startCheck === null
    ? null
    : sentenceOrNullIn(
        startCheckText(startCheck, {
          time: (utc) => times.dayTime(epochOf(utc)),
          lastStartUtc: startBetween?.lastUtc ?? null,
          secondUtc: fallback?.startUtc ?? null,
        }),
        times.units,
      );
