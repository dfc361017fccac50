/**
 * grib2-simple 1.1.1 as a second reader, on the one kind of message that it reads rightly: 16 bit simple packing with a
 * bitmap and a Section 2, rows from the south. The samples come with the package (Source: Deutscher Wetterdienst).
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { decodeField, type GribField, gridPositions, scanGrib } from '../../lib/grib/index.ts';

const require = createRequire(import.meta.url);
const samples = join(dirname(require.resolve('grib2-simple')), 'sample_data');

/** The package has no types; these are the parts used here. */
interface SecondReading {
  readonly referenceTimestamp: number;
  readonly forecastTimestamp: number;
  /** null where the bitmap masks the point. */
  readonly getValue: (lon: number, lat: number) => number | null;
}
const parseWithSecondReader = require('grib2-simple') as (bytes: Buffer) => SecondReading[];

interface BothReaders {
  readonly field: GribField;
  readonly reference: SecondReading;
  /** Every 211th point: ours and theirs. */
  readonly points: readonly { readonly ours: number | null; readonly theirs: number | null }[];
}

function readBoth(file: string): BothReaders {
  const bytes = readFileSync(join(samples, file));
  const [field] = scanGrib(new Uint8Array(bytes), file).fields;
  const [reference] = parseWithSecondReader(bytes);
  const values = field === undefined ? null : decodeField(new Uint8Array(bytes), field);
  if (field?.grid.kind !== 'regular-latlon' || reference === undefined || !values?.ok)
    throw new Error('sample not read');
  const { lats, lons } = gridPositions(field.grid);
  const points = Array.from({ length: Math.floor(field.pointCount / 211) }, (_, k) => {
    const index = k * 211;
    const ours = values.value[index] ?? NaN;
    return {
      ours: Number.isNaN(ours) ? null : ours,
      theirs: reference.getValue(lons[index] ?? NaN, lats[index] ?? NaN),
    };
  });
  return { field, reference, points };
}

describe('second reader', () => {
  it('16 bit with bitmap and Section 2: the same values and the same missing points', () => {
    const { points } = readBoth('cosmo-d2_germany_regular-lat-lon_single-level_2018060509_000_ALB_RAD.grib2');
    expect(points.filter(({ theirs }) => theirs === null).length).toBeGreaterThan(100);
    expect(new Set(points.map(({ theirs }) => theirs)).size).toBeGreaterThan(1000);
    expect(points.filter(({ ours, theirs }) => ours !== theirs)).toEqual([]);
  });

  it('times: the same', () => {
    const { field, reference } = readBoth('COSMODE_single_level_elements_T_2M_2018011803_002.grib2');
    expect(field.referenceEpochMs).toBe(reference.referenceTimestamp);
    expect(field.validity).toEqual({ kind: 'instant', validEpochMs: reference.forecastTimestamp });
  });

  it('without a bitmap it answers the first point everywhere: why it is no source of values here', () => {
    const { points } = readBoth('COSMODE_single_level_elements_T_2M_2018011803_002.grib2');
    expect(new Set(points.map(({ theirs }) => theirs))).toEqual(new Set([points[0]?.ours]));
    expect(new Set(points.map(({ ours }) => ours)).size).toBeGreaterThan(1000);
  });
});
