/** A part of a field is the same as that part of the whole field, for every packing and grid of the samples. */
import { describe, expect, it } from 'vitest';
import {
  decodeField,
  decodePart,
  type GribField,
  type NorthUpGrid,
  scanGrib,
  toNorthUpGrid,
} from '../../lib/grib/index.ts';
import { goldenFiles, readGoldenBytes } from './golden-files.ts';
import { smallMessage } from './sample-message.ts';

const MOST_POINTS = 60_000;
const samples = goldenFiles.flatMap(({ file }) => {
  const bytes = readGoldenBytes(file);
  const fields = scanGrib(bytes, file).fields.filter(
    ({ support, pointCount }) => support === null && pointCount <= MOST_POINTS,
  );
  const [field] = fields;
  return field === undefined ? [] : [{ file, bytes, field }];
});

function northUp(bytes: Uint8Array, field: GribField): NorthUpGrid {
  const decoded = decodeField(bytes, field);
  if (!decoded.ok || field.grid.kind === 'unsupported') throw new Error(`${field.fileName} was decoded before`);
  return toNorthUpGrid(field.grid, decoded.value);
}

/** Parts of a grid: a corner, an inner rectangle, one that passes the last column where columns go round. */
function partsOf({ columnCount, rowCount, wrapsInLon }: NorthUpGrid) {
  const half = { columnCount: Math.ceil(columnCount / 2), rowCount: Math.ceil(rowCount / 2) };
  const inner = { columnIndex: columnCount - half.columnCount, rowIndex: rowCount - half.rowCount };
  return [
    { columnIndex: 0, rowIndex: 0, columnCount: 1, rowCount: 1 },
    { ...inner, ...half },
    ...(wrapsInLon ? [{ columnIndex: columnCount - 1, rowIndex: 0, columnCount: half.columnCount, rowCount }] : []),
  ];
}

describe.each(samples)('decodePart of $file', ({ bytes, field }) => {
  const whole = northUp(bytes, field);

  it('without a part: the whole grid', () => {
    const decoded = decodePart(bytes, field);
    expect(decoded.ok && decoded.value).toEqual(whole.values);
  });

  it('any part: the same values as in the whole grid', () => {
    for (const part of partsOf(whole)) {
      const decoded = decodePart(bytes, field, { part, scratch: new Float64Array(field.pointCount + 7) });
      const expected = Float32Array.from({ length: part.columnCount * part.rowCount }, (_, i) => {
        const column = (part.columnIndex + (i % part.columnCount)) % whole.columnCount;
        return whole.values[(part.rowIndex + Math.floor(i / part.columnCount)) * whole.columnCount + column] ?? NaN;
      });
      expect(decoded.ok && decoded.value).toEqual(expected);
    }
  });
});

describe('decodePart', () => {
  it('data that are too short: refused, although the part lies in what is there', () => {
    const spec = { values: Array.from({ length: 12 }, (_, i) => i * 40) };
    const bytes = smallMessage(spec);
    const [field] = scanGrib(bytes, 'small').fields;
    if (field === undefined) throw new Error('one field was written');
    const lengthOctets = field.location.data.lengthOctets - 2;
    const short = { ...field, location: { ...field.location, data: { ...field.location.data, lengthOctets } } };
    const part = { columnIndex: 0, rowIndex: 0, columnCount: 1, rowCount: 1 };
    const decoded = decodePart(bytes, short, { part });
    expect(decoded.ok ? [] : decoded.problems.map(({ code }) => code)).toEqual(['grib.data-too-short']);
  });
});
