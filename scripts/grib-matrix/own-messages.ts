/** Messages this program writes itself: spatial differencing of order 1 and 2, which ecCodes 2.28 cannot write. */
import { scanGrib, writeGrib2Message } from '../../lib/grib/index.ts';
import type { MatrixMessage } from './compare-row.ts';
import { fieldValues, MISSING } from './field-values.ts';
import { WINDOW_COLUMNS, WINDOW_POINTS, WINDOW_ROWS } from './grid-windows.ts';

const COMPLEX_DIFFERENCED = 3;

/** Rough values are shorter in order 1, smooth ones in order 2; the digits kept set the widths. By order, in words. */
export function differencedMessages(): Map<string, MatrixMessage[]> {
  const groups = new Map<string, MatrixMessage[]>();
  for (const octets of messagesOfBothOrders()) {
    const name = scanGrib(octets, 'own').fields[0]?.packing.description ?? 'not read';
    const group = groups.get(name) ?? [];
    group.push({ octets, asked: { templateNumber: COMPLEX_DIFFERENCED } });
    groups.set(name, group);
  }
  return groups;
}

const messagesOfBothOrders = (): Uint8Array[] =>
  [0, 1, 2, 3, 4, 5].flatMap((digits) =>
    ([0, 64] as const).flatMap((scanningMode) =>
      [rough(digits, false), rough(digits, true), smooth()].map((values) => message(values, digits, scanningMode)),
    ),
  );

function rough(digits: number, isMasked: boolean): Float64Array {
  const spread = { least: -300, span: 600, patchCount: 1 };
  const seed = 900 + digits;
  const values = fieldValues({ pointCount: WINDOW_POINTS, ni: WINDOW_COLUMNS, isMasked, spread, seed });
  return values.map((value) => (value === MISSING ? Number.NaN : value));
}

const smooth = (): Float64Array => Float64Array.from({ length: WINDOW_POINTS }, (_, i) => 1000 * Math.sin(i / 90));

function message(values: Float64Array, decimalScaleFactor: number, scanningMode: 0 | 64): Uint8Array {
  return writeGrib2Message({
    parameter: { discipline: 0, category: 3, number: 1 },
    level: { first: { typeCode: 101, value: null }, second: null },
    referenceEpochMs: Date.UTC(2026, 0, 1),
    validity: { kind: 'instant', validEpochMs: Date.UTC(2026, 0, 1, 6) },
    grid: {
      ni: WINDOW_COLUMNS,
      nj: WINDOW_ROWS,
      first: { lat: scanningMode === 0 ? 20 : -20, lon: 170 },
      iIncrementDeg: 1,
      jIncrementDeg: 1,
      scanningMode,
    },
    values,
    decimalScaleFactor,
    packing: 'complex',
  });
}
