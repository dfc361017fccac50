import type { Finding } from './finding.ts';
import { verdictOf } from './finding.ts';
import { LEAST_LIMITS, LIMIT_WORDS } from './rule-words.table.ts';
import { amountText, minutesText, ofHundred, shipTime } from './words.ts';
import type { Wording } from './words.ts';

/**
 * A finding as a clause with its amount, first letter small, without a full stop: `wind over the deck above 13.0 kn in 46 of
 * 100, first Mon 1 Jun 13:40 (14.2 kn expected at worst, 1.2 kn over)`. All sentences of findings are made here.
 */
export function findingText(finding: Finding, wording: Wording): string {
  const plain = PLAIN_TEXTS[finding.rule];
  return plain === undefined ? limitText(finding, wording) : plain(finding, wording);
}

/** `sea`, `wind over the deck`; a rule without words stands for itself. */
export const ruleWords = (rule: string): string => LIMIT_WORDS[rule] ?? rule;

type Text = (finding: Finding, wording: Wording) => string;

const observedText = ({ observed, unit }: Finding): string =>
  observed === null ? 'an unknown amount' : amountText(observed, unit);
const shortText = ({ margin, unit }: Finding): string =>
  margin === null ? 'an unknown amount' : amountText(Math.abs(margin), unit);
const requiredText = ({ required, unit }: Finding): string => amountText(required, unit);
const at = (finding: Finding, wording: Wording): string =>
  finding.atEpochMs === null ? '' : shipTime(finding.atEpochMs, wording);
const named = (finding: Finding, wording: Wording): string => `"${wording.nameOf(finding.names[0] ?? '')}"`;
const others = (finding: Finding, wording: Wording): string => finding.names.slice(1).map(wording.nameOf).join(', ');
const clock = (hourH: number): string => {
  const whole = Math.round(hourH * 60) % (24 * 60);
  return `${String(Math.floor(whole / 60)).padStart(2, '0')}:${String(whole % 60).padStart(2, '0')}`;
};

/** Rules with words of their own; what is left is a limit with a number. */
const PLAIN_TEXTS: Partial<Readonly<Record<string, Text>>> = {
  daylight: (finding, wording) => `no daylight${inScenarios(finding, wording)}`,
  'steadying-wind': (finding, wording) =>
    isUnknown(finding) ? limitText(finding, wording) : `light air over an old swell${inScenarios(finding, wording)}`,
  'cold-hands': (finding) =>
    `hands would feel ${observedText(finding)}, too cold for fine work (${requiredText(finding)} at least)`,
  'look-out': (finding) =>
    `a look round every ${minutesText(finding.observed ?? 0)} leaves no time for the work (${minutesText(finding.required)} at least)`,
  pace: (finding) =>
    finding.unit === 'times as long'
      ? `the work would take ${(finding.observed ?? 0).toFixed(1)} times as long, ${finding.required.toFixed(1)} at most`
      : `the work would outrun its ${requiredText(finding)} in ${ofHundred(finding.scenarioShare ?? 0)}`,
  alertness: (finding) => `alertness ${pointsText(finding.observed)}, ${pointsText(finding.required)} needed`,
  lapses: (finding) =>
    `${pointsText(finding.observed)} lapses expected from sleep missed over days, ${pointsText(finding.required)} at most`,
  'low-hours': (finding) =>
    `it is ${clock(finding.observed ?? 0)} on your body clock, and hard work waits for ${clock(finding.required)}`,
  awake: (finding) => `${observedText(finding)} awake, ${requiredText(finding)} at most`,
  inertia: (finding) =>
    `${minutesText(finding.observed ?? 0)} after waking, ${minutesText(finding.required)} needed to shake off sleep`,
  'sleep-24h': (finding) => `${observedText(finding)} slept in 24, ${requiredText(finding)} needed`,
  'sleep-48h': (finding) => `${observedText(finding)} slept in 48, ${requiredText(finding)} needed`,
  'awake-beyond-sleep': (finding) =>
    `${observedText(finding)} awake, more than the ${requiredText(finding)} slept in 48`,
  precedence: (finding, wording) =>
    finding.unit === 'min'
      ? `${named(finding, wording)} is finished only ${shortText(finding)} later`
      : `${named(finding, wording)} comes first and is not finished`,
  wait: (finding, wording) =>
    `${named(finding, wording)} has had ${observedText(finding)} of its ${requiredText(finding)}, ${shortText(finding)} short`,
  'session-rest': (finding) =>
    `${observedText(finding)} of rest since the last session, ${requiredText(finding)} needed`,
  'effort-rest': (finding, wording) =>
    `${observedText(finding)} of rest since the heavy work of ${named(finding, wording)}, ${requiredText(finding)} needed`,
  settle: (finding, wording) =>
    `${observedText(finding)} to settle her under ${named(finding, wording)}, ${requiredText(finding)} needed`,
  tool: (finding, wording) =>
    `${finding.names[0] ?? ''} is held by "${others(finding, wording)}" for ${observedText(finding)} of it, from ${at(finding, wording)}`,
  'longest-sleep': (finding, wording) =>
    `${observedText(finding)} of sleep from ${at(finding, wording)}, ${requiredText(finding)} at most in this traffic`,
  twice: () => 'all of it is done by then',
  'sail-state': (finding, wording) =>
    `with ${wording.nameOf(finding.names[0] ?? '')} set it is not possible; it needs ${others(finding, wording)}`,
  handling: (finding, wording) =>
    `${named(finding, wording)} is not a handling it may be worked under (${others(finding, wording)})`,
  overlap: (finding, wording) =>
    `${shortText(finding)} of it lie in ${named(finding, wording)}, from ${at(finding, wording)}`,
  past: (finding) => `it would begin ${shortText(finding)} before the plan does`,
  horizon: (finding, wording) => `it would end ${shortText(finding)} after ${horizonName(finding, wording)}`,
  'not-before': (finding, wording) => `it is not to begin before ${at(finding, wording)}, ${shortText(finding)} later`,
  'finish-by': (finding, wording) => `it is to be done by ${at(finding, wording)} and ends ${shortText(finding)} later`,
  'forbidden-hours': (finding, wording) =>
    `${shortText(finding)} of it lie in forbidden hours, from ${at(finding, wording)}`,
  lock: (finding, wording) => `its start is fixed at ${at(finding, wording)}, ${shortText(finding)} away`,
  'lock-handling': (finding, wording) => `its handling is fixed: ${others(finding, wording)}`,
  materials: (finding) =>
    `${finding.names[0] ?? ''}: ${shortText(finding)} short (${requiredText(finding)} needed, ${observedText(finding)} to spare)`,
  'wanted-probability': (finding) =>
    `it stays inside its limits in ${observedText(finding)}, ${requiredText(finding)} are wanted`,
  joint: (finding) =>
    `all planned jobs together would hold in ${observedText(finding)} instead of ${requiredText(finding)}`,
  cost: () => 'it would be fair too, but costs more exposure, distance or sleep',
};

/** Two decimals where the second tells something: a gate of 8.15 is not 8.2. */
const pointsText = (points: number | null): string =>
  points === null ? 'unknown' : points.toFixed(2).replace(/0$/, '');

const isUnknown = (finding: Finding): boolean => verdictOf(finding) === 'unknown';

/** The forecast's own end where it ends sooner than the work: the amount is the same. */
const horizonName = (finding: Finding, wording: Wording): string =>
  finding.required === 0 ? `the plan ends (${at(finding, wording)})` : 'the forecast ends';

/** A limit with a number, or one the forecast does not hold. */
function limitText(finding: Finding, wording: Wording): string {
  const words = ruleWords(finding.rule);
  const isLeast = LEAST_LIMITS.has(finding.rule);
  const limit = `${words} ${isLeast ? 'below' : 'above'} ${requiredText(finding)}`;
  if (!isUnknown(finding)) return `${limit}${inScenarios(finding, wording)}${expectedText(finding, isLeast)}`;
  const holdsNot = `the forecast does not hold the ${words} all the time (limit ${requiredText(finding)})`;
  return (finding.scenarioShare ?? 0) > 0 ? `${limit}${inScenarios(finding, wording)}, and ${holdsNot}` : holdsNot;
}

/** ` in 46 of 100, first Mon 1 Jun 13:40`; what is so in every scenario only says when. */
function inScenarios(finding: Finding, wording: Wording): string {
  const share = finding.scenarioShare ?? 0;
  const where = share > 0 && share < 1 ? ` in ${ofHundred(share)}` : '';
  if (finding.atEpochMs === null) return where;
  return `${where}${where === '' ? ' from ' : ', first '}${at(finding, wording)}${where === '' ? ' on' : ''}`;
}

/** What the middle scenario has at its worst moment, and how far that is from the limit. */
function expectedText(finding: Finding, isLeast: boolean): string {
  if (finding.margin === null) return '';
  if (finding.margin >= 0) return ` (${observedText(finding)} expected, ${shortText(finding)} to spare)`;
  return ` (${observedText(finding)} expected, ${shortText(finding)} ${isLeast ? 'under' : 'over'})`;
}
