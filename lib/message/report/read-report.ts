import { failed, ok, type Result } from '../../result/index.ts';
import { parseScaled } from '../text/scaled.ts';
import { FIELD_SEPARATOR, ITEM_SEPARATOR } from '../text/separators.ts';
import { parseInstant } from '../text/times.ts';
import { readJobItem, readNoteItem, readObservationItem, readSleepItem } from './read-report-items.ts';
import type { ReportJobEvent, ReportMessage, ReportNote, ReportObservation, ReportSleep } from './report-message.ts';

/**
 * The report of a body; `message.report-unreadable` names the first item that is not known, and nothing of it is used.
 *
 * @param baseEpochMs base time of the message: when the report was made
 */
export function readReportBody(
  body: string,
  of: { readonly baseEpochMs: number; readonly where: string },
): Result<ReportMessage> {
  const [headText = '', ...items] = body.split(ITEM_SEPARATOR);
  const head = readHead(headText, of.baseEpochMs);
  if (head === null) return unreadable(headText, of.where);
  const observations: ReportObservation[] = [];
  const sleeps: ReportSleep[] = [];
  const jobEvents: ReportJobEvent[] = [];
  const notes: ReportNote[] = [];
  for (const text of items) {
    if (!readItem(text, of.baseEpochMs, { observations, sleeps, jobEvents, notes })) return unreadable(text, of.where);
  }
  return ok({ kind: 'report', madeEpochMs: of.baseEpochMs, ...head, observations, sleeps, jobEvents, notes });
}

interface Lists {
  readonly observations: ReportObservation[];
  readonly sleeps: ReportSleep[];
  readonly jobEvents: ReportJobEvent[];
  readonly notes: ReportNote[];
}

function readItem(text: string, baseEpochMs: number, into: Lists): boolean {
  switch (text.charAt(0)) {
    case 'O':
      return pushed(into.observations, readObservationItem(text, baseEpochMs));
    case 'Z':
      return pushed(into.sleeps, readSleepItem(text, baseEpochMs));
    case 'J':
      return pushed(into.jobEvents, readJobItem(text, baseEpochMs));
    case 'T':
      return pushed(into.notes, readNoteItem(text, baseEpochMs));
    default:
      return false;
  }
}

function pushed<T>(list: T[], value: T | null): boolean {
  if (value !== null) list.push(value);
  return value !== null;
}

const unreadable = (text: string, where: string): Result<never> =>
  failed({
    code: 'message.report-unreadable',
    where,
    what: `"${text.slice(0, 60)}" is no item of a report this program knows.`,
    expected: 'the items of the printed key (slatch message key)',
    remedy: 'Another version may have written it: nothing of it is used. Ask for the report in plain words.',
  });

type Head = Pick<ReportMessage, 'sinceEpochMs' | 'madeGood' | 'pressureTrendHpa'>;

function readHead(text: string, baseEpochMs: number): Head | null {
  const [first = '', ...fields] = text.split(FIELD_SEPARATOR);
  const sinceEpochMs =
    first.charAt(0) === 'R' ? parseInstant(first.slice(1), { afterEpochMs: baseEpochMs, baseEpochMs }) : null;
  if (sinceEpochMs === null || first.length < 7) return null;
  let [madeGood, pressureTrendHpa]: [Head['madeGood'], number | null] = [null, null];
  for (const field of fields) {
    const isRead =
      field.startsWith('K') && madeGood === null
        ? (madeGood = readMadeGood(field.slice(1))) !== null
        : field.startsWith('Q') && pressureTrendHpa === null
          ? (pressureTrendHpa = parseScaled(field.slice(1), 10)) !== null
          : false;
    if (!isRead) return null;
  }
  return { sinceEpochMs, madeGood, pressureTrendHpa };
}

function readMadeGood(text: string): Head['madeGood'] {
  const match = /^(\d{3})\.(\d+)$/.exec(text);
  const speedKn = parseScaled(match?.[2] ?? '', 10);
  const courseTowardDegTrue = Number(match?.[1] ?? '360');
  return speedKn === null || courseTowardDegTrue >= 360 ? null : { courseTowardDegTrue, speedKn };
}
