import { normalPosition, type Position } from '../../geo/index.ts';
import { textValue, utcValue } from './content-lines.ts';
import { type EventIdentity, eventUid } from './event-uid.ts';
import { oneLine } from './plain-text.ts';

/** When an alarm sounds: minutes before the beginning, or the instant of beginning or end. */
export type EventAlarm =
  | { readonly at: 'before-start'; readonly beforeMin: number }
  | { readonly at: 'start' }
  | { readonly at: 'end' };

/** One event of the calendar. */
export interface CalendarEvent {
  readonly identity: EventIdentity;
  readonly summary: string;
  readonly description: readonly string[];
  readonly startEpochMs: number;
  /** null, or not later than the start: an instant. */
  readonly endEpochMs: number | null;
  readonly position: Position | null;
  readonly status: 'CONFIRMED' | 'TENTATIVE' | 'CANCELLED';
  /** Whether the sailor is taken by it. */
  readonly isBusy: boolean;
  readonly alarms: readonly EventAlarm[];
}

/** What all events of one calendar share. */
export interface CalendarStamp {
  readonly passageName: string;
  /** When the calendar is written. */
  readonly stampEpochMs: number;
  /** Grows with each plan of the passage. */
  readonly sequenceNumber: number;
}

/** Content lines of a VEVENT, unfolded; RFC 5545, 3.6.1. */
export function eventLines(event: CalendarEvent, stamp: CalendarStamp): string[] {
  const { startEpochMs, position } = event;
  const endEpochMs = event.endEpochMs !== null && event.endEpochMs > startEpochMs ? event.endEpochMs : null;
  return [
    'BEGIN:VEVENT',
    `UID:${textValue(eventUid(stamp.passageName, event.identity))}`,
    `DTSTAMP:${utcValue(stamp.stampEpochMs)}`,
    `SEQUENCE:${stamp.sequenceNumber}`,
    `DTSTART:${utcValue(startEpochMs)}`,
    // DTEND must be later than DTSTART (3.8.2.2): an instant has none and ends where it begins (3.6.1).
    ...(endEpochMs === null ? [] : [`DTEND:${utcValue(endEpochMs)}`]),
    `SUMMARY:${textValue(oneLine(event.summary))}`,
    ...(event.description.length === 0 ? [] : [`DESCRIPTION:${textValue(event.description.join('\n'))}`]),
    ...(position === null ? [] : [`GEO:${geoValue(position)}`]),
    `STATUS:${event.status}`,
    `TRANSP:${event.isBusy ? 'OPAQUE' : 'TRANSPARENT'}`,
    ...event.alarms.flatMap((alarm) => alarmLines(alarm, event.summary, endEpochMs !== null)),
    'END:VEVENT',
  ];
}

/** Latitude, semicolon, longitude in degrees, six decimals (3.8.1.6). */
function geoValue(position: Position): string {
  const { lat, lon } = normalPosition(position);
  return `${lat.toFixed(6)};${lon.toFixed(6)}`;
}

/** Content lines of a VALARM that shows the summary; RFC 5545, 3.6.6 and 3.8.6.3. */
function alarmLines(alarm: EventAlarm, summary: string, hasEnd: boolean): string[] {
  return [
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    `DESCRIPTION:${textValue(oneLine(alarmText(alarm, summary)))}`,
    triggerLine(alarm, hasEnd),
    'END:VALARM',
  ];
}

const alarmText = (alarm: EventAlarm, summary: string): string =>
  alarm.at === 'before-start' ? `In ${alarm.beforeMin} min: ${summary}` : summary;

function triggerLine(alarm: EventAlarm, hasEnd: boolean): string {
  if (alarm.at === 'before-start') return `TRIGGER:-PT${alarm.beforeMin}M`;
  return alarm.at === 'end' && hasEnd ? 'TRIGGER;RELATED=END:PT0S' : 'TRIGGER:PT0S';
}
