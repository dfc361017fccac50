/** Rules for ecCodes' `grib_filter`: one message of the input becomes one file of the output. */
import { fieldValues, MISSING } from './field-values.ts';
import type { MatrixCase } from './matrix-case.ts';

/** Name of the file a case is written to; `count` numbers the messages of one run from 1. */
export const caseFile = (messageNumber: number): string => `case-${messageNumber}.grib`;

/** Rules for a run over as many samples as there are cases, in their order. */
export function filterRules(cases: readonly MatrixCase[]): string {
  return cases.map((one, i) => `if (count == ${i + 1}) {\n${caseRules(one)}write "${caseFile(i + 1)}";\n}\n`).join('');
}

/**
 * The values are packed simply first: ecCodes packs a constant sample wrongly into most other packings. Without a decimal
 * scale factor of its own it ignores the number of bits.
 */
function caseRules(one: MatrixCase): string {
  const values = `values={${Array.from(fieldValues(one), (value) => String(Number(value.toPrecision(12)))).join(',')}}`;
  const { packingType, options = [] } = one.packing;
  const isSimple = packingType === 'grid_simple';
  const assignments = [
    ...one.header,
    ...(one.isMasked ? ['bitmapPresent=1', `missingValue=${MISSING}`] : []),
    `bitsPerValue=${one.bitsPerValue ?? 0}`,
    `decimalScaleFactor=${one.decimalScaleFactor}`,
    values,
    ...(isSimple ? [] : [`packingType="${packingType}"`]),
    ...options,
    ...(options.length > 0 ? [values] : []),
  ];
  return assignments.map((assignment) => `set ${assignment};\n`).join('');
}
