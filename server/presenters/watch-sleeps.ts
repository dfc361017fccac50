import type { Plan } from '../../lib/planner/index.ts';
import { durationText, epochOf, type TimeTexts } from './time-texts.ts';
import { pointsText } from './watch-amounts.ts';

type Watch = Plan['watch'];

/** One sleep and what it is for. */
export interface SleepRow {
  readonly key: string;
  /** `Thu 28 May 08:40–11:40` */
  readonly ship: string;
  readonly lasts: string;
  readonly alarm: string;
  /** `6.2 → 8.9`, in words for the ear beside it. */
  readonly alertness: string;
  readonly nobodyLooks: string;
  readonly closeIn: string;
  readonly buys: string;
}

export const sleepRows = ({ sleeps }: Watch, times: TimeTexts): SleepRow[] =>
  sleeps.map((sleep, i) => {
    const [fromEpochMs, toEpochMs] = [epochOf(sleep.startUtc), epochOf(sleep.endUtc)];
    return {
      key: sleep.startUtc,
      ship: times.span({ fromEpochMs, toEpochMs }, 'to'),
      lasts: durationText(sleep.lengthMin),
      alarm: `alarm at ${times.time(toEpochMs)}`,
      alertness: `${pointsText(sleep.alertnessBefore)} before, ${pointsText(sleep.alertnessAfter)} on waking`,
      nobodyLooks: nobodyLooksText(sleep),
      closeIn: closeInText(sleep),
      buys: sleep.buys === sleeps[i - 1]?.buys ? 'Counted together with the sleep before it.' : sleep.buys,
    };
  });

const nobodyLooksText = ({ beyondLookoutMin }: Watch['sleeps'][number]): string =>
  beyondLookoutMin > 0
    ? `${durationText(beyondLookoutMin)} beyond the look-out interval`
    : 'not beyond the look-out interval';

function closeInText({ lookoutIntervalMin, lookoutLimitedBy, isVisibilityKnown }: Watch['sleeps'][number]): string {
  // A limit is rounded to its strict side.
  const interval = durationText(Math.floor(lookoutIntervalMin));
  if (lookoutLimitedBy === 'cap') return `the interval is ${interval}, the longest that is set`;
  const by = lookoutLimitedBy === 'visibility' && !isVisibilityKnown ? 'in ordinary haze' : limitedBy[lookoutLimitedBy];
  const unknown = isVisibilityKnown ? '' : '; visibility is not in the forecast';
  return `a ship just out of sight can be close in ${interval}, ${by}${unknown}`;
}

/** What keeps her out of sight until then. */
const limitedBy = {
  visibility: 'in this visibility',
  light: 'seen by her lights',
  horizon: 'seen over the horizon',
} as const;

/** Sleep of one 24 h beside what is wanted and what is least. */
export interface SleepDayRow {
  readonly key: string;
  readonly span: string;
  readonly slept: string;
  readonly wanted: string;
  readonly least: string;
  readonly standing: 'enough' | 'below-wanted' | 'below-least';
  /** The same in words, with the amount. */
  readonly words: string;
}

export const sleepDays = ({ days }: Watch, times: TimeTexts): SleepDayRow[] =>
  days.map((day) => {
    const span = { fromEpochMs: epochOf(day.fromUtc), toEpochMs: epochOf(day.toUtc) };
    return {
      key: day.fromUtc,
      span: times.span(span, 'to'),
      slept: hoursText(day.sleptH),
      wanted: hoursText(day.wantedH),
      least: hoursText(day.leastH),
      ...standingOf(day),
    };
  });

const hoursText = (hours: number): string => durationText(hours * 60);

function standingOf(day: Watch['days'][number]): Pick<SleepDayRow, 'standing' | 'words'> {
  if (day.sleptH >= day.wantedH) return { standing: 'enough', words: 'enough' };
  if (day.sleptH < day.leastH)
    return { standing: 'below-least', words: `below the least by ${shortBy(day.leastH - day.sleptH)}` };
  return { standing: 'below-wanted', words: `below the wanted by ${shortBy(day.wantedH - day.sleptH)}` };
}

/** Never `0 min`: what is short is short. */
const shortBy = (hours: number): string => durationText(Math.max(1, Math.ceil(hours * 60 - 1e-6)));
