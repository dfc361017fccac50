/** Every committed sample against ecCodes, another reader of the same standard. */
import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodePacked, scanGrib } from '../../lib/grib/index.ts';
import { cornerDifferences, headerOf, meaningOf, positionDifferences, valueDifferences } from './golden-differences.ts';
import { goldenFiles, readGoldenBytes } from './golden-files.ts';

/**
 * Where the reference is wrong. Values: an empty Section 7 (its own test below). Positions: alternating rows are
 * ignored; a stored increment is believed where it contradicts the corners or is rounded (scripts/compare-grib/known-defects.ts).
 */
const WRONG_VALUES: Readonly<Record<string, readonly number[]>> = { 'gfs_2p5_cut.grib2': [4] };
const WRONG_POSITIONS = [
  'alternate_scanning.grib2',
  'wrong_increment.grib2',
  'gdaswave_cut.grib1',
  'gdaswave_jpeg_cut.grib2',
  'gw_nobm_simple.grib1',
  'eq_bm_simple.grib1',
  'soil_8vars.grib1',
];

describe.each(goldenFiles)('$file ($feature)', ({ file, octets, sha256, fields: golden }) => {
  const bytes = readGoldenBytes(file);
  const { fields } = scanGrib(bytes, file);
  const pairs = fields.flatMap((ours, i) => {
    const theirs = golden[i];
    return theirs?.values ? [{ ours, header: theirs.header, values: theirs.values, fieldNumber: i + 1 }] : [];
  });
  const known = pairs.filter(({ ours }) => ours.validity.kind !== 'unknown');
  const unpacked = pairs.filter(({ ours }) => ours.obstacles.packing === null);

  it('is the file that the reference read', () => {
    expect(bytes.length).toBe(octets);
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(sha256);
  });

  it('holds as many fields as the reference finds, with the same headers', () => {
    expect(pairs.length).toBe(golden.length);
    const headers = pairs.map(({ ours, header }) => headerOf(ours, header));
    expect(headers.map(({ ours }) => ours)).toEqual(headers.map(({ theirs }) => theirs));
  });

  it('is valid when the reference says so', () => {
    const meanings = known.map(({ ours, header }) => meaningOf(ours, header));
    expect(meanings.map(({ ours }) => ours)).toEqual(meanings.map(({ theirs }) => theirs));
  });

  it('has the values of the reference', () => {
    const compared = unpacked.filter(({ fieldNumber }) => !WRONG_VALUES[file]?.includes(fieldNumber));
    const differences = compared.flatMap(({ ours, values }) => {
      const decoded = decodePacked(bytes, ours);
      return decoded.ok ? valueDifferences(decoded.value, values) : decoded.problems.map(({ what }) => what);
    });
    expect(differences).toEqual([]);
  });

  it('begins and ends on the coded corners', () => {
    expect(pairs.flatMap(({ ours, header }) => cornerDifferences(ours, header))).toEqual([]);
  });

  it.skipIf(WRONG_POSITIONS.includes(file))('has its points where the reference has them', () => {
    expect(unpacked.flatMap(({ ours, values }) => positionDifferences(ours, values.samples))).toEqual([]);
  });
});

describe('golden files', () => {
  it('all stand in the manifest', () => {
    const files = readdirSync('tests/golden/grib/files').toSorted();
    expect(files).toEqual(goldenFiles.map(({ file }) => file).toSorted());
  });

  it('hold 246 fields, of which the seven in run length are packed in a way not read', () => {
    const fields = goldenFiles.flatMap(({ file }) => scanGrib(readGoldenBytes(file), file).fields);
    expect(fields.length).toBe(246);
    const refused = fields.filter(({ obstacles }) => obstacles.packing !== null);
    expect(refused.map(({ packing }) => packing.templateNumber)).toEqual(Array.from({ length: 7 }, () => 200));
  });

  it('use every packing that is read', () => {
    const fields = goldenFiles.flatMap(({ file }) => scanGrib(readGoldenBytes(file), file).fields);
    const methods = new Set(fields.map(({ edition, packing }) => `edition ${edition} ${packing.method}`));
    const edition2 = ['simple', 'complex', 'ieee', 'jpeg-2000', 'png', 'ccsds', 'other'];
    const expected = [...edition2.map((method) => `edition 2 ${method}`), 'edition 1 simple', 'edition 1 second-order'];
    expect(methods).toEqual(new Set(expected));
  });
});

describe('constant field with an empty Section 7', () => {
  it('is the reference value, not the octets after the section', () => {
    // The reference unpacks "7777" here and reports values to 578 160; the true field is the constant R of Section 5.
    const bytes = readGoldenBytes('gfs_2p5_cut.grib2');
    const field = scanGrib(bytes, 'gfs').fields[3];
    if (field === undefined) throw new Error('the sample has lost a field');
    expect(field.location.data.lengthOctets).toBe(5);
    const values = decodePacked(bytes, field);
    expect(values.ok && new Set(values.value)).toEqual(new Set([field.packing.referenceValue]));
  });
});
