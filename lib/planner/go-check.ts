import { instrumentWindKn } from '../boat/index.ts';
import type { Handling } from '../boat/index.ts';
import type { Preparation } from './prepare.ts';
import type { Unit } from './problem.ts';
import type { ReportedEntry } from './report.ts';

/** Start only with this share of a limit seen (facts: observed last half hour at or below 0.8 of the limit): our rule. */
export const START_RATIO = 0.8;

/** First words of the lines whose figures a sheet shows in a table or as rules. */
const FIGURE_WORDS = {
  wind: 'Wind at the instrument',
  sea: 'Sea at most',
  barometer: 'Barometer not falling',
  turnBack: 'Past this going on is safer',
} as const;

/**
 * What to look at just before starting, in terms of the boat's own instruments: numbers to start and to stop at, and
 * what no forecast holds.
 */
export function goCheck(preparation: Preparation, unit: Unit, entry: ReportedEntry): string[] {
  const handling = unit.handlings[entry.placed.handling];
  if (handling === undefined) return [];
  const lines = [
    ...windLines(preparation, unit, { handling, entry }),
    ...seaLines(unit, entry),
    `${FIGURE_WORDS.barometer} more than 1 hPa an hour.`,
    ...sleepLines(entry),
    ...lightLines(unit),
    ...rainLines(unit, entry),
    ...visibilityLines(unit, entry),
    ...unit.block.steps.flatMap((step) => step.limits.byEye),
    ...turnBackLines(unit),
  ];
  return [...new Set(lines)];
}

/** The lines of a go check that say more than wind, sea, barometer and turning back: what a sheet lists beside its figures. */
export const checksBesideFigures = (lines: readonly string[]): readonly string[] =>
  lines.filter((line) => !Object.values(FIGURE_WORDS).some((words) => line.startsWith(words)));

function strictest(values: readonly (number | null | undefined)[]): number | null {
  const known = values.filter((value): value is number => value !== null && value !== undefined);
  return known.length === 0 ? null : Math.min(...known);
}

function windLines(preparation: Preparation, unit: Unit, of: { handling: Handling; entry: ReportedEntry }): string[] {
  const meanKn = strictest(unit.block.steps.map((step) => step.limits.deckWindKn?.noGo));
  const gustKn = strictest(unit.block.steps.map((step) => step.limits.deckGustNoGoKn));
  if (meanKn === null) return [];
  const shown = (deckKn: number): string => instrumentText(preparation, deckKn, of);
  const gust = gustKn === null ? '' : `, gusts ${shown(gustKn * START_RATIO)}`;
  const stopGust = gustKn === null ? '' : `, gusts ${shown(gustKn)}`;
  const { instrumentHeightM } = preparation.passage.boat;
  return [
    `${FIGURE_WORDS.wind} (${instrumentHeightM} m), ${lower(of.handling.name)}, watched 20 min: at most ${shown(meanKn * START_RATIO)} kn${gust}. Stop at ${shown(meanKn)}${stopGust}.`,
  ];
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** What the instrument shows when the deck has so much wind under the handling. */
function instrumentText(
  { passage: { boat, settings } }: Preparation,
  deckWindKn: number,
  { handling, entry }: { handling: Handling; entry: ReportedEntry },
): string {
  const { sailStateId } = entry.placed;
  return instrumentWindKn(boat, handling, { deckWindKn, deckHeightM: settings.deckHeightM, sailStateId }).toFixed(0);
}

function seaLines(unit: Unit, entry: ReportedEntry): string[] {
  const seaM = strictest(unit.block.steps.map((step) => step.limits.seaHeightM?.noGo));
  if (seaM === null) return [];
  const unknown = entry.unknownLimits.includes('sea-height')
    ? ' The forecast holds no sea: judge it by eye first.'
    : '';
  return [
    `${FIGURE_WORDS.sea} ${(seaM * START_RATIO).toFixed(1)} m, no breaking crests; stop at ${seaM.toFixed(1)} m.${unknown}`,
  ];
}

function sleepLines(entry: ReportedEntry): string[] {
  return [
    `You have slept as planned and feel it: sleepiness ${entry.placed.kssStart.toFixed(1)} of 9 expected. If you feel worse than that, sleep first.`,
  ];
}

function lightLines(unit: Unit): string[] {
  const needsLight = unit.block.steps.some((step) => step.limits.daylight === 'required');
  return needsLight ? ['Daylight left for the whole of it, and for making safe.'] : [];
}

function rainLines(unit: Unit, entry: ReportedEntry): string[] {
  const dryH = Math.max(0, ...unit.block.steps.map((step) => step.limits.dryBeforeH ?? 0));
  if (dryH > 0) {
    const unknown = entry.unknownLimits.includes('dry-spell') ? ' The forecast does not hold all of it.' : '';
    return [`No rain for the last ${dryH} h and none in sight; the surface is dry to the hand.${unknown}`];
  }
  if (!unit.block.steps.some((step) => step.limits.rain === 'none')) return [];
  return [
    entry.unknownLimits.includes('rain')
      ? 'No rain in sight: the forecast holds none.'
      : 'No rain in sight, surface dry.',
  ];
}

function visibilityLines(unit: Unit, entry: ReportedEntry): string[] {
  const leastNm = Math.max(0, ...unit.block.steps.map((step) => step.limits.visibilityLeastNm ?? 0));
  if (leastNm === 0) return [];
  const unknown = entry.unknownLimits.includes('visibility') ? ' The forecast holds none: judge it by eye.' : '';
  return [`You see at least ${leastNm.toFixed(1)} nm, and fog is not coming in.${unknown}`];
}

function turnBackLines(unit: Unit): string[] {
  const { pointOfNoReturn } = unit.job;
  return pointOfNoReturn === null
    ? []
    : [`${FIGURE_WORDS.turnBack} than going back: ${lower(pointOfNoReturn).replace(/\.$/, '')}.`];
}
