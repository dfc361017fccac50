import type { Plan } from '../../planner/index.ts';
import { MS_PER_MIN } from '../../time/index.ts';
import { type CalendarEvent, type CalendarStamp, type EventAlarm, eventLines } from './calendar-event.ts';
import { contentText, textValue } from './content-lines.ts';
import { decisionEvents, fallbackEvents } from './decision-events.ts';
import { sleepEvents, waitEvents, workEvents } from './entry-events.ts';
import { type EventIdentity, eventUid } from './event-uid.ts';
import type { ExportNames } from './export-names.ts';
import { onBothClocks, planTitle } from './job-words.ts';
import { oneLine } from './plain-text.ts';

export interface CalendarSettings {
  /** When the calendar is written. */
  readonly nowEpochMs: number;
  readonly names: ExportNames;
  /** Alarms before decisions and before work begins [min, whole]; 30 and 5 unless given. */
  readonly alarmsBeforeMin?: readonly number[];
  /** The plan whose calendar may have been taken over before: what of it is gone is told as cancelled. */
  readonly before?: Plan;
}

const ALARMS_BEFORE_MIN = [30, 5];

/** SEQUENCE counts minutes from here: a plan made later has the greater one. RFC 5545, 3.8.7.4 and 3.3.8. */
const SEQUENCE_FROM_EPOCH_MS = Date.UTC(2000, 0, 1);
const MOST_SEQUENCE = 2 ** 31 - 1;

/**
 * A plan as an iCalendar object (RFC 5545, NAME by RFC 7986), text/calendar in UTF-8.
 *
 * One event for each session of work, each sleep, the end of each wait, each decision and each fallback, and one for the
 * plan as a whole with its cautions. Times are UTC. Events keep their UID from plan to plan of a passage (by its name), so
 * that a newer calendar moves them. There is no METHOD: it is a calendar to take over, no message of a meeting.
 *
 * @throws when an alarm is not a whole number of minutes from 0 to 10 080
 */
export function planCalendar(plan: Plan, settings: CalendarSettings): string {
  const alarms = (settings.alarmsBeforeMin ?? ALARMS_BEFORE_MIN).map(alarmBefore);
  const stamp: CalendarStamp = {
    passageName: plan.passageName,
    stampEpochMs: settings.nowEpochMs,
    sequenceNumber: sequenceOf(plan),
  };
  const events = eventsOf(plan, settings.names, alarms);
  return contentText([
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Slatch//Slatch//EN',
    'CALSCALE:GREGORIAN',
    `NAME:${textValue(oneLine(plan.passageName))}`,
    ...[...events, ...goneEvents(plan.passageName, events, settings)].flatMap((event) => eventLines(event, stamp)),
    'END:VCALENDAR',
  ]);
}

const MOST_BEFORE_MIN = 7 * 24 * 60;

function alarmBefore(beforeMin: number): EventAlarm {
  if (!Number.isInteger(beforeMin) || beforeMin < 0 || beforeMin > MOST_BEFORE_MIN)
    throw new Error(`an alarm comes 0 to ${MOST_BEFORE_MIN} whole minutes before, not ${beforeMin}`);
  return { at: 'before-start', beforeMin };
}

const sequenceOf = ({ madeAtUtc }: Plan): number =>
  Math.min(MOST_SEQUENCE, Math.max(0, Math.floor((Date.parse(madeAtUtc) - SEQUENCE_FROM_EPOCH_MS) / MS_PER_MIN)));

const eventsOf = (plan: Plan, names: ExportNames, alarms: readonly EventAlarm[]): CalendarEvent[] => [
  planEvent(plan, names),
  ...workEvents(plan, names, alarms),
  ...sleepEvents(plan, names),
  ...waitEvents(plan, names),
  ...decisionEvents(plan, names, alarms),
  ...fallbackEvents(plan, names),
];

/** The plan itself; a calendar must hold an event (RFC 5545, 3.4) even where nothing can be planned. */
function planEvent(plan: Plan, names: ExportNames): CalendarEvent {
  const planned = plan.jobs.filter(({ status }) => status === 'planned' || status === 'conditional');
  const unplanned = plan.jobs.filter(({ status }) => status === 'unplanned');
  return {
    identity: { kind: 'plan', jobId: '', sessionNumber: 1 },
    summary: `${planTitle(plan)} made: ${planned.length} of ${planned.length + unplanned.length} jobs planned`,
    description: [
      `${plan.passageName}, ${onBothClocks(plan.madeAtUtc, names)}.`,
      `Forecast of ${plan.forecast.baseTimeUtc}, to ${plan.forecast.endUtc}.`,
      ...(unplanned.length === 0 ? [] : [`Not planned: ${unplanned.map(({ name }) => name).join('; ')}.`]),
      ...plan.cautions.map((caution) => `Caution: ${caution}`),
    ],
    startEpochMs: Date.parse(plan.madeAtUtc),
    endEpochMs: null,
    position: null,
    status: 'CONFIRMED',
    isBusy: false,
    alarms: [],
  };
}

/** What the plan before, of the same passage, had and this one has not, cancelled. */
function goneEvents(
  passageName: string,
  events: readonly CalendarEvent[],
  { before, names }: CalendarSettings,
): CalendarEvent[] {
  if (before === undefined || before.passageName !== passageName) return [];
  const uidOf = (identity: EventIdentity): string => eventUid(passageName, identity);
  const kept = new Set(events.map(({ identity }) => uidOf(identity)));
  return eventsOf(before, names, [])
    .filter(({ identity }) => !kept.has(uidOf(identity)))
    .map((event) => ({
      ...event,
      description: ['Not in the plan any more.'],
      status: 'CANCELLED',
      isBusy: false,
      alarms: [],
    }));
}
