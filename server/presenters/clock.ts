import type { PlanPicture } from '../../lib/planner/index.ts';
import { offsetText, timeTexts } from './time-texts.ts';

export interface Clock {
  readonly ship: string;
  readonly offset: string;
  readonly utc: string;
  /** Empty where the clock runs. */
  readonly note: string;
}

/** Ship's time and UTC at the head of a page. */
export function clockOf(picture: PlanPicture, nowEpochMs: number): Clock {
  const isFixed = picture.clock === 'fixed';
  const times = timeTexts(picture.shipTimeOffsetMin);
  const shown = isFixed ? picture.nowEpochMs : nowEpochMs;
  return {
    ship: times.full(shown),
    offset: offsetText(picture.shipTimeOffsetMin),
    utc: times.utc(shown),
    note: isFixed ? 'clock held' : '',
  };
}
