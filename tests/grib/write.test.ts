/** Messages we write, read back by us and, where it is installed, by ecCodes. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeField, type GribMessageSpec, scanGrib, writeGrib2Message } from '../../lib/grib/index.ts';
import { referenceTool } from '../reference-tools.ts';
import { MS_PER_H, REFERENCE_EPOCH_MS, sectionStart, smallMessage, smallSpec } from './sample-message.ts';

const hoursOn = (hours: number): number => REFERENCE_EPOCH_MS + hours * MS_PER_H;

function valuesOf(message: Uint8Array): number[] {
  const [field] = scanGrib(message, 'written').fields;
  const values = field === undefined ? null : decodeField(message, field);
  if (!values?.ok) throw new Error('not read back');
  return Array.from(values.value);
}

/** One spec for each product template and for each trait. */
const SPECS: readonly { readonly name: string; readonly spec: GribMessageSpec; readonly keys: string }[] = [
  { name: '4.0 instant', spec: smallSpec, keys: '0 0 2 2 10 21600 21600 not_found not_found -2.25 12' },
  {
    name: '4.1 member 7 of 31, minutes',
    spec: {
      ...smallSpec,
      validity: { kind: 'instant', validEpochMs: hoursOn(1.5) },
      ensemble: { typeCode: 3, perturbationNumber: 7, memberCount: 31 },
    },
    keys: '1 0 2 2 10 5400 5400 7 31 -2.25 12',
  },
  {
    name: '4.8 gust, maximum of 3 hours',
    spec: {
      ...smallSpec,
      parameter: { discipline: 0, category: 2, number: 22 },
      validity: { kind: 'interval', startEpochMs: hoursOn(3), endEpochMs: hoursOn(6), statistic: 'maximum' },
    },
    keys: '8 0 2 22 10 10800 21600 not_found not_found -2.25 12',
  },
  {
    name: '4.11 control, accumulation across a month',
    spec: {
      ...smallSpec,
      parameter: { discipline: 0, category: 1, number: 8 },
      level: { first: { typeCode: 1, value: null }, second: null },
      validity: { kind: 'interval', startEpochMs: hoursOn(0), endEpochMs: hoursOn(120), statistic: 'accumulation' },
      ensemble: { typeCode: 1, perturbationNumber: 0, memberCount: 31 },
    },
    keys: '11 0 1 8 0 0 432000 0 31 -2.25 12',
  },
  {
    name: 'waves, from the north, no value missing',
    spec: {
      ...smallSpec,
      parameter: { discipline: 10, category: 0, number: 3 },
      level: { first: { typeCode: 101, value: 0 }, second: null },
      grid: { ...smallSpec.grid, scanningMode: 0 },
      values: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12.5],
    },
    keys: '0 10 0 3 0 21600 21600 not_found not_found 1 12.5',
  },
];

describe('writeGrib2Message', () => {
  it.each(SPECS)('$name: read back as described', ({ spec }) => {
    const { fields, problems } = scanGrib(writeGrib2Message(spec), 'written');
    expect(problems).toEqual([]);
    expect(fields).toMatchObject([
      {
        parameter: { edition: 2, ...spec.parameter },
        level: spec.level,
        referenceEpochMs: spec.referenceEpochMs,
        validity: spec.validity,
        ensemble: spec.ensemble ?? null,
        support: null,
      },
    ]);
    expect(valuesOf(writeGrib2Message(spec))).toEqual(Array.from(spec.values));
  });

  it('two calls: the same octets', () => {
    expect(smallMessage()).toEqual(smallMessage());
  });

  it('constant field: no bits, the plain value', () => {
    const message = smallMessage({ values: Array.from({ length: 12 }, () => -3.5) });
    expect(scanGrib(message, 'x').fields[0]?.packing).toMatchObject({
      bitsPerValue: 0,
      decimalScaleFactor: 0,
      referenceValue: -3.5,
    });
    expect(new Set(valuesOf(message))).toEqual(new Set([-3.5]));
  });

  it('all values missing: all missing', () => {
    expect(valuesOf(smallMessage({ values: Array.from({ length: 12 }, () => NaN) })).every(Number.isNaN)).toBe(true);
  });

  it('level of 0.5 m: scale factor 1', () => {
    const level = { first: { typeCode: 160, value: 0.5 }, second: { typeCode: 160, value: 10 } };
    expect(scanGrib(smallMessage({ level }), 'x').fields[0]?.level).toEqual(level);
  });

  it.each([
    ['too few values', { values: [1, 2, 3] }],
    ['an infinite value', { values: [Infinity, ...smallSpec.values.slice(1)] }],
    ['a span above 32 bits', { values: [1e9, ...smallSpec.values.slice(1)], decimalScaleFactor: 5 }],
    ['a row beyond the pole', { grid: { ...smallSpec.grid, first: { lat: 89, lon: 0 } } }],
    ['a time of half a second', { validity: { kind: 'instant', validEpochMs: REFERENCE_EPOCH_MS + 500 } }],
    ['category 300', { parameter: { discipline: 0, category: 300, number: 2 } }],
  ] satisfies [string, Partial<GribMessageSpec>][])('%s: throws, a mistake of the caller', (_, changes) => {
    expect(() => smallMessage(changes)).toThrow();
  });

  it('any field in either packing: every value within half a step, missing ones missing', () => {
    const fields = fc.record({
      values: fc.array(fc.oneof(fc.double({ min: -500, max: 500, noNaN: true }), fc.constant(NaN)), {
        minLength: 60,
        maxLength: 60,
      }),
      decimalScaleFactor: fc.integer({ min: 0, max: 3 }),
      packing: fc.constantFrom('simple', 'complex', 'smallest'),
    });
    const grid = { ...smallSpec.grid, ni: 10, nj: 6 };
    fc.assert(
      fc.property(fields, ({ values, decimalScaleFactor, packing }) => {
        const back = valuesOf(smallMessage({ grid, values, decimalScaleFactor, packing }));
        const halfStep = 0.5 * 10 ** -decimalScaleFactor + 1e-9;
        const wrong = values.filter((value, i) => {
          const ours = back[i] ?? Infinity;
          return Number.isNaN(value)
            ? !Number.isNaN(ours)
            : !(Math.abs(ours - value) <= halfStep + Math.abs(value) * 1e-7);
        });
        expect(wrong).toEqual([]);
      }),
      { seed: 20_260_527, numRuns: 200 },
    );
  });

  it('smooth field: complex packing is the shorter one and is taken', () => {
    const values = Array.from({ length: 2000 }, (_, i) => 1000 + Math.sin(i / 40) * 20);
    const grid = { ...smallSpec.grid, ni: 50, nj: 40 };
    const [simple, smallest] = (['simple', 'smallest'] as const).map((packing) =>
      smallMessage({ grid, values, packing }),
    );
    expect(smallest?.length).toBeLessThan((simple?.length ?? 0) * 0.7);
    expect(scanGrib(smallest ?? new Uint8Array(), 'x').fields[0]?.packing.templateNumber).toBe(3);
  });
});

describe.skipIf(referenceTool('grib_get') === null)('written messages in ecCodes', () => {
  const KEYS =
    'productDefinitionTemplateNumber,discipline,parameterCategory,parameterNumber,level,startStep,endStep,perturbationNumber,numberOfForecastsInEnsemble,min,max';

  const readBack = (message: Uint8Array, tool: string, options: readonly string[]): string => {
    const folder = mkdtempSync(join(tmpdir(), 'grib-test-'));
    try {
      writeFileSync(join(folder, 'm.grib2'), message);
      const run = spawnSync(tool, [...options, join(folder, 'm.grib2')], { encoding: 'utf8' });
      return run.stdout.trim();
    } finally {
      rmSync(folder, { recursive: true });
    }
  };

  it.each(SPECS)('$name: the same template, parameter, level, steps, member and extremes', ({ spec, keys }) => {
    const told = readBack(writeGrib2Message(spec), 'grib_get', ['-f', '-s', 'stepUnits=s', '-p', KEYS]);
    expect(told).toBe(keys);
  });

  it.each(['simple', 'complex'] as const)('%s packing: the same values at the same places', (packing) => {
    const values = Array.from({ length: 399 }, (_, i) =>
      i % 31 === 5 ? NaN : Math.round(Math.sin(i / 7) * 900) / 100,
    );
    const message = smallMessage({ grid: { ...smallSpec.grid, ni: 21, nj: 19 }, values, packing });
    const lines = readBack(message, 'grib_get_data', ['-m', 'NaN', '-F', '%.2f', '-L', '%.3f %.3f'])
      .split('\n')
      .slice(1);
    const expected = values.map((value, i) => {
      const place = `${(-30 + 2 * Math.floor(i / 21)).toFixed(3)} ${(178 + (i % 21)).toFixed(3)}`;
      return `${place} ${Number.isNaN(value) ? 'NaN' : value.toFixed(2).replace('-0.00', '0.00')}`;
    });
    expect(lines.map((line) => line.trim().split(/\s+/).join(' '))).toEqual(expected);
  });
});

describe('several fields in one message', () => {
  /** u with its bitmap, then v (sections 4 to 7 again) that points back to it: indicator 254 of code table 6.0. */
  function uAndV(indicator: number): Uint8Array {
    const u = smallMessage();
    const v = smallMessage({
      parameter: { discipline: 0, category: 2, number: 3 },
      values: [20, ...smallSpec.values.slice(1)],
    });
    const section = (message: Uint8Array, sectionNumber: number): Uint8Array => {
      const start = sectionStart(message, sectionNumber);
      const view = new DataView(message.buffer);
      return message.slice(start, start + view.getUint32(start));
    };
    const again = [...section(v, 4), ...section(v, 5), 0, 0, 0, 6, 6, indicator, ...section(v, 7)];
    const whole = Uint8Array.from([...u.slice(0, -4), ...again, ...u.slice(-4)]);
    new DataView(whole.buffer).setUint32(12, whole.length);
    return whole;
  }

  it('bitmap of the field before: used again', () => {
    const message = uAndV(254);
    const { fields, problems } = scanGrib(message, 'uv');
    expect(problems).toEqual([]);
    expect(
      fields.map(({ fieldNumber, messageNumber, submessageNumber }) => [fieldNumber, messageNumber, submessageNumber]),
    ).toEqual([
      [1, 1, 1],
      [2, 1, 2],
    ]);
    const values = fields
      .map((field) => decodeField(message, field))
      .map((read) => (read.ok ? Array.from(read.value) : []));
    expect(values).toEqual([smallSpec.values, [20, ...smallSpec.values.slice(1)]]);
  });

  it('bitmap used again in another message: there is none', () => {
    const first = uAndV(254);
    const alone = smallMessage();
    alone[sectionStart(alone, 6) + 5] = 254;
    const { problems } = scanGrib(Uint8Array.from([...first, ...alone]), 'two');
    expect(problems.map(({ code }) => code)).toEqual(['grib.bitmap-missing']);
  });
});
