import type { WindowsPicture } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness } from './planned-alertness.ts';
import type { StripTable, TimeAxis } from './strip-model.ts';
import type { TimeTexts } from './time-texts.ts';
import { chanceText, spreadText, valueText } from './windows-hours.ts';
import { lightWords } from './light-words.ts';

const EVERY_H = 3;
const moonWords = { down: '', up: ', moon', useful: ', bright moon' } as const;

/** The lanes in words and figures, every three hours. */
export function windowsStripTable(
  { view, picture, times }: { view: PassageView; picture: WindowsPicture; times: TimeTexts },
  axis: TimeAxis,
): StripTable {
  const slots = Array.from(picture.slotEpochMs).flatMap((epochMs, i) =>
    epochMs % (EVERY_H * MS_PER_H) === 0 && epochMs <= axis.toEpochMs ? [i] : [],
  );
  const alertnessPoints = plannedAlertness(view);
  const hasVisibility = picture.limits.visibilityLeastNm !== null;
  return {
    head: [
      'Ship’s time',
      'Start holds',
      'Deck wind, kn',
      'Gust, kn',
      'Sea, m',
      'Light',
      'Rain, mm/h',
      'Air, °C',
      ...(hasVisibility ? ['Visibility, nm'] : []),
      'Alertness, points',
    ],
    rows: slots.map((i) => [
      times.dayTime(picture.slotEpochMs[i] ?? 0),
      chanceText(picture.startProbability[i]),
      spreadText(picture.deckWindKn, i, 0),
      spreadText(picture.deckGustKn, i, 0),
      spreadText(picture.seaHeightM, i, 1),
      `${lightWords[picture.light[i] ?? 'night']}${moonWords[picture.moon[i] ?? 'down']}`,
      valueText(picture.rainMmPerH[i], 1),
      valueText(picture.airC[i], 0),
      ...(hasVisibility ? [valueText(picture.visibilityNm?.[i], 1)] : []),
      valueText(alertnessPoints[i], 1),
    ]),
  };
}
