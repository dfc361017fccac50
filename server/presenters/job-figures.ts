import type {
  BackgroundWait,
  MaterialNeed,
  SessionRule,
  StepLimits,
  WorkMinutes,
  WorkRate,
} from '../../lib/jobs/index.ts';
import { limitsIn } from './units/sentence.ts';
import type { ShownUnits } from './units/shown-units.ts';
import type { Levels } from '../../lib/boat/index.ts';
import { daylightWords, rainWords, waitWords } from './job-words.ts';

/** A figure as people write it: two figures behind the point at most, none where it is whole. */
export const plainFigure = (value: number): string => String(Number(value.toFixed(2)));

/** `8 / 15 / 33 min`: least, likely, most. */
export const minutesText = ({ leastMin, likelyMin, mostMin }: WorkMinutes): string =>
  `${[leastMin, likelyMin, mostMin].map((min) => String(Math.round(min))).join(' / ')} min`;

/** `12 / 18 / 26 kn`: ideal, caution, no-go. */
const levelsLine = ({ ideal, caution, noGo }: Levels, unit: string): string =>
  `${[ideal, caution, noGo].map(plainFigure).join(' / ')} ${unit}`;

/** `4 legs at 3 / 4 / 6 an hour`. */
export const rateText = ({ amount, unit, slowestPerH, likelyPerH, fastestPerH, setUpMin }: WorkRate): string =>
  `${plainFigure(amount)} ${unit} at ${[slowestPerH, likelyPerH, fastestPerH].map(plainFigure).join(' / ')} an hour${
    setUpMin > 0 ? `, and ${plainFigure(setUpMin)} min to begin` : ''
  }`;

/** `10 ml penetrating oil`. */
export const needText = ({ item, amount, unit }: MaterialNeed): string => `${plainFigure(amount)} ${unit} ${item}`;

/** `cures 6 / 14 / 48 h by itself`. */
export const waitText = (wait: BackgroundWait): string =>
  `${waitWords[wait.kind]} ${[wait.leastH, wait.likelyH, wait.mostH].map(plainFigure).join(' / ')} h by itself`;

/** What the air does to a wait; empty: nothing. */
export function waitAirText({ keptAtC, atC, halvesPerC, floorC }: BackgroundWait): string {
  if (keptAtC !== null) return `kept at ${plainFigure(keptAtC)} °C`;
  const rule =
    halvesPerC === null ? '' : `at ${plainFigure(atC)} °C, half of it for every ${plainFigure(halvesPerC)} °C warmer`;
  const floor = floorC === null ? '' : `not at all below ${plainFigure(floorC)} °C`;
  return [rule, floor].filter((part) => part !== '').join('; ');
}

export const sessionText = (rule: SessionRule): string =>
  `${plainFigure(rule.longestMin)} min at most, ${plainFigure(rule.leastUsefulMin)} at least, ${plainFigure(rule.restMin)} min rest between, ${plainFigure(rule.resumeMin)} to take it up again, ${plainFigure(rule.makeSafeMin)} to make safe`;

/** Limits of a step, one line each, in a fixed order; what it has no limit of is left out. */
export function limitLines(
  limits: StepLimits,
  units: ShownUnits,
): readonly { readonly key: string; readonly text: string }[] {
  return limitTexts.flatMap(([key, text]) => {
    const said = text(limits);
    return said === null ? [] : [{ key, text: limitsIn(said, units) }];
  });
}

const figureOr = (value: number | null, text: (figure: string) => string): string | null =>
  value === null ? null : text(plainFigure(value));

const limitTexts: readonly (readonly [keyof StepLimits, (limits: StepLimits) => string | null])[] = [
  ['deckWindKn', ({ deckWindKn: of }) => (of === null ? null : `wind over the deck ${levelsLine(of, 'kn')}`)],
  ['deckGustNoGoKn', ({ deckGustNoGoKn: of }) => figureOr(of, (figure) => `gust up to ${figure} kn`)],
  ['seaHeightM', ({ seaHeightM: of }) => (of === null ? null : `sea ${levelsLine(of, 'm')}`)],
  [
    'steepnessNoGoRatio',
    ({ steepnessNoGoRatio: of }) =>
      of === null ? null : `steepness of the sea up to ${String(of)}, height over length`,
  ],
  ['daylight', ({ daylight }) => daylightWords[daylight]],
  ['rain', ({ rain }) => (rain === 'any' ? null : rainWords[rain])],
  ['dryBeforeH', ({ dryBeforeH: of }) => figureOr(of, (figure) => `dry for ${figure} h before`)],
  ['airLeastC', ({ airLeastC: of }) => figureOr(of, (figure) => `air from ${figure} °C`)],
  ['seaWaterLeastC', ({ seaWaterLeastC: of }) => figureOr(of, (figure) => `water from ${figure} °C`)],
  ['visibilityLeastNm', ({ visibilityLeastNm: of }) => figureOr(of, (figure) => `sight from ${figure} nm`)],
];
