/** Statements of the log on the scales of a report, and back. */
import type { JobEventFile, ObservationFile, SleepFile } from '../../log/index.ts';
import { formatUtc, parseUtc } from '../../time/index.ts';
import { sendableNote } from '../text/note-text.ts';
import { onScale } from '../text/scaled.ts';
import { wholeMinute } from '../text/times.ts';
import { sendablePosition } from './position-text.ts';
import type { ReportJobEvent, ReportNote, ReportObservation, ReportSleep, ReportWind } from './report-message.ts';

const noteOf = (note: string | undefined): string | null => {
  const sendable = sendableNote(note ?? '');
  return sendable === '' ? null : sendable;
};

const tenths = (value: number | undefined): number | null => (value === undefined ? null : onScale(value, 10));

export function observationToSend(atEpochMs: number, observed: ObservationFile): ReportObservation {
  const { lat, lon } = observed;
  return {
    atEpochMs: wholeMinute(atEpochMs),
    position: lat === undefined || lon === undefined ? null : sendablePosition({ lat, lon }),
    sailState: observed.sailState ?? null,
    wind: observed.wind === undefined ? null : windToSend(observed.wind),
    gustKn: tenths(observed.gustKn),
    pressureHpa: tenths(observed.pressureHpa),
    seaHeightM: tenths(observed.seaHeightM),
    wavePeriodS: tenths(observed.wavePeriodS),
    sky: observed.sky ?? null,
    rain: observed.rain ?? null,
    visibilityNm: tenths(observed.visibilityNm),
    airC: tenths(observed.airC),
    seaWaterC: tenths(observed.seaWaterC),
    note: noteOf(observed.note),
  };
}

function windToSend(wind: NonNullable<ObservationFile['wind']>): ReportWind {
  const speedKn = onScale(wind.speedKn, 10) ?? 0;
  if (wind.kind === 'true')
    return {
      kind: 'true',
      speedKn,
      // What rounds to a calm has no direction.
      fromDegTrue: wind.fromDegTrue === undefined || speedKn === 0 ? null : onScale(wind.fromDegTrue, 1),
    };
  return {
    kind: 'apparent',
    speedKn,
    angleDeg: onScale(wind.angleDeg, 1) ?? 0,
    headingDegTrue: onScale(wind.headingDegTrue, 1) ?? 0,
    boatSpeedKn: onScale(wind.boatSpeedKn, 10) ?? 0,
  };
}

export const sleepToSend = (startEpochMs: number, sleep: SleepFile): ReportSleep => ({
  startEpochMs: wholeMinute(startEpochMs),
  endEpochMs: wholeMinute(instant(sleep.endUtc)),
  note: noteOf(sleep.note),
});

/** Instant of a checked entry. */
export function instant(utc: string): number {
  const read = parseUtc(utc, 'log');
  if (!read.ok) throw new Error('an entry of the log has its instants checked');
  return read.value;
}

export const jobEventToSend = (atEpochMs: number, job: JobEventFile): ReportJobEvent => ({
  atEpochMs: wholeMinute(atEpochMs),
  jobId: job.jobId,
  event: job.event,
  stepId: job.stepId ?? null,
  workedMin: job.workedMin === undefined ? null : onScale(job.workedMin, 1),
  note: noteOf(job.note),
});

/** Null: nothing of the note can be sent. */
export function noteToSend(atEpochMs: number, note: string): ReportNote | null {
  const sendable = noteOf(note);
  return sendable === null ? null : { atEpochMs: wholeMinute(atEpochMs), note: sendable };
}

/** Keys with a value: what is not known has no key in the log. */
const known = (of: object): object => Object.fromEntries(Object.entries(of).filter(([, value]) => value !== null));

/** As raw JSON: the log's own reader checks it. */
export function rawObservation({ atEpochMs, position, wind, ...values }: ReportObservation): object {
  return {
    kind: 'observation',
    atUtc: formatUtc(atEpochMs),
    ...position,
    ...known(values),
    ...(wind === null ? {} : { wind: known(wind) }),
  };
}

export const rawSleep = ({ startEpochMs, endEpochMs, note }: ReportSleep): object => ({
  kind: 'sleep',
  atUtc: formatUtc(startEpochMs),
  endUtc: formatUtc(endEpochMs),
  ...known({ note }),
});

export const rawJobEvent = ({ atEpochMs, ...values }: ReportJobEvent): object => ({
  kind: 'job',
  atUtc: formatUtc(atEpochMs),
  ...known(values),
});

export const rawNote = ({ atEpochMs, note }: ReportNote): object => ({
  kind: 'note',
  atUtc: formatUtc(atEpochMs),
  note,
});
