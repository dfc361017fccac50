/** The items of a report, one by one; null: a field of it is not known, or stands twice. */
import { parseId } from '../text/id-text.ts';
import { ItemTimesReader } from '../text/item-times.ts';
import { parseNote } from '../text/note-text.ts';
import { parseScaled } from '../text/scaled.ts';
import { FIELD_SEPARATOR } from '../text/separators.ts';
import { parseInstant } from '../text/times.ts';
import { parseReportPosition } from './position-text.ts';
import { EVENT_CODES, NUMBER_FIELDS, SKY_CODES } from './report-codes.table.ts';
import type { ReportJobEvent, ReportNote, ReportObservation, ReportSleep, ReportWind } from './report-message.ts';

/** Six or ten digits. */
const instant = (text: string, baseEpochMs: number): number | null =>
  text.length < 6 ? null : parseInstant(text, { afterEpochMs: baseEpochMs, baseEpochMs });

/** Fields after the first by their letters; null: one stands twice, or is none of `letters`. */
function fieldsOf(fields: readonly string[], letters: string): ReadonlyMap<string, string> | null {
  const byLetter = new Map<string, string>();
  for (const field of fields) {
    const letter = field.charAt(0);
    if (letter === '' || !letters.includes(letter) || byLetter.has(letter)) return null;
    byLetter.set(letter, field.slice(1));
  }
  return byLetter;
}

/** Reads fields that may be left out, and remembers whether one could not be read. */
class OptionalFields {
  readonly #fields: ReadonlyMap<string, string>;
  isRead = true;

  constructor(fields: ReadonlyMap<string, string>) {
    this.#fields = fields;
  }

  get<T>(letter: string, parse: (text: string) => T | null): T | null {
    const text = this.#fields.get(letter);
    const value = text === undefined ? null : parse(text);
    if (text !== undefined && value === null) this.isRead = false;
    return value;
  }
}

export function readObservationItem(text: string, baseEpochMs: number): ReportObservation | null {
  const [first = '', ...rest] = text.split(FIELD_SEPARATOR);
  const atEpochMs = instant(first.slice(1), baseEpochMs);
  const fields = fieldsOf(rest, 'LWAGBHPVIESNXT');
  if (atEpochMs === null || fields === null || (fields.has('W') && fields.has('A'))) return null;
  const optional = new OptionalFields(fields);
  const numberOf = (name: (typeof NUMBER_FIELDS)[number]['field']): number | null => {
    const of = NUMBER_FIELDS.find(({ field }) => field === name);
    return of === undefined ? null : optional.get(of.letter, (value) => parseScaled(value, of.stepsPerUnitCount));
  };
  const observation: ReportObservation = {
    atEpochMs,
    position: optional.get('L', parseReportPosition),
    sailState: optional.get('X', parseId),
    wind: optional.get('W', readTrueWind) ?? optional.get('A', readApparentWind),
    gustKn: numberOf('gustKn'),
    pressureHpa: numberOf('pressureHpa'),
    seaHeightM: numberOf('seaHeightM'),
    wavePeriodS: numberOf('wavePeriodS'),
    sky: optional.get('S', (code) => SKY_CODES.find((of) => of.code === code)?.sky ?? null),
    rain: optional.get('N', (code) => (code === 'Y' ? true : code === 'N' ? false : null)),
    visibilityNm: numberOf('visibilityNm'),
    airC: numberOf('airC'),
    seaWaterC: numberOf('seaWaterC'),
    note: optional.get('T', parseNote),
  };
  return optional.isRead ? observation : null;
}

function readTrueWind(text: string): ReportWind | null {
  const match = /^(\d{3})?\.(\d+)$/.exec(text);
  const speedKn = parseScaled(match?.[2] ?? '', 10);
  const fromDegTrue = match?.[1] === undefined ? null : Number(match[1]);
  return speedKn === null || (fromDegTrue ?? 0) > 360 ? null : { kind: 'true', speedKn, fromDegTrue };
}

function readApparentWind(text: string): ReportWind | null {
  const match = /^(-?\d{1,3})\.(\d+)\.(\d{3})\.(\d+)$/.exec(text);
  const [, angle = '', speed = '', heading = '', boatSpeed = ''] = match ?? [];
  const [angleDeg, headingDegTrue] = [parseScaled(angle, 1), parseScaled(heading, 1)];
  const [speedKn, boatSpeedKn] = [parseScaled(speed, 10), parseScaled(boatSpeed, 10)];
  if (angleDeg === null || headingDegTrue === null || speedKn === null || boatSpeedKn === null) return null;
  return { kind: 'apparent', speedKn, angleDeg, headingDegTrue, boatSpeedKn };
}

export function readSleepItem(text: string, baseEpochMs: number): ReportSleep | null {
  const [first = '', ...rest] = text.split(FIELD_SEPARATOR);
  const span = new ItemTimesReader(baseEpochMs).span(first.slice(1));
  const fields = fieldsOf(rest, 'T');
  if (span === null || fields === null) return null;
  const optional = new OptionalFields(fields);
  const note = optional.get('T', parseNote);
  return optional.isRead ? { ...span, note } : null;
}

export function readJobItem(text: string, baseEpochMs: number): ReportJobEvent | null {
  const [first = '', what = '', ...rest] = text.split(FIELD_SEPARATOR);
  const jobId = parseId(first.slice(1));
  const event = EVENT_CODES.find(({ code }) => code === what.charAt(0))?.event;
  const atEpochMs = instant(what.slice(1), baseEpochMs);
  const fields = fieldsOf(rest, 'FMT');
  if (jobId === null || event === undefined || atEpochMs === null || fields === null) return null;
  const optional = new OptionalFields(fields);
  const values = {
    stepId: optional.get('F', parseId),
    workedMin: optional.get('M', (value) => parseScaled(value, 1)),
    note: optional.get('T', parseNote),
  };
  return optional.isRead ? { atEpochMs, jobId, event, ...values } : null;
}

export function readNoteItem(text: string, baseEpochMs: number): ReportNote | null {
  const [first = '', words = '', ...more] = text.split(FIELD_SEPARATOR);
  const [atEpochMs, note] = [instant(first.slice(1), baseEpochMs), parseNote(words)];
  return atEpochMs === null || note === null || more.length > 0 ? null : { atEpochMs, note };
}
