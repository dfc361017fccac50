/** Tells what a GRIB field means to Slatch. */
import type { GribField, Validity } from '../grib/index.ts';
import { MS_PER_H } from '../time/index.ts';
import { PARAMETER_ROWS, type ParameterRow, type Reading, type SurfaceRule } from './quantities.table.ts';

/** Id of the control run, or of a forecast that is no ensemble. */
export const CONTROL_ID = 'control';

/** A field that Slatch uses, before its values are decoded. */
export interface MatchedField {
  readonly field: GribField;
  readonly row: ParameterRow;
  /** Place of the row in the table: lower is preferred. */
  readonly rowIndex: number;
  readonly memberId: string;
  readonly baseEpochMs: number;
  /** Instants: both the same. */
  readonly startEpochMs: number;
  readonly endEpochMs: number;
}

/**
 * Product templates 4.0, 4.1, 4.117 (instant), 4.8, 4.11 and 4.118 (interval). Others use the same parameter numbers for
 * less than the quantity: 4.103 the height of waves of a band of periods, 4.5 a chance, 4.60 a forecast of years ago.
 */
const PLAIN_TEMPLATES: ReadonlySet<number | null> = new Set([0, 1, 8, 11, 117, 118, null]);

/** Code table 4.3: errors of forecast and analysis, climatology, differences and increments. */
const OTHER_PROCESSES: ReadonlySet<number | null> = new Set([6, 7, 9, 18, 20, 21]);

/** The meaning of a field, or null when Slatch has no use for it (means and spreads of ensembles included). */
export function matchField(field: GribField): MatchedField | null {
  if (!isPlain(field)) return null;
  for (const rowIndex of rowIndicesOf(parameterCode(field))) {
    const row = PARAMETER_ROWS[rowIndex];
    if (row === undefined || !belongs(row, field)) continue;
    const time = timeRead(row, field);
    if (time === null) continue;
    return { field, row, rowIndex, memberId: memberIdOf(field), baseEpochMs: field.referenceEpochMs, ...time };
  }
  return null;
}

function isPlain({ edition, derived, aspect, productTemplate, typeOfProcess }: GribField): boolean {
  const isProcessPlain = edition === 1 || !OTHER_PROCESSES.has(typeOfProcess);
  return derived === null && aspect === null && PLAIN_TEMPLATES.has(productTemplate) && isProcessPlain;
}

function parameterCode({ parameter }: GribField): string {
  if (parameter.edition === 2) return `2: ${parameter.discipline}/${parameter.category}/${parameter.number}`;
  // Tables 1 to 3 are the successive international ones.
  const table = parameter.tableVersion <= 3 ? 'wmo' : parameter.tableVersion;
  return `1: ${table}/${parameter.number}`;
}

const rowsByCode: ReadonlyMap<string, readonly number[]> = (() => {
  const byCode = new Map<string, number[]>();
  for (const [rowIndex, row] of PARAMETER_ROWS.entries()) {
    for (const code of row.codes) byCode.set(code, [...(byCode.get(code) ?? []), rowIndex]);
  }
  return byCode;
})();

const rowIndicesOf = (code: string): readonly number[] => rowsByCode.get(code) ?? [];

const belongs = (row: ParameterRow, field: GribField): boolean =>
  (row.centreCode === null || row.centreCode === field.centre) &&
  (row.surfaces.length === 0 || row.surfaces.some((rule) => isOn(rule, field)));

const isOn = (rule: SurfaceRule, { edition, level: { first, second } }: GribField): boolean =>
  rule.edition === edition &&
  first !== null &&
  first.typeCode === rule.typeCode &&
  (second?.typeCode ?? null) === rule.secondTypeCode &&
  (rule.value === null || Math.abs((first.value ?? 0) - rule.value) < 1e-6);

/** `unspecified`: a range of edition 1, which leaves the statistic to the parameter. */
const STATISTICS: Readonly<Record<Reading, readonly string[]>> = {
  instant: [],
  rate: [],
  maximum: ['maximum', 'unspecified'],
  sum: ['accumulation', 'summation', 'unspecified'],
  'mean-rate': ['average'],
};

type ReadTime = Pick<MatchedField, 'startEpochMs' | 'endEpochMs'>;

/** The time a field holds for when read as the row says; null when the message says otherwise. */
function timeRead(row: ParameterRow, { validity, referenceEpochMs }: GribField): ReadTime | null {
  if (validity.kind === 'unknown') return null;
  if (validity.kind === 'instant') return instantRead(row, validity.validEpochMs, referenceEpochMs);
  const { startEpochMs, endEpochMs, statistic } = validity;
  // Some centres write an empty interval at step 0.
  const isUsable = endEpochMs > startEpochMs && STATISTICS[row.reading].includes(statistic) && isOneForecast(validity);
  return isUsable ? { startEpochMs, endEpochMs } : null;
}

function instantRead(row: ParameterRow, endEpochMs: number, referenceEpochMs: number): ReadTime | null {
  const { impliedIntervalH, reading } = row;
  if (impliedIntervalH === null)
    return reading === 'instant' || reading === 'rate' ? { startEpochMs: endEpochMs, endEpochMs } : null;
  const startEpochMs = impliedIntervalH === 'run' ? referenceEpochMs : endEpochMs - impliedIntervalH * MS_PER_H;
  return endEpochMs > startEpochMs ? { startEpochMs, endEpochMs } : null;
}

/** Code table 4.11: one forecast is stepped through; 255 is missing. */
const STEPS_OF_ONE_FORECAST: ReadonlySet<number> = new Set([2, 255]);

/** Several time ranges are one when all do the same: the highest of highest values, the sum of sums. */
const isOneForecast = ({ statistic, ranges = [] }: Extract<Validity, { kind: 'interval' }>): boolean =>
  ranges.every((range) => range.statistic === statistic && STEPS_OF_ONE_FORECAST.has(range.incrementCode));

const ECMWF = 98;
/** Code table 4.6: 2 and 3 are the two members of a pair of perturbations of opposite sign. */
const NEGATIVELY_PERTURBED = 2;

function memberIdOf({ ensemble, edition, centre }: GribField): string {
  if (ensemble === null || ensemble.kind === 'control') return CONTROL_ID;
  const number = String(ensemble.perturbationNumber).padStart(2, '0');
  // In edition 1 centre 98 has types of its own.
  const isPairOfTable = edition === 2 || centre !== ECMWF;
  return isPairOfTable && ensemble.typeCode === NEGATIVELY_PERTURBED ? `member-${number}-negative` : `member-${number}`;
}
