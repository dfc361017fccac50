/** How awake the invented sailor is through the fixture's plan, and what the sleep is for. */
import { kssFromAlertness } from '../../lib/person/index.ts';
import type { Plan, PlanEntry, PlanPicture } from '../../lib/planner/index.ts';
import { formatUtc, MS_PER_H, MS_PER_MIN } from '../../lib/time/index.ts';
import { at } from './fixture-weather.ts';
import { buysTexts, restRules, watchNotes } from './fixture-watch.table.ts';

type Watch = Plan['watch'];
type Sky = Pick<PlanPicture, 'slotEpochMs' | 'alertnessPoints' | 'lapses' | 'bodyClockH' | 'nowEpochMs'>;

/** Model 5c, as the lib has it. */
const NINE_OF_TEN_KSS = 1.07;
const LOOKOUT_INTERVAL_MIN = 12;
const DAY_H = 24;

export function watchOf(entries: readonly PlanEntry[], sky: Sky): Watch {
  const endEpochMs = Math.max(...entries.map(({ endUtc }) => at(endUtc)));
  const asleep = entries.filter(({ kind }) => kind === 'sleep');
  return {
    gates: {
      hardLeastAlertnessPoints: 8.15,
      deckLeastAlertnessPoints: 7,
      anyLeastAlertnessPoints: 3.65,
      hardMostLapses: 10,
      deckMostLapses: 12,
    },
    hours: fullHours(sky.nowEpochMs, endEpochMs).map((epochMs) => hourAt(epochMs, { asleep, sky })),
    sleeps: asleep.map((entry, i) => sleepOf(entry, buysTexts[i] ?? '', sky)),
    lowHours: lowHours(sky, endEpochMs),
    days: daysOf(sky.nowEpochMs, endEpochMs, asleep),
    priorSleep: entries
      .filter(({ kind, jobId }) => kind === 'work' && jobId !== null)
      .slice(0, 1)
      .map(({ jobId, startUtc }) => ({
        jobId: jobId ?? '',
        startUtc,
        text: 'First job: at its end 4.2 h slept in 24, 5.0 h needed.',
      })),
    restRules,
    notes: watchNotes,
  };
}

const fullHours = (fromEpochMs: number, toEpochMs: number): number[] => {
  const first = Math.ceil(fromEpochMs / MS_PER_H);
  return Array.from({ length: Math.floor(toEpochMs / MS_PER_H) - first + 1 }, (_, i) => (first + i) * MS_PER_H);
};

const slotAt = (sky: Sky, epochMs: number): number =>
  Math.max(
    0,
    sky.slotEpochMs.findLastIndex((slot) => slot <= epochMs),
  );

const valueAt = (values: Float32Array, i: number): number => values[i] ?? 0;

function hourAt(epochMs: number, of: { asleep: readonly PlanEntry[]; sky: Sky }): Watch['hours'][number] {
  const i = slotAt(of.sky, epochMs);
  const alertness = valueAt(of.sky.alertnessPoints, i);
  return {
    timeUtc: formatUtc(epochMs),
    bodyClockH: valueAt(of.sky.bodyClockH, i),
    asleep: of.asleep.some(({ startUtc, endUtc }) => at(startUtc) <= epochMs && epochMs < at(endUtc)),
    alertness,
    kss: kssFromAlertness(alertness),
    kssP90: kssFromAlertness(alertness) + NINE_OF_TEN_KSS,
    lapses: valueAt(of.sky.lapses, i),
  };
}

function sleepOf(entry: PlanEntry, buys: string, sky: Sky): Watch['sleeps'][number] {
  const lengthMin = (at(entry.endUtc) - at(entry.startUtc)) / MS_PER_MIN;
  const isNext = entry.startUtc.startsWith('2026-05-27');
  return {
    startUtc: entry.startUtc,
    endUtc: entry.endUtc,
    lengthMin,
    beyondLookoutMin: lengthMin - LOOKOUT_INTERVAL_MIN,
    lookoutIntervalMin: LOOKOUT_INTERVAL_MIN,
    lookoutLimitedBy: isNext ? 'visibility' : 'light',
    isVisibilityKnown: true,
    alertnessBefore: valueAt(sky.alertnessPoints, slotAt(sky, at(entry.startUtc))),
    alertnessAfter: valueAt(sky.alertnessPoints, slotAt(sky, at(entry.endUtc))),
    forJobId: isNext ? 'drop' : null,
    buys,
  };
}

function lowHours({ slotEpochMs, bodyClockH }: Sky, endEpochMs: number): Watch['lowHours'] {
  const isLow = (i: number): boolean => {
    const hour = valueAt(bodyClockH, i);
    return hour >= 2 && hour < 6 && (slotEpochMs[i] ?? 0) <= endEpochMs;
  };
  const starts = Array.from(slotEpochMs).flatMap((_, i) => (isLow(i) && !isLow(i - 1) ? [i] : []));
  return starts.map((start) => {
    const last = slotEpochMs.findIndex((_, i) => i > start && !isLow(i));
    return { startUtc: formatUtc(slotEpochMs[start] ?? 0), endUtc: formatUtc(slotEpochMs[last] ?? endEpochMs) };
  });
}

function daysOf(fromEpochMs: number, endEpochMs: number, asleep: readonly PlanEntry[]): Watch['days'] {
  const dayMs = DAY_H * MS_PER_H;
  return Array.from({ length: Math.ceil((endEpochMs - fromEpochMs) / dayMs) }, (_, day) => {
    const [from, to] = [fromEpochMs + day * dayMs, Math.min(endEpochMs, fromEpochMs + (day + 1) * dayMs)];
    const inDay = ({ startUtc, endUtc }: PlanEntry): number =>
      Math.max(0, Math.min(to, at(endUtc)) - Math.max(from, at(startUtc)));
    const sleptMs = asleep.reduce((sumMs, entry) => sumMs + inDay(entry), 0);
    return {
      fromUtc: formatUtc(from),
      toUtc: formatUtc(to),
      sleptH: (sleptMs / MS_PER_H) * 0.85,
      wantedH: (7 * (to - from)) / dayMs,
      leastH: (5.5 * (to - from)) / dayMs,
    };
  });
}
