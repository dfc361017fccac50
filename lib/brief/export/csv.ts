import { csvText, withoutFormula } from '../../csv/index.ts';
import type { Plan, PlanEntry } from '../../planner/index.ts';
import { formatAt, formatUtc, MS_PER_MIN } from '../../time/index.ts';
import type { ExportNames } from './export-names.ts';
import { handlingText, sailText, stepNames } from './job-words.ts';
import { oneLine } from './plain-text.ts';
import { byStart, type WorkSession, workSessions } from './work-sessions.ts';

/** A text, a number, or nothing; a number is written as it is. */
type Cell = string | number | null;

interface Row {
  readonly plan: Plan;
  readonly entry: PlanEntry;
  /** null: no work. */
  readonly session: WorkSession | null;
  readonly names: ExportNames;
}

/** Every column, in order: its head with the unit, and its cell. */
const COLUMNS: readonly (readonly [string, (row: Row) => Cell])[] = [
  ['start_utc', ({ entry }) => utc(entry.startUtc)],
  ['end_utc', ({ entry }) => utc(entry.endUtc)],
  ['start_ship_time', ({ entry, names }) => shipClock(entry.startUtc, names)],
  ['end_ship_time', ({ entry, names }) => shipClock(entry.endUtc, names)],
  ['length_min', ({ entry }) => (Date.parse(entry.endUtc) - Date.parse(entry.startUtc)) / MS_PER_MIN],
  ['kind', ({ entry }) => entry.kind],
  ['job', ({ entry }) => entry.jobId],
  ['job_name', (row) => jobOf(row)?.name ?? null],
  ['job_status', (row) => jobOf(row)?.status ?? null],
  ['session', ({ session }) => session?.sessionNumber ?? null],
  ['sessions', ({ session }) => session?.sessionCount ?? null],
  ['steps', ({ entry, names }) => stepNames(entry, names).join('; ')],
  ['handling', ({ entry, names }) => (entry.handling === null ? null : handlingText(entry.handling, names))],
  ['sail_state', ({ entry, names }) => sailText(entry.sailState, names)],
  ['place', ({ entry }) => entry.place],
  ['lat_deg', ({ entry }) => entry.lat],
  ['lon_deg', ({ entry }) => entry.lon],
  ['deck_wind_p10_kn', ({ entry }) => entry.deckWindKn?.p10 ?? null],
  ['deck_wind_p50_kn', ({ entry }) => entry.deckWindKn?.p50 ?? null],
  ['deck_wind_p90_kn', ({ entry }) => entry.deckWindKn?.p90 ?? null],
  ['light', ({ entry }) => entry.light],
  ['sleepiness_start_kss', ({ entry }) => entry.kssStart],
  ['sleepiness_end_kss', ({ entry }) => entry.kssEnd],
  ['settle_before_min', ({ entry }) => entry.settleMin],
  ['rest_after_min', ({ entry }) => entry.restAfterMin],
  ['work_time_factor_ratio', ({ entry }) => entry.factorsTogetherRatio],
  ['inside_limits_probability', (row) => jobOf(row)?.probability ?? null],
  ['first_fair_start_utc', (row) => utcOrNull(jobOf(row)?.startBetween?.firstUtc)],
  ['last_fair_start_utc', (row) => utcOrNull(jobOf(row)?.startBetween?.lastUtc)],
  ['decide_by_utc', (row) => utcOrNull(jobOf(row)?.decideByUtc)],
];

/**
 * A plan as CSV (RFC 4180, text/csv; header=present, UTF-8): one row for each entry in order of time, units in the header.
 *
 * A text that a spreadsheet would take for a formula (it begins with `=`, `+`, `-` or `@`) gets an apostrophe before it;
 * numbers stay numbers.
 */
export function planCsv(plan: Plan, names: ExportNames): string {
  const sessions = new Map(workSessions(plan).map((session) => [session.entry, session]));
  const rows = plan.entries.toSorted(byStart).map((entry): Row => {
    return { plan, entry, session: sessions.get(entry) ?? null, names };
  });
  const records = [COLUMNS.map(([head]) => head), ...rows.map((row) => COLUMNS.map(([, cellOf]) => cellOf(row)))];
  return csvText(records.map((record) => record.map(cellText)));
}

const jobOf = ({ plan, entry }: Row): Plan['jobs'][number] | undefined =>
  plan.jobs.find(({ jobId }) => jobId === entry.jobId);

const utc = (text: string): string => formatUtc(Date.parse(text));
const utcOrNull = (text: string | null | undefined): string | null =>
  text === null || text === undefined ? null : utc(text);

const shipClock = (text: string, { shipTimeOffsetMin }: ExportNames): string =>
  formatAt(Date.parse(text), shipTimeOffsetMin, 'yyyy-MM-dd HH:mm');

function cellText(cell: Cell): string {
  if (cell === null) return '';
  return typeof cell === 'number' ? String(cell) : withoutFormula(oneLine(cell));
}
