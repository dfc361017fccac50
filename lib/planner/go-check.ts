import type { Handling } from '../boat/index.ts';
import type { Step } from '../jobs/index.ts';
import type { Preparation } from './prepare.ts';
import type { Unit } from './problem.ts';
import type { ReportedEntry } from './report.ts';
import type { StartCheck } from './start-numbers.ts';

/** First words of the lines whose figures a sheet shows in a table or as rules. */
const FIGURE_WORDS = {
  wind: 'Wind at the instrument',
  trueWind: 'True wind (10 m)',
  sea: 'Sea at most',
  barometer: 'Barometer not falling',
  turnBack: 'Past this going on is safer',
} as const;

/** What a go check is made from: the job's first entry, and everything of it that is planned. */
export interface GoChecked {
  readonly unit: Unit;
  readonly entry: ReportedEntry;
  /** Of all its entries. */
  readonly steps: readonly Step[];
  /** null: the boat has no handling for it. */
  readonly check: StartCheck | null;
}

/**
 * What to look at just before starting, in terms of the boat's own instruments: numbers to start and to stop at with
 * what is expected then, and what no forecast holds.
 *
 * Figures are the strictest of all the job's steps and of its handlings: those of the deck sheet.
 */
export function goCheck(preparation: Preparation, of: GoChecked): string[] {
  const { unit, entry, steps, check } = of;
  const handling = unit.handlings[entry.placed.handling];
  if (handling === undefined || check === null) return [];
  const lines = [
    ...windLines(check, handling, preparation.passage.boat.instrumentHeightM),
    ...trueWindLines(check),
    ...seaLines(check, entry),
    `${FIGURE_WORDS.barometer} more than 1 hPa an hour.`,
    ...sleepLines(entry),
    ...lightLines(steps),
    ...rainLines(steps, entry),
    ...visibilityLines(steps, entry),
    ...steps.flatMap((step) => step.limits.byEye),
    ...turnBackLines(unit),
  ];
  return [...new Set(lines)];
}

/** The lines of a go check that say more than wind, sea, barometer and turning back: what a sheet lists beside its figures. */
export const checksBesideFigures = (lines: readonly string[]): readonly string[] =>
  lines.filter((line) => !Object.values(FIGURE_WORDS).some((words) => line.startsWith(words)));

/** `at most 28 kn (expected 19 kn), gusts 33 kn (expected 30 kn). Stop at 35 kn, gusts 41 kn.` */
function windLines({ start, stop, expected }: StartCheck, handling: Handling, heightM: number): string[] {
  if (start.instrumentWindKn === null || stop.instrumentWindKn === null) return [];
  const gust =
    start.instrumentGustKn === null
      ? ''
      : `, gusts ${start.instrumentGustKn} kn${expectedKnText(expected.instrumentGustKn)}`;
  const stopGust = stop.instrumentGustKn === null ? '' : `, gusts ${stop.instrumentGustKn} kn`;
  return [
    `${FIGURE_WORDS.wind} (${heightM} m), ${lower(handling.name)}, watched 20 min: at most ${start.instrumentWindKn} kn${expectedKnText(expected.instrumentWindKn)}${gust}. Stop at ${stop.instrumentWindKn} kn${stopGust}.`,
  ];
}

const expectedKnText = (windKn: number | null): string =>
  windKn === null ? '' : ` (expected ${windKn.toFixed(0)} kn)`;

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** The handling's own limit, where the instrument's wind does not hold it. */
function trueWindLines({ start, stop, expected }: StartCheck): string[] {
  if (start.trueWindKn === null || stop.trueWindKn === null) return [];
  return [
    `${FIGURE_WORDS.trueWind} at most ${start.trueWindKn} kn${expectedKnText(expected.trueWindKn)}; stop at ${stop.trueWindKn} kn.`,
  ];
}

function seaLines({ start, stop, expected }: StartCheck, entry: ReportedEntry): string[] {
  if (start.seaM === null || stop.seaM === null) return [];
  const unknown = entry.unknownLimits.includes('sea-height')
    ? ' The forecast holds no sea: judge it by eye first.'
    : '';
  const seaExpected = expected.seaM === null ? '' : ` (expected ${expected.seaM.toFixed(1)} m)`;
  return [
    `${FIGURE_WORDS.sea} ${start.seaM.toFixed(1)} m${seaExpected}, no breaking crests; stop at ${stop.seaM.toFixed(1)} m.${unknown}`,
  ];
}

function sleepLines(entry: ReportedEntry): string[] {
  return [
    `You have slept as planned and feel it: sleepiness ${entry.placed.kssStart.toFixed(1)} of 9 expected. If you feel worse than that, sleep first.`,
  ];
}

function lightLines(steps: readonly Step[]): string[] {
  const needsLight = steps.some((step) => step.limits.daylight === 'required');
  return needsLight ? ['Daylight left for the whole of it, and for making safe.'] : [];
}

function rainLines(steps: readonly Step[], entry: ReportedEntry): string[] {
  const dryH = Math.max(0, ...steps.map((step) => step.limits.dryBeforeH ?? 0));
  if (dryH > 0) {
    const unknown = entry.unknownLimits.includes('dry-spell') ? ' The forecast does not hold all of it.' : '';
    return [`No rain for the last ${dryH} h and none in sight; the surface is dry to the hand.${unknown}`];
  }
  if (!steps.some((step) => step.limits.rain === 'none')) return [];
  return [
    entry.unknownLimits.includes('rain')
      ? 'No rain in sight: the forecast holds none.'
      : 'No rain in sight, surface dry.',
  ];
}

function visibilityLines(steps: readonly Step[], entry: ReportedEntry): string[] {
  const leastNm = Math.max(0, ...steps.map((step) => step.limits.visibilityLeastNm ?? 0));
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
