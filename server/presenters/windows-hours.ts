import type { PlanPicture, WindowsPicture } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { of100 } from './amount-texts.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness } from './planned-alertness.ts';
import type { HourLink, TimeAxis } from './strip-model.ts';
import type { TimeTexts } from './time-texts.ts';
import { type ChosenWindows, windowsHref } from './windows-choice.ts';

/** A longer axis has no room for a link at every hour. */
const HOURLY_UP_TO_H = 96;
import { lightWords } from './light-words.ts';

interface HoursInput {
  readonly view: PassageView;
  readonly chosen: ChosenWindows;
  readonly picture: WindowsPicture;
  readonly times: TimeTexts;
}

const moonWords = { down: '', up: ', moon up', useful: ', moon to work by' } as const;

/** Every hour (or every other) of the axis that is still ahead: all that is known of it, and a link to a start there. */
export function hourLinks({ view, chosen, picture, times }: HoursInput, axis: TimeAxis): HourLink[] {
  const alertnessPoints = plannedAlertness(view);
  const everyMs = MS_PER_H * (axis.toEpochMs - axis.fromEpochMs > HOURLY_UP_TO_H * MS_PER_H ? 2 : 1);
  const links: HourLink[] = [];
  picture.slotEpochMs.forEach((fromEpochMs, i) => {
    if (fromEpochMs % everyMs !== 0 || fromEpochMs >= axis.toEpochMs) return;
    const toEpochMs = Math.min(axis.toEpochMs, fromEpochMs + everyMs);
    const title = [times.dayTime(fromEpochMs), ...valuesAt(picture, { alertnessPoints }, i)].join('\n');
    links.push({ fromEpochMs, toEpochMs, href: windowsHref(chosen, fromEpochMs), title });
  });
  return links;
}

/** `deck wind 9 kn (6 to 12)` and all other values of a slot, one to a line. */
function valuesAt(picture: WindowsPicture, plan: Pick<PlanPicture, 'alertnessPoints'>, i: number): string[] {
  const { limits } = picture;
  return [
    `start holds: ${chanceText(picture.startProbability[i])}`,
    `deck wind ${spreadText(picture.deckWindKn, i, 0)} kn`,
    `gust ${spreadText(picture.deckGustKn, i, 0)} kn`,
    `sea ${spreadText(picture.seaHeightM, i, 1)} m`,
    `${lightWords[picture.light[i] ?? 'night']}${moonWords[picture.moon[i] ?? 'down']}`,
    ...(limits.rain === 'none' ? [`rain ${valueText(picture.rainMmPerH[i], 1)} mm/h`] : []),
    `air ${valueText(picture.airC[i], 0)} °C`,
    ...(limits.visibilityLeastNm === null ? [] : [`visibility ${valueText(picture.visibilityNm?.[i], 1)} nm`]),
    `alertness ${valueText(plan.alertnessPoints[i], 1)} points`,
  ];
}

/** `88 of 100`; a slot in which the work cannot begin says so. */
export const chanceText = (probability: number | undefined): string =>
  probability === undefined || Number.isNaN(probability) ? 'no start' : `${of100(probability)} of 100`;

export const valueText = (value: number | undefined, decimals: number): string =>
  value === undefined || Number.isNaN(value) ? 'unknown' : value.toFixed(decimals);

export function spreadText(
  spread: { readonly p10: Float32Array; readonly p50: Float32Array; readonly p90: Float32Array },
  i: number,
  decimals: number,
): string {
  const median = valueText(spread.p50[i], decimals);
  if (median === 'unknown') return median;
  return `${median} (${valueText(spread.p10[i], decimals)} to ${valueText(spread.p90[i], decimals)})`;
}
