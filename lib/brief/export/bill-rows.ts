/** Rows of the watch bill, in order of time. */
import type { Plan, PlanEntry } from '../../planner/index.ts';
import { formatAt } from '../../time/index.ts';
import type { ExportNames } from './export-names.ts';
import { howSentence, ifNotText, shipTime, stepNames } from './job-words.ts';
import { byStart, jobNameOf, sessionText, type WorkSession, workSessions } from './work-sessions.ts';

export interface BillRow {
  readonly fromEpochMs: number;
  /** null: an instant. */
  readonly toEpochMs: number | null;
  /** Something to be done, with a box for the tick. */
  readonly isToTick: boolean;
  readonly what: string;
  readonly details: readonly string[];
}

export function billRows(plan: Plan, names: ExportNames): BillRow[] {
  return [
    ...workSessions(plan).map((session) => workRow(session, names)),
    ...plan.entries.flatMap((entry) => restRow(plan, entry, names)),
    ...watchRows(plan),
    ...decisionRows(plan, names),
  ].toSorted((a, b) => a.fromEpochMs - b.fromEpochMs || Number(b.toEpochMs === null) - Number(a.toEpochMs === null));
}

function workRow(session: WorkSession, names: ExportNames): BillRow {
  const { entry, job } = session;
  const steps = stepNames(entry, names);
  const conditional = job?.status === 'conditional' ? ' (conditional)' : '';
  return {
    ...spanOf(entry),
    isToTick: true,
    what: `${session.name}${sessionText(session)}${conditional}`,
    details: [
      howSentence(entry, names),
      steps.length === 0 ? '' : `${steps.join('; ')}.`,
      entry.light === 'day' ? '' : `Light: ${entry.light === 'night' ? 'night' : `${entry.light} twilight`}.`,
      entry.settleMin === 0 ? '' : `Settle the boat ${entry.settleMin} min before.`,
      entry.restAfterMin === 0 ? '' : `Then ${entry.restAfterMin} min of rest before more heavy work.`,
    ].filter((text) => text !== ''),
  };
}

/** Sleep, looks round, and the ends of waits. */
function restRow(plan: Plan, entry: PlanEntry, names: ExportNames): BillRow[] {
  if (entry.kind === 'work') return [];
  if (entry.kind === 'wait') {
    const what = `Wait is over: ${jobNameOf(plan, entry)}`;
    return [{ fromEpochMs: Date.parse(entry.endUtc), toEpochMs: null, isToTick: false, what, details: [] }];
  }
  const alarm = formatAt(Date.parse(entry.endUtc), names.shipTimeOffsetMin, 'HH:mm');
  const what = entry.kind === 'sleep' ? `Sleep, alarm ${alarm}` : 'Look round';
  return [{ ...spanOf(entry), isToTick: false, what, details: [] }];
}

/** Hours in which nothing is planned: the sailor is on watch. Waits need nobody and fill no gap. */
function watchRows(plan: Plan): BillRow[] {
  const rows: BillRow[] = [];
  let freeEpochMs = Date.parse(plan.madeAtUtc);
  for (const entry of plan.entries.filter(({ kind }) => kind !== 'wait').toSorted(byStart)) {
    const { fromEpochMs, toEpochMs } = spanOf(entry);
    if (fromEpochMs > freeEpochMs)
      rows.push({ fromEpochMs: freeEpochMs, toEpochMs: fromEpochMs, isToTick: false, what: 'On watch', details: [] });
    freeEpochMs = Math.max(freeEpochMs, toEpochMs);
  }
  return rows;
}

const decisionRows = (plan: Plan, names: ExportNames): BillRow[] =>
  plan.jobs.flatMap((job) =>
    job.decideByUtc === null || job.status === 'done'
      ? []
      : [
          {
            fromEpochMs: Date.parse(job.decideByUtc),
            toEpochMs: null,
            isToTick: false,
            what: `DECIDE: ${job.name}`,
            details: [
              ...(job.startUtc === null ? [] : [`Last fair start; planned ${shipTime(job.startUtc, names)}.`]),
              ifNotText(job, names),
            ],
          },
        ],
  );

const spanOf = ({ startUtc, endUtc }: PlanEntry): { fromEpochMs: number; toEpochMs: number } => ({
  fromEpochMs: Date.parse(startUtc),
  toEpochMs: Date.parse(endUtc),
});
