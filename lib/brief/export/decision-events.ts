/** Events of what is to be decided, and of what is left if not. */
import type { Plan, PlannedJob } from '../../planner/index.ts';
import { ofHundred } from '../../reasons/index.ts';
import type { CalendarEvent, EventAlarm } from './calendar-event.ts';
import type { ExportNames } from './export-names.ts';
import { chanceLines, handlingText, ifNotText, onBothClocks } from './job-words.ts';

const isOpen = ({ status }: PlannedJob): boolean => status !== 'done';

/** The instant by which each job must be begun or given up. */
export function decisionEvents(plan: Plan, names: ExportNames, alarms: readonly EventAlarm[]): CalendarEvent[] {
  return plan.jobs.filter(isOpen).flatMap((job) => (job.decideByUtc === null ? [] : [decision(job, job.decideByUtc)]));

  function decision(job: PlannedJob, decideByUtc: string): CalendarEvent {
    return {
      identity: { kind: 'decision', jobId: job.jobId, sessionNumber: 1 },
      summary: `Decide: ${job.name}`,
      description: [
        `Not begun by ${onBothClocks(decideByUtc, names)}, it waits for its next fair start.`,
        ...(job.startUtc === null ? [] : [`Planned: ${onBothClocks(job.startUtc, names)}.`]),
        ...chanceLines(job),
        ...job.goCheck.map((line) => `- ${line}`),
        ifNotText(job, names),
        'Caution: the skipper looks, and decides. In doubt, do not begin.',
      ],
      startEpochMs: Date.parse(decideByUtc),
      endEpochMs: null,
      // The plan does not say where the boat is then.
      position: null,
      status: 'CONFIRMED',
      isBusy: false,
      alarms,
    };
  }
}

/** The starts that are left for each job when its planned one is not taken. */
export function fallbackEvents(plan: Plan, names: ExportNames): CalendarEvent[] {
  return plan.jobs.filter(isOpen).flatMap((job): CalendarEvent[] => {
    if (job.fallback === null) return [];
    const { startUtc, lastStartUtc, handling, probability } = job.fallback;
    return [
      {
        identity: { kind: 'fallback', jobId: job.jobId, sessionNumber: 1 },
        summary: `If not as planned: ${job.name}`,
        description: [
          `Starts ${onBothClocks(startUtc, names)} to ${onBothClocks(lastStartUtc, names)}, ${handlingText(handling, names)}: stays inside limits in ${ofHundred(probability)}.`,
          'Only if it is not done as planned. Plan again before it.',
        ],
        startEpochMs: Date.parse(startUtc),
        endEpochMs: Date.parse(lastStartUtc),
        position: null,
        status: 'TENTATIVE',
        isBusy: false,
        alarms: [],
      },
    ];
  });
}
