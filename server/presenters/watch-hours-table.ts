import { displayedKss } from '../../lib/person/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { StripTable } from './strip-model.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { pointsText } from './watch-amounts.ts';

/** How awake, hour by hour; whoever sleeps has no sleepiness to rate. */
export const hoursTable = ({ hours }: Plan['watch'], times: TimeTexts): StripTable => ({
  head: [
    'Ship’s time',
    'Body clock',
    'You',
    'Alertness, points',
    'Sleepiness, 1 to 9',
    'One in ten above',
    'Lapses in 10 min',
  ],
  rows: hours.map((hour) => [
    times.dayTime(epochOf(hour.timeUtc)),
    clockText(hour.bodyClockH),
    hour.asleep ? 'asleep' : 'awake',
    pointsText(hour.alertness),
    hour.asleep ? 'asleep' : pointsText(displayedKss(hour.kss)),
    hour.asleep ? 'asleep' : pointsText(displayedKss(hour.kssP90)),
    pointsText(hour.lapses),
  ]),
});

const MIN_PER_DAY = 24 * 60;

/** `04:30` */
function clockText(bodyClockH: number): string {
  if (!Number.isFinite(bodyClockH)) return 'unknown';
  const minutes = ((Math.round(bodyClockH * 60) % MIN_PER_DAY) + MIN_PER_DAY) % MIN_PER_DAY;
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
