import { rhumb } from '../../geo/index.ts';
import { effectiveEntries, type EffectiveEntry, type NumberedEntry } from '../../log/index.ts';
import { okUnless, type Result } from '../../result/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { onScale } from '../text/scaled.ts';
import { sendableTimeProblems } from '../text/sendable-times.ts';
import { wholeMinute } from '../text/times.ts';
import type { ReportJobEvent, ReportMessage, ReportNote, ReportObservation, ReportSleep } from './report-message.ts';
import { jobEventToSend, noteToSend, observationToSend, sleepToSend } from './statements.ts';

export interface ReportSettings {
  /** What has changed since then is told; else the last 24 h. */
  readonly sinceEpochMs?: number;
  /** So many observations, the newest; else 1. More of them let the router check the forecast. */
  readonly mostObservationsCount?: number;
  /** Words to go with it. */
  readonly note?: string;
}

const DAY_MS = 24 * MS_PER_H;

/**
 * A report from the log, corrections applied; entries after `nowEpochMs` are left out.
 *
 * @returns the message, or `message.time` for instants outside 2000 to 2099
 */
export function reportOf(
  entries: readonly NumberedEntry[],
  nowEpochMs: number,
  settings: ReportSettings = {},
): Result<ReportMessage> {
  const madeEpochMs = wholeMinute(nowEpochMs);
  const sinceEpochMs = Math.min(madeEpochMs, wholeMinute(settings.sinceEpochMs ?? madeEpochMs - DAY_MS));
  const past = effectiveEntries(entries).filter(({ atEpochMs }) => atEpochMs <= nowEpochMs);
  const observations = past.flatMap(toObservation);
  const words = noteToSend(madeEpochMs, settings.note ?? '');
  const message: ReportMessage = {
    kind: 'report',
    madeEpochMs,
    sinceEpochMs,
    madeGood: madeGoodOf(observations),
    pressureTrendHpa: trendOf(observations),
    observations: observations.slice(-Math.max(0, settings.mostObservationsCount ?? 1)),
    sleeps: past.flatMap(toSleep).filter(({ endEpochMs }) => endEpochMs > madeEpochMs - DAY_MS),
    jobEvents: recentEvents(past.flatMap(toJobEvent), sinceEpochMs),
    notes: [
      ...past.flatMap(toNote).filter(({ atEpochMs }) => atEpochMs >= sinceEpochMs),
      ...(words === null ? [] : [words]),
    ],
  };
  return okUnless(sendableTimeProblems(instantsOf(message), 'log'), () => message);
}

function toObservation({ statement, atEpochMs }: EffectiveEntry): ReportObservation[] {
  if (statement.kind !== 'observation') return [];
  const observation = observationToSend(atEpochMs, statement);
  const { atEpochMs: _at, ...values } = observation;
  return Object.values(values).every((value) => value === null) ? [] : [observation];
}

function toSleep({ statement, atEpochMs }: EffectiveEntry): ReportSleep[] {
  if (statement.kind !== 'sleep') return [];
  const sleep = sleepToSend(atEpochMs, statement);
  return sleep.endEpochMs > sleep.startEpochMs ? [sleep] : [];
}

const toJobEvent = ({ statement, atEpochMs }: EffectiveEntry): ReportJobEvent[] =>
  statement.kind === 'job' ? [jobEventToSend(atEpochMs, statement)] : [];

function toNote({ statement, atEpochMs }: EffectiveEntry): ReportNote[] {
  const note = statement.kind === 'note' ? noteToSend(atEpochMs, statement.note) : null;
  return note === null ? [] : [note];
}

/** Those since then, and before them the last of every job that has none since. */
function recentEvents(events: readonly ReportJobEvent[], sinceEpochMs: number): ReportJobEvent[] {
  return events.filter(
    (event, index) =>
      event.atEpochMs >= sinceEpochMs || !events.slice(index + 1).some(({ jobId }) => jobId === event.jobId),
  );
}

/** Shortest and longest time between two positions from which course and speed are told; ours. */
const LEAST_RUN_H = 0.5;
const MOST_RUN_H = 24;

function madeGoodOf(observations: readonly ReportObservation[]): ReportMessage['madeGood'] {
  const placed = observations.flatMap(({ position, atEpochMs }) =>
    position === null ? [] : [{ position, atEpochMs }],
  );
  const last = placed.at(-1);
  if (last === undefined) return null;
  const hoursBefore = ({ atEpochMs }: { readonly atEpochMs: number }): number =>
    (last.atEpochMs - atEpochMs) / MS_PER_H;
  const before = placed.findLast((of) => hoursBefore(of) >= LEAST_RUN_H);
  if (before === undefined || hoursBefore(before) > MOST_RUN_H) return null;
  const { courseTowardDegTrue, distanceNm } = rhumb(before.position, last.position);
  const speedKn = onScale(distanceNm / hoursBefore(before), 10);
  return speedKn === null ? null : { courseTowardDegTrue: Math.round(courseTowardDegTrue) % 360, speedKn };
}

/** A trend is one of three hours (WMO-No. 306, code table 0200: the period is three hours); it is reckoned from 2 to 4. */
const TREND_H = 3;
const TREND_ROOM_H = 1;

function trendOf(observations: readonly ReportObservation[]): number | null {
  const read = observations.flatMap(({ pressureHpa, atEpochMs }) =>
    pressureHpa === null ? [] : [{ pressureHpa, atEpochMs }],
  );
  const last = read.at(-1);
  if (last === undefined) return null;
  const offH = ({ atEpochMs }: { readonly atEpochMs: number }): number =>
    Math.abs((last.atEpochMs - atEpochMs) / MS_PER_H - TREND_H);
  const [before] = read.filter((of) => offH(of) <= TREND_ROOM_H).toSorted((a, b) => offH(a) - offH(b));
  if (before === undefined) return null;
  const lengthH = (last.atEpochMs - before.atEpochMs) / MS_PER_H;
  return onScale(((last.pressureHpa - before.pressureHpa) * TREND_H) / lengthH, 10);
}

const instantsOf = (message: ReportMessage): readonly number[] => [
  message.madeEpochMs,
  message.sinceEpochMs,
  ...message.observations.map(({ atEpochMs }) => atEpochMs),
  ...message.sleeps.flatMap(({ startEpochMs, endEpochMs }) => [startEpochMs, endEpochMs]),
  ...message.jobEvents.map(({ atEpochMs }) => atEpochMs),
  ...message.notes.map(({ atEpochMs }) => atEpochMs),
];
