/** The watchkeeper in the text of a plan: how awake, what each sleep buys, what rest rules would say. */
import type { EntryFactor, Plan, PlannedSleep, PlannedWatch, PlanEntry, WatchHour } from '../planner/index.ts';
import { formatAt } from '../time/index.ts';

const EVERY_H = 3;
/** Alertness a full bar stands for. */
const FULL_POINTS = 14;
const BAR = '█';

type Clock = (utc: string) => string;

/** Lines of the section; empty: the plan holds no hour. */
export function watchLines(plan: Plan, shipTimeOffsetMin: number): string[] {
  const { watch } = plan;
  if (watch.hours.length === 0) return [];
  const ship: Clock = (utc) => formatAt(Date.parse(utc), shipTimeOffsetMin, 'ccc d LLL HH:mm');
  return [
    'Watchkeeper (ship’s time; alertness 14 high, 7 the risk line, 3 extreme sleepiness; lapses of attention count weeks of short sleep)',
    ...gateLines(watch),
    ...watch.hours.filter((_, k) => k % EVERY_H === 0).map((hour) => hourLine(watch, hour, ship)),
    '',
    'What each sleep buys',
    ...(watch.sleeps.length === 0 ? ['  No sleep is planned.'] : watch.sleeps.map((sleep) => sleepLine(sleep, ship))),
    ...watch.days.map(dayLine(ship)),
    ...watch.priorSleep.map(({ startUtc, text }) => `  Prior sleep, for information: ${ship(startUtc)}  ${text}`),
    '',
    'Rest rules, for information',
    ...watch.restRules.map(ruleLine),
    ...watch.notes.map((note) => `  ${note}`),
  ];
}

const gateLines = ({ gates }: PlannedWatch): string[] => [
  `  Heavy work, aloft and overside: alertness ${gates.hardLeastAlertnessPoints.toFixed(2)} at least, lapses ${gates.hardMostLapses} at most. Other work on deck: ${gates.deckLeastAlertnessPoints.toFixed(2)} and ${gates.deckMostLapses}. Nothing at all below ${gates.anyLeastAlertnessPoints.toFixed(1)}.`,
];

function hourLine(watch: PlannedWatch, hour: WatchHour, ship: Clock): string {
  const length = Math.round(Math.min(FULL_POINTS, Math.max(0, hour.alertness)));
  const bar = BAR.repeat(length).padEnd(FULL_POINTS);
  const says = [hour.asleep ? 'asleep' : '', lowText(watch, hour), hour.asleep ? '' : barredText(watch, hour)];
  const said = says.filter((text) => text !== '').join(', ');
  const lapses = Math.max(0, hour.lapses).toFixed(1).padStart(4);
  return `  ${ship(hour.timeUtc)}  ${bar} ${hour.alertness.toFixed(1).padStart(4)}  lapses ${lapses}  ${said}`.trimEnd();
}

const lowText = ({ lowHours }: PlannedWatch, { timeUtc }: WatchHour): string =>
  lowHours.some(({ startUtc, endUtc }) => startUtc <= timeUtc && timeUtc < endUtc) ? 'low hours' : '';

function barredText({ gates }: PlannedWatch, { alertness, lapses }: WatchHour): string {
  if (alertness < gates.anyLeastAlertnessPoints) return 'no work at all';
  if (alertness < gates.deckLeastAlertnessPoints || lapses > gates.deckMostLapses) return 'no work on deck';
  const isHardBarred = alertness < gates.hardLeastAlertnessPoints || lapses > gates.hardMostLapses;
  return isHardBarred ? 'no heavy work, nothing aloft or overside' : '';
}

function sleepLine(sleep: PlannedSleep, ship: Clock): string {
  const gain = `alertness ${sleep.alertnessBefore.toFixed(1)}, on waking ${sleep.alertnessAfter.toFixed(1)}`;
  const unwatched = `nobody looks for ${sleep.beyondLookoutMin} min beyond the ${Math.floor(sleep.lookoutIntervalMin)} min in which a ship can come up${sleep.isVisibilityKnown ? '' : ' (visibility not in the forecast)'}`;
  return `  ${ship(sleep.startUtc)}  ${sleep.lengthMin} min: ${gain}; ${unwatched}. ${sleep.buys}`;
}

const dayLine =
  (ship: Clock) =>
  ({ fromUtc, toUtc, sleptH, wantedH, leastH }: PlannedWatch['days'][number]): string => {
    const short = sleptH < leastH ? ': TOO LITTLE' : sleptH < wantedH ? ': less than wanted' : '';
    return `  From ${ship(fromUtc)} to ${ship(toUtc)}: ${sleptH.toFixed(1)} h asleep, ${wantedH.toFixed(1)} wanted, ${leastH.toFixed(1)} at least${short}`;
  };

function ruleLine({ text, observed, required, unit, met }: PlannedWatch['restRules'][number]): string {
  if (met === null) return `  ${text}: the record is too short to say (${required} ${unit} asked)`;
  return `  ${text}: ${observed ?? 0} ${unit}, ${required} asked: ${met ? 'kept' : 'not kept'}`;
}

/** `, 1.6 times as long (wind and sea 1.28, tiredness 1.15)`; empty: at its own pace. */
export function factorsText({
  factors,
  factorsTogetherRatio,
}: Pick<PlanEntry, 'factors' | 'factorsTogetherRatio'>): string {
  if (factorsTogetherRatio === null || factors.length === 0) return '';
  const one = ({ name, ratio }: EntryFactor): string => `${name} ${ratio.toFixed(2)}`;
  return `, ${factorsTogetherRatio.toFixed(2)} times as long (${factors.map(one).join(', ')})`;
}
