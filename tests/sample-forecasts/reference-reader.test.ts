/** The samples as ecCodes, the reader of the European Centre for Medium-Range Weather Forecasts, sees them. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CONTROL_FILE, MEMBERS_FILE } from '../../scripts/sample-forecasts/build-samples.ts';
import { CONTROL_FIELDS } from '../../scripts/sample-forecasts/sample-fields.ts';
import { gridPositions } from '../../lib/grib/index.ts';
import { wrap180Deg } from '../../lib/units/index.ts';
import { referenceTool } from '../reference-tools.ts';
import { codeOf, findField, openSample, sampleFolder, valuesOf, type Wanted } from './sample-file.ts';

const grib_copy = referenceTool('grib_copy');
const grib_get = referenceTool('grib_get');
const grib_get_data = referenceTool('grib_get_data');

const PATIENCE_MS = 120_000;
const linesOf = (program: string, options: readonly string[]): readonly string[] =>
  execFileSync(program, options, { encoding: 'utf8', maxBuffer: 1e9 })
    .split('\n')
    .filter((line) => line.trim() !== '');

describe.skipIf(grib_get === null).each([CONTROL_FILE, MEMBERS_FILE])('%s against ecCodes', (file) => {
  it(
    'every message: decodes to the same count, missing points, least and greatest value',
    { timeout: PATIENCE_MS },
    () => {
      const sample = openSample(file);
      const keys = 'discipline,parameterCategory,parameterNumber,perturbationNumber,numberOfMissing,min:d,max:d';
      const lines = linesOf(grib_get ?? '', ['-p', keys, '-F', '%.9g', join(sampleFolder, file)]);
      expect(lines).toHaveLength(sample.fields.length);
      for (const [i, field] of sample.fields.entries()) {
        const [discipline, category, number, member, missing, min, max] = (lines[i] ?? '').trim().split(/\s+/);
        expect(`${discipline}/${category}/${number}`).toBe(codeOf(field));
        expect(Number(member)).toBe(field.ensemble?.perturbationNumber);
        const values = valuesOf(sample, field);
        const present = values.filter((value) => !Number.isNaN(value));
        expect(values.length - present.length).toBe(Number(missing));
        // Printed with nine digits.
        expect(Math.abs(Math.min(...present) - Number(min))).toBeLessThanOrEqual(
          1e-8 * Math.max(1, Math.abs(Number(min))),
        );
        expect(Math.abs(Math.max(...present) - Number(max))).toBeLessThanOrEqual(
          1e-8 * Math.max(1, Math.abs(Number(max))),
        );
      }
    },
  );
});

describe.skipIf(grib_get === null)('names in ecCodes', () => {
  it('first complete step of the control: the WMO short names, steps and level', () => {
    const keys = 'shortName,typeOfLevel,stepRange,dataType,dataDate,dataTime';
    const lines = linesOf(grib_get ?? '', ['-p', keys, '-w', 'endStep=3', join(sampleFolder, CONTROL_FILE)]);
    expect(lines).toEqual([
      '10u heightAboveGround 3 cf 20260527 1200',
      '10v heightAboveGround 3 cf 20260527 1200',
      expect.stringMatching(/^\S*10fg\S* heightAboveGround 0-3 cf 20260527 1200$/),
      'swh surface 3 cf 20260527 1200',
      'pp1d surface 3 cf 20260527 1200',
      'mwd surface 3 cf 20260527 1200',
      'prmsl meanSea 3 cf 20260527 1200',
      'tp surface 0-3 cf 20260527 1200',
      '2t heightAboveGround 3 cf 20260527 1200',
      expect.stringMatching(/^\S+ surface 3 cf 20260527 1200$/),
      'vis surface 3 cf 20260527 1200',
    ]);
    expect(lines).toHaveLength(CONTROL_FIELDS.length);
  });
});

describe.skipIf(grib_get_data === null || grib_copy === null)('every grid point in ecCodes', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'slatch-samples-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const cases: readonly (readonly [file: string, wanted: Wanted])[] = [
    [CONTROL_FILE, { code: '0/2/2', leadH: 75 }],
    [CONTROL_FILE, { code: '0/2/22', leadH: 75 }],
    [CONTROL_FILE, { code: '10/0/3', leadH: 6 }],
    [CONTROL_FILE, { code: '10/0/14', leadH: 192 }],
    [CONTROL_FILE, { code: '0/3/1', leadH: 30 }],
    [MEMBERS_FILE, { code: '0/2/3', leadH: 78, member: 20 }],
    [MEMBERS_FILE, { code: '10/0/3', leadH: 120, member: 1 }],
  ];

  it.each(cases)('%s %j: same places, same values, same missing points', (file, wanted) => {
    const sample = openSample(file);
    const field = findField(sample, wanted);
    const one = join(folder, 'one.grib2');
    execFileSync(grib_copy ?? '', ['-w', `count=${field.messageNumber}`, join(sampleFolder, file), one]);
    const rows = linesOf(grib_get_data ?? '', ['-m', '9e99', '-F', '%.9g', one])
      .slice(1)
      .map((line) => line.trim().split(/\s+/).map(Number));
    if (field.grid.kind !== 'regular-latlon') throw new Error('a grid of another kind');
    const { lats, lons } = gridPositions(field.grid);
    const values = valuesOf(sample, field);
    expect(rows).toHaveLength(values.length);
    for (const [i, [lat = Number.NaN, lon = Number.NaN, value = Number.NaN]] of rows.entries()) {
      expect(Math.abs(lat - (lats[i] ?? Number.NaN))).toBeLessThan(1e-6);
      expect(Math.abs(wrap180Deg(lon - (lons[i] ?? Number.NaN)))).toBeLessThan(1e-6);
      const ours = values[i] ?? Number.NaN;
      expect(Number.isNaN(ours)).toBe(value === 9e99);
      const apart = Number.isNaN(ours) ? 0 : Math.abs(ours - value);
      expect(apart).toBeLessThanOrEqual(1e-8 * Math.max(1, Math.abs(value)));
    }
  });
});
