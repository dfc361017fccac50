import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import type { Clock } from './clock.ts';
import { offsetText, timeTexts } from './time-texts.ts';

/** The passage that is shown, as pages of jobs need it. */
export interface JobDocument {
  readonly number: number;
  readonly version: number;
  readonly file: PassageFile;
  readonly passage: Passage;
}

/** Ship's time and UTC at the head of a page that needs no plan. */
export function documentClock({ fixedNowEpochMs, settings }: Passage, nowEpochMs: number): Clock {
  const times = timeTexts(settings.shipTimeOffsetMin);
  const shown = fixedNowEpochMs ?? nowEpochMs;
  return {
    ship: times.full(shown),
    offset: offsetText(settings.shipTimeOffsetMin),
    utc: times.utc(shown),
    note: fixedNowEpochMs === null ? '' : 'clock held',
  };
}
