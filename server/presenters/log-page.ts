import { type LogRow, mergedSleeps, type NumberedEntry } from '../../lib/log/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../lib/time/index.ts';
import type { Clock } from './clock.ts';
import type { EntryPage } from './entry-page.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { type LogJobs, logJobs } from './log-jobs.ts';
import { type LogRowView, logRowViews } from './log-rows.ts';
import { planName } from './notices.ts';
import { shipTimesIn } from './ship-times.ts';
import type { FromLog, PlanStanding } from './plan-standing.ts';
import { durationText } from './time-texts.ts';
import { standingIn } from './units/plan-texts.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';

/** The log, the choice of a job to log, or a form. */
export type LogPages = LogPage | LogPicksPage | EntryPage;

export interface LogPage {
  readonly kind: 'log';
  readonly name: string;
  readonly clock: Clock;
  /** Hidden field of the forms: which passage. */
  readonly version: string;
  /** Hidden field of the buttons of jobs: pressed twice, they write once. */
  readonly formToken: string;
  readonly jobs: LogJobs;
  /** Sleep of the last 24 h; empty: the log holds none. */
  readonly slept: string;
  /** What the plan that is shown took from the log; null: there is none, or it knows no log. */
  readonly inPlan: LogInPlan | null;
  readonly rows: readonly LogRowView[];
  readonly entryCount: number;
  /** null: there are none. */
  readonly olderHref: string | null;
  readonly newerHref: string | null;
}

export interface LogInPlan extends FromLog {
  /** `plan 3 of Thu 08:12` */
  readonly planName: string;
}

/** Jobs to choose from, to log what became of one. */
export interface LogPicksPage {
  readonly kind: 'log-picks';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly formToken: string;
  readonly jobs: LogJobs;
}

export interface LogShown {
  readonly document: JobDocument;
  readonly entries: readonly (NumberedEntry & { readonly writtenAtEpochMs: number })[];
  readonly rows: readonly LogRow[];
  /** Of the clock, or where the passage holds it. */
  readonly nowEpochMs: number;
  readonly standing: PlanStanding;
  readonly formToken: string;
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
}

/** Entries on one page. */
const PAGE_COUNT = 60;

/** The log, from the `firstIndex`th newest entry on. */
export function logPage(shown: LogShown, firstIndex: number): LogPage {
  const { document, entries, rows, nowEpochMs, formToken, units = PLAIN_UNITS } = shown;
  const standing = standingIn(shown.standing, units);
  const { passage, number } = document;
  const views = logRowViews({
    rows,
    passage,
    passageNumber: number,
    units,
    writtenEpochMs: new Map(entries.map((entry) => [entry.number, entry.writtenAtEpochMs])),
  });
  return {
    ...headOf(shown),
    kind: 'log',
    formToken,
    jobs: logJobs(passage, entries, standing),
    slept: sleptText(entries, nowEpochMs),
    inPlan: inPlanOf(standing, { shipTimeOffsetMin: passage.settings.shipTimeOffsetMin, nearEpochMs: nowEpochMs }),
    rows: views.slice(firstIndex, firstIndex + PAGE_COUNT),
    entryCount: entries.length,
    olderHref: views.length > firstIndex + PAGE_COUNT ? `/log?from=${firstIndex + PAGE_COUNT}#entries` : null,
    newerHref: firstIndex > 0 ? `/log?from=${Math.max(0, firstIndex - PAGE_COUNT)}#entries` : null,
  };
}

function inPlanOf(standing: PlanStanding, clock: Parameters<typeof shipTimesIn>[1]): LogInPlan | null {
  if (standing.kind !== 'ready' || standing.view.fromLog === undefined) return null;
  const { fromLog } = standing.view;
  const byShip = (sentences: readonly string[]): readonly string[] =>
    sentences.map((sentence) => shipTimesIn(sentence, clock));
  return {
    ...fromLog,
    notes: byShip(fromLog.notes),
    pace: byShip(fromLog.pace),
    match: byShip(fromLog.match),
    planName: planName(standing),
  };
}

/** All jobs, to choose the one that something became of. */
export const logPicksPage = (shown: LogShown): LogPicksPage => ({
  ...headOf(shown),
  kind: 'log-picks',
  formToken: shown.formToken,
  jobs: logJobs(shown.document.passage, shown.entries, shown.standing),
});

const headOf = ({ document, nowEpochMs }: LogShown): Pick<LogPage, 'name' | 'clock' | 'version'> => ({
  name: document.passage.name,
  clock: documentClock(document.passage, nowEpochMs),
  version: `${document.number}.0`,
});

/** Time in the bunk within the last day. */
function sleptText(entries: readonly NumberedEntry[], nowEpochMs: number): string {
  const { sleeps } = mergedSleeps(entries);
  if (sleeps.length === 0) return '';
  const fromEpochMs = nowEpochMs - 24 * MS_PER_H;
  const sleptMin = sleeps.reduce(
    (sumMin, { startEpochMs, endEpochMs }) =>
      sumMin + Math.max(0, Math.min(endEpochMs, nowEpochMs) - Math.max(startEpochMs, fromEpochMs)) / MS_PER_MIN,
    0,
  );
  return `In the bunk in the last 24 h: ${durationText(sleptMin)}.`;
}
