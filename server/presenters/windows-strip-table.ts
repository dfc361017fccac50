import type { WindowsPicture } from '../../lib/planner/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness } from './planned-alertness.ts';
import type { StripTable, TimeAxis } from './strip-model.ts';
import type { TimeTexts } from './time-texts.ts';
import { valueText } from './hour-values-text.ts';
import { AIR, cellText, headUnit, SEA_HEIGHT, spreadCell, WIND } from './units/hour-figures.ts';
import { chanceText } from './windows-hours.ts';
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
  const { units } = times;
  const alertnessPoints = plannedAlertness(view);
  const hasVisibility = picture.limits.visibilityLeastNm !== null;
  return {
    head: [
      'Ship’s time',
      'Start holds',
      `Deck wind, ${headUnit(WIND, units)}`,
      `Gust, ${headUnit(WIND, units)}`,
      `Sea, ${headUnit(SEA_HEIGHT, units)}`,
      'Light',
      'Rain, mm/h',
      `Air, ${headUnit(AIR, units)}`,
      ...(hasVisibility ? ['Visibility, nm'] : []),
      'Alertness, points',
    ],
    rows: slots.map((i) => [
      times.dayTime(picture.slotEpochMs[i] ?? 0),
      chanceText(picture.startProbability[i]),
      spreadCell(picture.deckWindKn, i, WIND, units),
      spreadCell(picture.deckGustKn, i, WIND, units),
      spreadCell(picture.seaHeightM, i, SEA_HEIGHT, units),
      `${lightWords[picture.light[i] ?? 'night']}${moonWords[picture.moon[i] ?? 'down']}`,
      valueText(picture.rainMmPerH[i], 1),
      cellText(picture.airC[i], AIR, units),
      ...(hasVisibility ? [valueText(picture.visibilityNm?.[i], 1)] : []),
      valueText(alertnessPoints[i], 1),
    ]),
  };
}
