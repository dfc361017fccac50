import { describe, expect, it } from 'vitest';
import { fieldValues, MISSING } from '../../scripts/grib-matrix/field-values.ts';
import { filterRules } from '../../scripts/grib-matrix/filter-rules.ts';
import { windowHeader, WINDOWS } from '../../scripts/grib-matrix/grid-windows.ts';
import type { MatrixCase } from '../../scripts/grib-matrix/matrix-case.ts';
import { matrixRows } from '../../scripts/grib-matrix/rows.ts';
import { formatReasons, formatRow } from '../../scripts/grib-matrix/table.ts';

const rows = matrixRows();
const cases = rows.flatMap((row) => row.cases);
const rowCases = (name: string): readonly MatrixCase[] => rows.find((row) => row.name === name)?.cases ?? [];
const distinct = (list: readonly unknown[]): number => new Set(list).size;

describe('matrixRows', () => {
  it('all rows together: more than 700 messages, half of them masked', () => {
    expect(cases.length).toBeGreaterThan(700);
    expect(cases.filter(({ isMasked }) => isMasked)).toHaveLength(cases.length / 2);
  });

  it.each([
    ['5.0 simple', 32],
    ['5.2 complex', 16],
    ['5.40 JPEG 2000', 25],
    ['5.41 PNG', 32],
    ['5.42 CCSDS', 32],
    ['edition 1 simple', 32],
  ])('%s: every width up to %d bits, without and with a mask', (name, widest) => {
    const choices = rowCases(name).map(({ bitsPerValue, isMasked }) => `${bitsPerValue} ${isMasked}`);
    const wanted = Array.from({ length: widest }, (_, i) => [`${i + 1} false`, `${i + 1} true`]).flat();
    expect(choices).toEqual(wanted);
  });

  it('packings by width: every window, scanning mode and product is met', () => {
    for (const name of ['5.0 simple', '5.40 JPEG 2000', '5.41 PNG', '5.42 CCSDS']) {
      const row = rowCases(name);
      expect(
        distinct(row.map(({ header }) => header.find((one) => one.startsWith('latitudeOfFirst')))),
      ).toBeGreaterThan(5);
      expect(distinct(row.map(({ asked }) => asked.scanningMode))).toBe(4);
      expect(distinct(row.map(({ asked }) => asked.productTemplate))).toBe(6);
    }
  });

  it('CCSDS options: 17 to 24 bits only with the flag for three octets, which ecCodes needs', () => {
    const threeOctets = rowCases('5.42 flags, block sizes, intervals').filter(
      ({ bitsPerValue }) => bitsPerValue !== null && bitsPerValue > 16 && bitsPerValue <= 24,
    );
    const flags = threeOctets.map(({ packing }) => Number(packing.options?.[0]?.split('=')[1]));
    expect(flags.length).toBeGreaterThan(10);
    expect(flags.filter((flag) => (flag & 2) === 0)).toEqual([]);
  });
});

describe('windowHeader', () => {
  const greenwich = WINDOWS.find(({ name }) => name === 'across Greenwich');

  it('across Greenwich: the last longitude is the smaller one', () => {
    const header = windowHeader(greenwich ?? { name: '', west: 0, north: 0, incrementDeg: 0 }, 0);
    expect(header).toContain('longitudeOfFirstGridPointInDegrees=340');
    expect(header).toContain('longitudeOfLastGridPointInDegrees=19');
    expect(header).toContain('latitudeOfFirstGridPointInDegrees=60');
  });

  it('mode 192: begins in the south-east', () => {
    const header = windowHeader(greenwich ?? { name: '', west: 0, north: 0, incrementDeg: 0 }, 192);
    expect(header).toContain('longitudeOfFirstGridPointInDegrees=19');
    expect(header).toContain('latitudeOfFirstGridPointInDegrees=31');
    expect(header).toContain('jScansPositively=1');
  });
});

describe('fieldValues', () => {
  const spread = { least: -20, span: 40, patchCount: 4 };
  const wanted = { pointCount: 1200, ni: 40, isMasked: true, spread, seed: 5 };

  it('masked: some points missing, the others inside the spread', () => {
    const values = fieldValues(wanted);
    const present = values.filter((value) => value !== MISSING);
    expect(present.length).toBeGreaterThan(700);
    expect(present.length).toBeLessThan(1100);
    for (const value of present) expect(Math.abs(value)).toBeLessThanOrEqual(20);
  });

  it('patches of four: equal inside, different beside', () => {
    const values = fieldValues({ ...wanted, isMasked: false });
    expect(values[3]).toBe(values[0]);
    expect(values[120]).toBe(values[0]);
    expect(values[4]).not.toBe(values[0]);
  });
});

describe('filterRules', () => {
  it('two cases: a rule for each message, packed simply before it is packed otherwise', () => {
    const [first, second] = rowCases('5.41 PNG');
    if (first === undefined || second === undefined) throw new Error('no cases');
    const rules = filterRules([first, second]);
    expect(rules.match(/if \(count == \d\)/g)).toEqual(['if (count == 1)', 'if (count == 2)']);
    expect(rules.indexOf('set values=')).toBeLessThan(rules.indexOf('set packingType="grid_png"'));
    expect(rules.match(/bitmapPresent=1/g)).toHaveLength(1);
    expect(rules).toContain('write "case-2.grib"');
  });
});

describe('table', () => {
  const none = { largestAbsolute: 0, largestRelative: 0, largestPositionDeg: 0 };

  it('a row: counts by outcome and the largest differences', () => {
    const row = formatRow('5.0 simple', [
      { ...none, kind: 'equal', reason: 'all' },
      { ...none, kind: 'differing', reason: 'values', largestRelative: 0.01 },
    ]);
    expect(row.trim().split(/\s{2,}/)).toEqual(['5.0 simple', '2', '1', '1', '0', '0', '0', '0', '1e-2', '0']);
  });

  it('reasons: each once, with how often it came', () => {
    const unsupported = { ...none, kind: 'unsupported' as const, reason: 'template 61' };
    expect(formatReasons([unsupported, unsupported, { ...none, kind: 'equal', reason: 'all' }])).toEqual([
      '    2 × unsupported: template 61',
    ]);
  });
});
