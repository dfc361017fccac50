import { formatPosition } from '../../geo/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { EVENT_CODES, NUMBER_FIELDS, SKY_CODES } from '../report/report-codes.table.ts';
import type { ReportJobEvent, ReportMessage, ReportObservation, ReportWind } from '../report/report-message.ts';
import { lengthText, longTime, type MessageNames, named, quoted, shortTime, spanTime } from './amounts.ts';

/** A report in plain words: every field of it, one sentence a line; times are UTC. What is not known is said to be so. */
export function reportWords(message: ReportMessage, names: MessageNames): string[] {
  return [
    `Report of ${longTime(message.madeEpochMs)}; changes since ${longTime(message.sinceEpochMs)}. All times are UTC.`,
    ...(message.observations.length === 0
      ? ['Nothing observed is in this message: position and weather are unknown.']
      : message.observations.flatMap((seen) => observationWords(seen, names))),
    message.madeGood === null
      ? 'Course and speed made good: unknown.'
      : `Made good: ${threeDigits(message.madeGood.courseTowardDegTrue)} true, ${message.madeGood.speedKn.toFixed(1)} kn.`,
    trendWords(message.pressureTrendHpa),
    ...sleepWords(message),
    ...jobWords(message, names),
    ...message.notes.map(({ atEpochMs, note }) => `Note of ${shortTime(atEpochMs)}: ${note}`),
  ];
}

const threeDigits = (angleDeg: number): string => String(angleDeg).padStart(3, '0');

function observationWords(of: ReportObservation, names: MessageNames): string[] {
  const [seen, unknown] = [seenWords(of, names), unknownWords(of)];
  return [
    `Seen ${shortTime(of.atEpochMs)}${seen.length === 0 ? '' : `: ${seen.join(', ')}`}.`,
    ...(unknown.length === 0 ? [] : [`  Not observed: ${unknown.join(', ')}.`]),
    ...(of.note === null ? [] : [`  Note: ${of.note}`]),
  ];
}

function seenWords(of: ReportObservation, names: MessageNames): string[] {
  return [
    ...(of.position === null ? [] : [`at ${formatPosition(of.position)}`]),
    ...(of.sailState === null ? [] : [`sails ${named(of.sailState, names.sailStates)}`]),
    ...(of.wind === null ? [] : [windWords(of.wind)]),
    ...NUMBER_FIELDS.flatMap(({ field, words, unit }) => {
      const value = of[field];
      return value === null ? [] : [`${words} ${value.toFixed(1)} ${unit}`];
    }),
    ...(of.sky === null ? [] : [`sky ${SKY_CODES.find(({ sky }) => sky === of.sky)?.words ?? of.sky}`]),
    ...(of.rain === null ? [] : [of.rain ? 'rain' : 'no rain']),
  ];
}

const unknownWords = (of: ReportObservation): string[] => [
  ...(of.position === null ? ['position'] : []),
  ...(of.wind === null ? ['wind'] : []),
  ...NUMBER_FIELDS.filter(({ field }) => of[field] === null).map(({ words }) => words),
  ...(of.sky === null ? ['sky'] : []),
  ...(of.rain === null ? ['rain'] : []),
];

function windWords(wind: ReportWind): string {
  if (wind.kind === 'true') {
    const from = wind.fromDegTrue === null ? 'direction unknown' : `from ${threeDigits(wind.fromDegTrue)} true`;
    return `true wind ${wind.speedKn.toFixed(1)} kn ${from}`;
  }
  const angleDeg = wind.angleDeg > 180 ? wind.angleDeg - 360 : wind.angleDeg;
  const side = angleDeg === 0 || Math.abs(angleDeg) === 180 ? '' : angleDeg < 0 ? ' to port' : ' to starboard';
  return `apparent wind ${wind.speedKn.toFixed(1)} kn, ${Math.abs(angleDeg)} degrees from the bow${side}, heading ${threeDigits(wind.headingDegTrue)} true at ${wind.boatSpeedKn.toFixed(1)} kn`;
}

function trendWords(trendHpa: number | null): string {
  if (trendHpa === null) return 'Change of pressure in 3 h: unknown.';
  if (trendHpa === 0) return 'Pressure steady over 3 h.';
  return `Pressure ${trendHpa > 0 ? 'rising' : 'falling'} ${Math.abs(trendHpa).toFixed(1)} hPa in 3 h.`;
}

const DAY_MS = 24 * MS_PER_H;

function sleepWords({ sleeps, madeEpochMs }: ReportMessage): string[] {
  if (sleeps.length === 0) return ['No sleep is logged in the last 24 h.'];
  const spans = sleeps
    .map(({ startEpochMs, endEpochMs }) => ({
      from: Math.max(startEpochMs, madeEpochMs - DAY_MS),
      to: Math.min(endEpochMs, madeEpochMs),
    }))
    .toSorted((a, b) => a.from - b.from);
  let [sleptMs, reached] = [0, -Infinity];
  for (const { from, to } of spans) {
    sleptMs += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  const each = sleeps.map(
    ({ startEpochMs, endEpochMs, note }) => `${spanTime(startEpochMs, endEpochMs)}${note === null ? '' : ` (${note})`}`,
  );
  return [`Time in the bunk in the last 24 h: ${lengthText(sleptMs)}: ${each.join('; ')}.`];
}

function jobWords({ jobEvents, sinceEpochMs }: ReportMessage, names: MessageNames): string[] {
  if (jobEvents.length === 0) return ['No state of any job is in this message.'];
  const hasChange = jobEvents.some(({ atEpochMs }) => atEpochMs >= sinceEpochMs);
  return [
    ...(hasChange ? [] : [`No change of any job since ${shortTime(sinceEpochMs)}. The last of each:`]),
    ...jobEvents.map((event) => eventWords(event, names)),
  ];
}

function eventWords(of: ReportJobEvent, names: MessageNames): string {
  const event = EVENT_CODES.find((code) => code.event === of.event)?.words ?? of.event;
  const step = of.stepId === null ? '' : `, step ${quoted(of.stepId)} finished`;
  const worked = of.workedMin === null ? '' : `, ${of.workedMin} min worked`;
  const note = of.note === null ? '' : ` Note: ${of.note}`;
  return `Job ${named(of.jobId, names.jobs)}: ${event} ${shortTime(of.atEpochMs)}${step}${worked}.${note}`;
}
