import { FIELD_SEPARATOR, ITEM_SEPARATOR } from '../text/separators.ts';
import { formatId } from '../text/id-text.ts';
import { ItemTimesWriter } from '../text/item-times.ts';
import { formatNote } from '../text/note-text.ts';
import { formatScaled } from '../text/scaled.ts';
import { formatInstant } from '../text/times.ts';
import { formatReportPosition } from './position-text.ts';
import { EVENT_CODES, NUMBER_FIELDS, SKY_CODES } from './report-codes.table.ts';
import type {
  ReportJobEvent,
  ReportMessage,
  ReportNote,
  ReportObservation,
  ReportSleep,
  ReportWind,
} from './report-message.ts';

const item = (fields: readonly (string | null)[]): string =>
  fields.filter((field) => field !== null).join(FIELD_SEPARATOR);

const noteField = (note: string | null): string | null => (note === null ? null : `T${formatNote(note)}`);

/** The body of a report: items between slashes, fields between commas; `message key` prints what they mean. */
export function writeReportBody(message: ReportMessage): string {
  const base = message.madeEpochMs;
  return [
    headItem(message),
    ...message.observations.map((of) => observationItem(of, base)),
    ...message.sleeps.map((of) => sleepItem(of, base)),
    ...message.jobEvents.map((of) => jobItem(of, base)),
    ...message.notes.map((of) => noteItem(of, base)),
  ].join(ITEM_SEPARATOR);
}

function headItem({ madeEpochMs, sinceEpochMs, madeGood, pressureTrendHpa }: ReportMessage): string {
  return item([
    `R${formatInstant(sinceEpochMs, madeEpochMs)}`,
    madeGood === null
      ? null
      : `K${String(madeGood.courseTowardDegTrue).padStart(3, '0')}.${formatScaled(madeGood.speedKn, 10)}`,
    pressureTrendHpa === null ? null : `Q${formatScaled(pressureTrendHpa, 10)}`,
  ]);
}

/** Written beside each other: whatever is equal on the scales of a report is the same text. */
export function observationItem(of: ReportObservation, baseEpochMs: number): string {
  return item([
    `O${formatInstant(of.atEpochMs, baseEpochMs)}`,
    of.position === null ? null : `L${formatReportPosition(of.position)}`,
    of.wind === null ? null : windField(of.wind),
    ...NUMBER_FIELDS.map(({ letter, field, stepsPerUnitCount }) => {
      const value = of[field];
      return value === null ? null : `${letter}${formatScaled(value, stepsPerUnitCount)}`;
    }),
    of.sky === null ? null : `S${SKY_CODES.find(({ sky }) => sky === of.sky)?.code ?? ''}`,
    of.rain === null ? null : `N${of.rain ? 'Y' : 'N'}`,
    of.sailState === null ? null : `X${formatId(of.sailState)}`,
    noteField(of.note),
  ]);
}

function windField(wind: ReportWind): string {
  const speed = formatScaled(wind.speedKn, 10);
  if (wind.kind === 'true')
    return `W${wind.fromDegTrue === null ? '' : String(wind.fromDegTrue).padStart(3, '0')}.${speed}`;
  return `A${formatScaled(wind.angleDeg, 1)}.${speed}.${String(wind.headingDegTrue).padStart(3, '0')}.${formatScaled(wind.boatSpeedKn, 10)}`;
}

export const sleepItem = (of: ReportSleep, baseEpochMs: number): string =>
  item([`Z${new ItemTimesWriter(baseEpochMs).span(of)}`, noteField(of.note)]);

export function jobItem(of: ReportJobEvent, baseEpochMs: number): string {
  const event = EVENT_CODES.find((code) => code.event === of.event);
  return item([
    `J${formatId(of.jobId)}`,
    `${event?.code ?? ''}${formatInstant(of.atEpochMs, baseEpochMs)}`,
    of.stepId === null ? null : `F${formatId(of.stepId)}`,
    of.workedMin === null ? null : `M${formatScaled(of.workedMin, 1)}`,
    noteField(of.note),
  ]);
}

export const noteItem = (of: ReportNote, baseEpochMs: number): string =>
  item([`T${formatInstant(of.atEpochMs, baseEpochMs)}`, formatNote(of.note)]);
