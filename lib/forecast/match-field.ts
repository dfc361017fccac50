/** Tells what a GRIB field means to Slatch. */
import type { GribField, Level, Validity } from '../grib/index.ts';
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

/** Product templates 4.0, 4.1 (instant), 4.8 and 4.11 (interval); 4.103 has the same wave numbers for a band of periods. */
const PLAIN_TEMPLATES: ReadonlySet<number | null> = new Set([0, 1, 8, 11, null]);

/** The meaning of a field, or null when Slatch has no use for it (means and spreads of ensembles included). */
export function matchField(field: GribField): MatchedField | null {
  if (field.derived !== null || !PLAIN_TEMPLATES.has(field.productTemplate)) return null;
  for (const rowIndex of rowIndicesOf(parameterCode(field))) {
    const row = PARAMETER_ROWS[rowIndex];
    if (row === undefined || !belongs(row, field)) continue;
    const time = timeRead(row, field.validity);
    if (time === null) continue;
    return { field, row, rowIndex, memberId: memberIdOf(field), baseEpochMs: field.referenceEpochMs, ...time };
  }
  return null;
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
  (row.surfaces.length === 0 || row.surfaces.some((rule) => isOn(rule, field.level)));

const isOn = (rule: SurfaceRule, { first, second }: Level): boolean =>
  first !== null &&
  second === null &&
  first.typeCode === rule.typeCode &&
  (rule.valueM === null || Math.abs((first.value ?? 0) - rule.valueM) < 1e-6);

const STATISTICS: Readonly<Record<Reading, readonly string[]>> = {
  instant: [],
  rate: [],
  maximum: ['maximum', 'unspecified'],
  sum: ['accumulation', 'summation'],
  'mean-rate': ['average'],
};

/** The time a field holds for when read as the row says; null when the message says otherwise. */
function timeRead(row: ParameterRow, validity: Validity): Pick<MatchedField, 'startEpochMs' | 'endEpochMs'> | null {
  if (validity.kind === 'unknown') return null;
  if (validity.kind === 'instant') {
    const endEpochMs = validity.validEpochMs;
    if (row.impliedIntervalH !== null)
      return { startEpochMs: endEpochMs - row.impliedIntervalH * MS_PER_H, endEpochMs };
    return row.reading === 'instant' || row.reading === 'rate' ? { startEpochMs: endEpochMs, endEpochMs } : null;
  }
  const { startEpochMs, endEpochMs, statistic } = validity;
  // Some centres write an empty interval at step 0.
  const isUsable = endEpochMs > startEpochMs && STATISTICS[row.reading].includes(statistic);
  return isUsable ? { startEpochMs, endEpochMs } : null;
}

/** Code table 4.6: 2 and 3 are the two members of a pair of perturbations of opposite sign. */
const NEGATIVELY_PERTURBED = 2;

function memberIdOf({ ensemble }: GribField): string {
  if (ensemble === null || ensemble.kind === 'control') return CONTROL_ID;
  const number = String(ensemble.perturbationNumber).padStart(2, '0');
  return ensemble.typeCode === NEGATIVELY_PERTURBED ? `member-${number}-negative` : `member-${number}`;
}
