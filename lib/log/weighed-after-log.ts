import { type Forecast, seriesAt } from '../forecast/index.ts';
import type { Passage } from '../passage/index.ts';
import type { PlanInput } from '../planner/index.ts';
import { effectiveEntries } from './effective.ts';
import type { NumberedEntry } from './entry.ts';
import type { LogNote } from './log-note.ts';
import { adjustByLog, matchForecast, matchText, seenOfLog } from './match/index.ts';
import { type AfterLogOptions, passageAfterLog } from './passage-after-log.ts';

/** What a plan is made of once the log is read. */
export interface WeighedAfterLog {
  readonly passage: Passage;
  /** What the log did to the passage. */
  readonly notes: readonly LogNote[];
  /** Weighs and shifts the scenarios by what was seen. */
  readonly seenWeather: NonNullable<PlanInput['seenWeather']>;
  /** The forecast against what was seen, in sentences; complete once a plan or windows were made. */
  readonly matchLines: () => readonly string[];
}

/** The passage as it stands after its log, and the weather seen, ready for the planner. */
export function weighedAfterLog(
  passage: Passage,
  entries: readonly NumberedEntry[],
  of: Omit<AfterLogOptions, 'airCAt'> & { readonly forecast: Forecast; readonly nowEpochMs: number },
): WeighedAfterLog {
  const { nowEpochMs, forecast, ...options } = of;
  const airCAt = airAtStart(passage, forecast);
  const after = passageAfterLog(passage, entries, nowEpochMs, { ...options, airCAt });
  const { seen, placelessCount } = seenOfLog(effectiveEntries(entries), passage.boat, nowEpochMs);
  let lines: readonly string[] = [];
  return {
    passage: after.passage,
    notes: after.notes,
    seenWeather: (set, purpose) => {
      const match = matchForecast(set, seen, { seed: passage.settings.seed });
      // The windows are searched on the set the plan is searched on.
      if (purpose === 'planning') lines = seen.length === 0 ? [] : matchText(match);
      return adjustByLog(set, match);
    },
    matchLines: () => [...lines, ...placelessLines(placelessCount)],
  };
}

/** Air of the forecast where the passage began; NaN where it holds none: waits that go by the air are hours long, a day's run is little. */
function airAtStart({ start }: Passage, forecast: Forecast): (epochMs: number) => number {
  return (epochMs) => {
    const asked = { position: start.position, fromEpochMs: epochMs, toEpochMs: epochMs, everyMin: 60 };
    const air = seriesAt(forecast, asked)[0]?.readings.find(({ key }) => key === 'airC');
    return air?.control ?? air?.members?.p50 ?? Number.NaN;
  };
}

function placelessLines(placelessCount: number): string[] {
  if (placelessCount === 0) return [];
  return [
    placelessCount === 1
      ? 'One reading is left out: it is not logged where the boat was.'
      : `${placelessCount} readings are left out: it is not logged where the boat was.`,
  ];
}
