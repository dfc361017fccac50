import { entryWords } from './entry-words.ts';
import type { LogEntryFile, NumberedEntry, ObservationFile } from './entry.ts';
import { instantOf, logRows, type LogRow } from './effective.ts';
import { csvText, withoutFormula } from '../csv/index.ts';
import { formatUtc, MS_PER_MIN } from '../time/index.ts';

interface Column {
  readonly name: string;
  write(row: LogRow): string;
}

const cell = (value: number | string | boolean | undefined): string => (value === undefined ? '' : String(value));

const seen = (name: string, of: (observation: ObservationFile) => number | string | boolean | undefined): Column => ({
  name,
  write: ({ entry }) => (entry.kind === 'observation' ? cell(of(entry)) : ''),
});

const wind = (name: string, of: (wind: NonNullable<ObservationFile['wind']>) => number | string | undefined): Column =>
  seen(name, (observation) => (observation.wind === undefined ? undefined : of(observation.wind)));

const job = (
  name: string,
  of: (event: Extract<LogEntryFile, { kind: 'job' }>) => number | string | undefined,
): Column => ({ name, write: ({ entry }) => (entry.kind === 'job' ? cell(of(entry)) : '') });

/** Columns of the table; units stand in the header. */
const COLUMNS: readonly Column[] = [
  { name: 'number', write: ({ number }) => String(number) },
  { name: 'kind', write: ({ entry }) => entry.kind },
  { name: 'at_utc', write: ({ atEpochMs }) => formatUtc(atEpochMs) },
  { name: 'corrects', write: ({ entry }) => (entry.kind === 'correction' ? String(entry.corrects) : '') },
  { name: 'corrected_by', write: ({ correctedBy }) => cell(correctedBy?.number) },
  { name: 'withdrawn', write: ({ isWithdrawn }) => (isWithdrawn ? 'yes' : '') },
  seen('lat_deg', ({ lat }) => lat),
  seen('lon_deg', ({ lon }) => lon),
  seen('sail_state', ({ sailState }) => (sailState === undefined ? undefined : withoutFormula(sailState))),
  wind('wind_kind', ({ kind }) => kind),
  wind('wind_kn', ({ speedKn }) => speedKn),
  wind('wind_from_deg_true', (of) => (of.kind === 'true' ? of.fromDegTrue : undefined)),
  wind('wind_angle_deg', (of) => (of.kind === 'apparent' ? of.angleDeg : undefined)),
  wind('heading_deg_true', (of) => (of.kind === 'apparent' ? of.headingDegTrue : undefined)),
  wind('boat_speed_kn', (of) => (of.kind === 'apparent' ? of.boatSpeedKn : undefined)),
  seen('gust_kn', ({ gustKn }) => gustKn),
  seen('pressure_hpa', ({ pressureHpa }) => pressureHpa),
  seen('sea_height_m', ({ seaHeightM }) => seaHeightM),
  seen('wave_period_s', ({ wavePeriodS }) => wavePeriodS),
  seen('sky', ({ sky }) => sky),
  seen('rain', ({ rain }) => (rain === undefined ? undefined : rain ? 'yes' : 'no')),
  seen('visibility_nm', ({ visibilityNm }) => visibilityNm),
  seen('air_c', ({ airC }) => airC),
  seen('sea_water_c', ({ seaWaterC }) => seaWaterC),
  { name: 'end_utc', write: ({ entry }) => (entry.kind === 'sleep' ? formatUtc(instantOf(entry.endUtc)) : '') },
  { name: 'slept_min', write: ({ entry }) => (entry.kind === 'sleep' ? String(sleptMin(entry)) : '') },
  job('job_id', ({ jobId }) => jobId),
  job('event', ({ event }) => event),
  job('step_id', ({ stepId }) => stepId),
  job('worked_min', ({ workedMin }) => workedMin),
  { name: 'note', write: ({ entry }) => withoutFormula(cell(entry.note)) },
  { name: 'words', write: ({ entry }) => withoutFormula(entryWords(entry)) },
];

const sleptMin = ({ atUtc, endUtc }: Extract<LogEntryFile, { kind: 'sleep' }>): number =>
  (instantOf(endUtc) - instantOf(atUtc)) / MS_PER_MIN;

/**
 * The log as a table (RFC 4180: commas, CRLF, quotes where needed), every entry in a row as it was written, corrections
 * among them; numbers with a decimal point, instants ISO 8601 UTC.
 *
 * A text that begins like a formula gets an apostrophe before it (CWE-1236), so that no spreadsheet runs it.
 */
export function logCsv(entries: readonly NumberedEntry[]): string {
  const rows = logRows(entries).map((row) => COLUMNS.map((column) => column.write(row)));
  return csvText([COLUMNS.map(({ name }) => name), ...rows]);
}
