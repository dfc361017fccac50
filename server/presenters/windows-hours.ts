import type { HourStart, WindowsPicture } from '../../lib/planner/index.ts';
import { of100 } from './amount-texts.ts';
import { hourReading, windText } from './hour-reading.ts';
import { joined, limitName, marginTexts } from './limit-texts.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness } from './planned-alertness.ts';
import type { HourReading, TimeAxis } from './strip-model.ts';
import type { TimeTexts } from './time-texts.ts';
import { type ChosenWindows, windowsHref } from './windows-choice.ts';

interface HoursInput {
  readonly view: PassageView;
  readonly chosen: ChosenWindows;
  readonly picture: WindowsPicture;
  /** The start that is looked at; null: none. */
  readonly look: { readonly startEpochMs: number } | null;
  readonly times: TimeTexts;
}

/** The hours of the windows page: the weather on the nominal track, and what a start there would meet. */
export function windowsReading({ view, chosen, picture, look, times }: HoursInput, axis: TimeAxis): HourReading {
  const starts = new Map(picture.hourStarts.map((start) => [start.atEpochMs, start]));
  const hrefBefore = `${windowsHref(chosen)}&start=`;
  return hourReading(
    {
      weather: { ...picture, alertnessPoints: plannedAlertness(view) },
      deckAt: (i) => ({
        wind: windText(picture.deckWindKn, i, times.units),
        gust: windText(picture.deckGustKn, i, times.units),
      }),
      ownTerms: ['A start then holds', 'Tightest for it'],
      ownAt: (i, { fromEpochMs }) => [
        chanceText(picture.startProbability[i]),
        bindingText(starts.get(fromEpochMs) ?? null, times),
      ],
      // Browsers read it against the address of the page, which is this one.
      hrefOf: (utc) => `${hrefBefore.replace('/windows', '')}${utc}`,
      shownEpochMs: look?.startEpochMs ?? null,
      pressed: 'look',
      more: { text: 'Look at a start then', hrefBefore },
      times,
    },
    axis,
  );
}

/** `sea, 0.4 m, 1.2 σ to spare`; what is unknown is said too. */
function bindingText(start: HourStart | null, times: TimeTexts): string {
  if (start === null) return 'nothing: the work cannot begin';
  const unknown = start.unknownLimits.length === 0 ? '' : `; ${joined(start.unknownLimits.map(limitName))} unknown`;
  if (start.binding === null) return `no limit is known${unknown}`;
  const { binds, room } = marginTexts(start.binding, times);
  const isAmount = start.binding.unit !== 'light' && start.binding.unit !== 'yes/no';
  return `${binds}, ${room}${isAmount && start.binding.margin >= 0 ? ' to spare' : ''}${unknown}`;
}

/** `88 of 100`; a slot in which the work cannot begin says so. */
export const chanceText = (probability: number | undefined): string =>
  probability === undefined || Number.isNaN(probability) ? 'no start' : `${of100(probability)} of 100`;
