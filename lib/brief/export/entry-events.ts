/** Events of what the sailor does, and of what is done without. */
import type { Plan, PlanEntry } from '../../planner/index.ts';
import type { CalendarEvent, EventAlarm } from './calendar-event.ts';
import type { ExportNames } from './export-names.ts';
import { cautionLines, chanceLines, howSentence, ifNotText, onBothClocks, startsText, stepNames } from './job-words.ts';
import { byStart, jobNameOf, sessionText, type WorkSession, workSessions } from './work-sessions.ts';

/** Work, each session by itself. */
export function workEvents(plan: Plan, names: ExportNames, alarms: readonly EventAlarm[]): CalendarEvent[] {
  return workSessions(plan).map((session) => ({
    identity: { kind: 'work', jobId: session.jobId, sessionNumber: session.sessionNumber },
    summary: `${session.name}${sessionText(session)}${session.job?.status === 'conditional' ? ' (conditional)' : ''}`,
    description: workLines(session, names),
    ...spanOf(session.entry),
    position: placeOf(session.entry),
    status: session.job?.status === 'conditional' ? 'TENTATIVE' : 'CONFIRMED',
    isBusy: true,
    alarms,
  }));
}

function workLines(session: WorkSession, names: ExportNames): string[] {
  const { entry, job, jobId, sessionNumber } = session;
  const steps = stepNames(entry, names);
  return [
    `Begins ${onBothClocks(entry.startUtc, names)}.`,
    howSentence(entry, names),
    ...(steps.length === 0 ? [] : [`Steps: ${steps.join('; ')}.`]),
    ...(entry.settleMin === 0 ? [] : [`Settle the boat under it ${entry.settleMin} min before.`]),
    ...(entry.restAfterMin === 0 ? [] : [`Then ${entry.restAfterMin} min of rest before more heavy work.`]),
    ...(job === null ? [] : chanceLines(job)),
    ...(job === null || sessionNumber > 1 ? [] : firstSessionLines(job, names)),
    ...cautionLines(jobId, entry, names).map((caution) => `Caution: ${caution}`),
  ];
}

const firstSessionLines = (job: NonNullable<WorkSession['job']>, names: ExportNames): string[] => [
  ...[startsText(job, names)].filter((text) => text !== null),
  ...(job.goCheck.length === 0 ? [] : ['Look before you start:', ...job.goCheck.map((line) => `- ${line}`)]),
  ifNotText(job, names),
];

/** Sleep; the alarm sounds at its end. */
export function sleepEvents(plan: Plan, names: ExportNames): CalendarEvent[] {
  const sleeps = plan.entries.filter(({ kind }) => kind === 'sleep').toSorted(byStart);
  return sleeps.map((entry, k) => ({
    identity: { kind: 'sleep', jobId: '', sessionNumber: k + 1 },
    summary: 'Sleep',
    description: [
      `Alarm ${onBothClocks(entry.endUtc, names)}; on waking look round first.`,
      ...plan.watch.sleeps.filter(({ startUtc }) => startUtc === entry.startUtc).map(({ buys }) => buys),
      'Caution: a calendar may stay silent. Set a loud clock, and the radar and AIS alarms.',
      ...plan.watch.notes.slice(0, 1).map((note) => `Caution: ${note}`),
    ],
    ...spanOf(entry),
    position: placeOf(entry),
    status: 'CONFIRMED',
    isBusy: true,
    alarms: [{ at: 'end' }],
  }));
}

/** The end of each soak, cure or drying: an instant. */
export function waitEvents(plan: Plan, names: ExportNames): CalendarEvent[] {
  const waits = plan.entries.filter(({ kind }) => kind === 'wait').toSorted(byStart);
  return waits.map((entry, k) => ({
    identity: {
      kind: 'wait',
      jobId: entry.jobId ?? '',
      sessionNumber: waits.slice(0, k + 1).filter(({ jobId }) => jobId === entry.jobId).length,
    },
    summary: `Wait is over: ${jobNameOf(plan, entry)}`,
    description: [
      `It has run by itself since ${onBothClocks(entry.startUtc, names)}.`,
      'Look whether it is done before going on.',
    ],
    startEpochMs: Date.parse(entry.endUtc),
    endEpochMs: null,
    // Where the boat is when it ends the plan does not say.
    position: null,
    status: 'CONFIRMED',
    isBusy: false,
    alarms: [{ at: 'start' }],
  }));
}

const spanOf = ({ startUtc, endUtc }: PlanEntry): Pick<CalendarEvent, 'startEpochMs' | 'endEpochMs'> => ({
  startEpochMs: Date.parse(startUtc),
  endEpochMs: Date.parse(endUtc),
});

const placeOf = ({ lat, lon }: PlanEntry): CalendarEvent['position'] => ({ lat, lon });
