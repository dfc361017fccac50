/**
 * Section 4 of edition 2, template by template, octets as in WMO-No. 306, Volume I.2 (github.com/wmo-im/GRIB2, files
 * GRIB2_Template_4_n_ProductDefinitionTemplate_en.csv: 4.9 405529f, 4.10 5241915, 4.15 5241915, 4.61 0c43930, 4.103 5c46c65,
 * 4.104 139f028, 4.117 and 4.118 4b7535d).
 */
import { describe, expect, it } from 'vitest';
import {
  formatMember,
  formatProcess,
  formatValidity,
  type GribField,
  scanGrib,
  unitOfParameter,
} from '../../lib/grib/index.ts';
import { readGoldenBytes } from './golden-files.ts';
import {
  altered,
  codesOf,
  MS_PER_H,
  REFERENCE_EPOCH_MS,
  section4,
  smallMessage,
  withSection,
} from './sample-message.ts';

const fieldOf = (bytes: Uint8Array): GribField => {
  const field = scanGrib(bytes, 'test').fields[0];
  if (field === undefined) throw new Error('no field');
  return field;
};
const hoursOn = (hours: number): number => REFERENCE_EPOCH_MS + hours * MS_PER_H;
const withProduct = (section: readonly number[]): Uint8Array => withSection(smallMessage(), 4, section);
const productOf = (section: readonly number[]): GribField => fieldOf(withProduct(section));

/** Octets 10 to 34 of template 4.0: gust at 10 m, ensemble forecast, 6 hours ahead. */
const HEAD = [2, 22, 4, 255, 255, 255, 255, 255, 1, 0, 0, 0, 6, 103, 0, 0, 0, 0, 10, 255, 255, 255, 255, 255, 255];
/** 28 May 2026, 00 UTC: 12 hours after the reference time. */
const END = [7, 234, 5, 28, 0, 0, 0];
/** One time range: statistic, increment, 6 hours. */
const range = (statisticCode: number, incrementCode = 2): number[] => [
  statisticCode,
  incrementCode,
  1,
  0,
  0,
  0,
  6,
  255,
  0,
  0,
  0,
  0,
];
const interval = (...ranges: readonly (readonly number[])[]): number[] => [
  ...END,
  ranges.length,
  0,
  0,
  0,
  0,
  ...ranges.flat(),
];
const LEVEL = { first: { typeCode: 103, value: 10 }, second: null };
const OVER_6_H = {
  kind: 'interval',
  startEpochMs: hoursOn(6),
  endEpochMs: hoursOn(12),
  statistic: 'maximum',
  statisticCode: 2,
};

const realAspects = scanGrib(readGoldenBytes('s2s_pdt9_10_12.grib2'), 's2s').fields.map(({ aspect }) => aspect);

describe('probability', () => {
  /** Second of eight, above the upper limit (type 1) of 17.49 (scale factor 2); no lower limit. */
  const PROBABILITY = [2, 8, 1, 255, 255, 255, 255, 255, 2, 0, 0, 0x06, 0xd5];
  const aspect = {
    kind: 'probability',
    typeCode: 1,
    limits: { lower: null, upper: 17.49 },
    probabilityNumber: 2,
    probabilityCount: 8,
  };

  it('4.5: at an instant', () => {
    const field = productOf(section4(5, [...HEAD, ...PROBABILITY]));
    expect(field).toMatchObject({
      level: LEVEL,
      validity: { kind: 'instant', validEpochMs: hoursOn(6) },
      ensemble: null,
      derived: null,
      aspect,
      support: null,
    });
    expect([formatMember(field), unitOfParameter(field)]).toEqual(['probability above 17.49', '%']);
  });

  it('4.9: over an interval', () => {
    const field = productOf(section4(9, [...HEAD, ...PROBABILITY, ...interval(range(2))]));
    expect(field).toMatchObject({ level: LEVEL, validity: OVER_6_H, aspect, support: null });
  });

  it('4.9 of a real file: as ecCodes reads it', () => {
    // grib_get -w productDefinitionTemplateNumber=9 -p probabilityType:i,lowerLimit,upperLimit,forecastProbabilityNumber,totalNumberOfForecastProbabilities
    const probabilities = realAspects.filter((real) => real?.kind === 'probability');
    const told = probabilities.map(({ typeCode, limits, probabilityNumber, probabilityCount }) =>
      [typeCode, limits.lower, limits.upper, probabilityNumber, probabilityCount].join(' '),
    );
    expect(told).toEqual(['6 0 0 0 201', '6 0 0 0 201', '10 1 10 0 201', '10 3 3 0 201', '10 10 10 0 201']);
  });
});

describe('percentile', () => {
  it('4.6: at an instant', () => {
    const field = productOf(section4(6, [...HEAD, 90]));
    expect(field).toMatchObject({ level: LEVEL, aspect: { kind: 'percentile', percentileNumber: 90 }, support: null });
    expect(formatMember(field)).toBe('percentile 90');
  });

  it('4.10: over an interval', () => {
    const field = productOf(section4(10, [...HEAD, 25, ...interval(range(2))]));
    expect(field).toMatchObject({ validity: OVER_6_H, aspect: { kind: 'percentile', percentileNumber: 25 } });
  });

  it('4.10 of a real file: as ecCodes reads it', () => {
    // grib_get -w productDefinitionTemplateNumber=10 -p percentileValue
    const percentiles = realAspects.filter((real) => real?.kind === 'percentile');
    expect(percentiles.map(({ percentileNumber }) => percentileNumber)).toEqual([1, 50, 99]);
  });
});

describe('waves of a band of periods', () => {
  // Sections 4 of two messages of centre 98, 28 June 2026, 06 UTC (open data, CC-BY-4.0): 10/0/3, periods 10 to 12 s.
  const REAL = [
    0, 0, 0, 45, 4, 0, 0, 0, 103, 0, 3, 7, 0, 0, 0, 0, 10, 0, 0, 0, 0, 12, 2, 1, 5, 255, 255, 255, 1, 0, 0, 0, 0, 1,
    255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255,
  ];

  it('4.103: level, time and process stand 11 octets later than in 4.0', () => {
    const field = productOf(REAL);
    expect(field).toMatchObject({
      productTemplate: 103,
      parameter: { category: 0, number: 3 },
      level: { first: { typeCode: 1, value: null }, second: null },
      validity: { kind: 'instant', validEpochMs: REFERENCE_EPOCH_MS },
      typeOfProcess: 2,
      aspect: { kind: 'wave-periods', intervalCode: 7, limits: { lower: 10, upper: 12 } },
      support: null,
    });
    expect(formatMember(field)).toBe('only periods from 10 to 12 s');
  });

  it('4.104: member after the level', () => {
    const field = productOf(section4(104, [...REAL.slice(9), 3, 7, 51]));
    expect(field.ensemble).toEqual({ kind: 'perturbed', typeCode: 3, perturbationNumber: 7, memberCount: 51 });
    expect(field.aspect).toMatchObject({ kind: 'wave-periods', limits: { lower: 10, upper: 12 } });
    expect(formatMember(field)).toBe('only periods from 10 to 12 s, member 7');
  });
});

describe('other templates', () => {
  it('4.7: an error', () => {
    const field = productOf(section4(7, HEAD));
    expect(field).toMatchObject({ level: LEVEL, aspect: { kind: 'error' }, support: null });
  });

  it('4.15: maximum over 9 points around', () => {
    const field = productOf(section4(15, [...HEAD, 2, 0, 9]));
    expect(field.aspect).toEqual({ kind: 'area', statistic: 'maximum', processCode: 0, pointCount: 9 });
    expect(formatMember(field)).toBe('maximum over 9 points, without interpolation');
  });

  it('4.60 and 4.61: member, version of the model, and the interval 7 octets after 4.11', () => {
    const member = [3, 7, 11, 7, 232, 3, 1, 0, 0, 0];
    const aspect = { kind: 'reforecast', modelEpochMs: Date.UTC(2024, 2, 1) };
    const ensemble = { kind: 'perturbed', typeCode: 3, perturbationNumber: 7, memberCount: 11 };
    expect(productOf(section4(60, [...HEAD, ...member]))).toMatchObject({ aspect, ensemble, level: LEVEL });
    expect(productOf(section4(61, [...HEAD, ...member, ...interval(range(2))]))).toMatchObject({
      aspect,
      ensemble,
      validity: OVER_6_H,
    });
  });

  it('4.117 and 4.118: numbers of a member and of members in four octets', () => {
    const member = [3, 0, 0, 1, 44, 0, 0, 3, 232];
    const ensemble = { kind: 'perturbed', typeCode: 3, perturbationNumber: 300, memberCount: 1000 };
    expect(productOf(section4(117, [...HEAD, ...member]))).toMatchObject({ ensemble, aspect: null, support: null });
    expect(productOf(section4(118, [...HEAD, ...member, ...interval(range(2))]))).toMatchObject({
      ensemble,
      validity: OVER_6_H,
    });
  });

  it.each([5, 6, 9, 10, 15, 60, 61, 103, 104, 117, 118])('template 4.%i in too few octets: damaged', (template) => {
    expect(codesOf(withProduct(section4(template, HEAD.slice(0, 22))))).toEqual(['grib.section-too-short']);
  });

  it.each([3, 4, 13, 14, 32, 40, 48, 46])('template 4.%i: refused by name', (template) => {
    expect(codesOf(withProduct(section4(template, [...HEAD, ...interval(range(2))])))).toEqual([
      'grib.product-unsupported',
    ]);
  });
});

describe('several time ranges', () => {
  it('the first is the outermost: its statistic, and the interval that ends at the written end', () => {
    const field = productOf(section4(8, [...HEAD, ...interval(range(2), range(0))]));
    expect(field.validity).toEqual({
      ...OVER_6_H,
      ranges: [
        { statistic: 'maximum', statisticCode: 2, incrementCode: 2 },
        { statistic: 'average', statisticCode: 0, incrementCode: 2 },
      ],
    });
    expect(formatValidity(field)).toBe('maximum of average 2026-05-27T18:00Z to 2026-05-28T00:00Z');
  });

  it('a single one that moves the start of forecast: named', () => {
    const field = productOf(section4(8, [...HEAD, ...interval(range(0, 1))]));
    expect(field.validity).toMatchObject({ statistic: 'average', ranges: [{ incrementCode: 1 }] });
    expect(formatValidity(field)).toMatch(/^average \(start of forecast moves, forecast time stays\) /);
  });

  it('no end written: start + length of the outermost', () => {
    const block = interval(range(2), range(2)).with(0, 0).with(1, 0);
    expect(productOf(section4(8, [...HEAD, ...block])).validity).toMatchObject({
      startEpochMs: hoursOn(6),
      endEpochMs: hoursOn(12),
    });
  });
});

describe('units', () => {
  const rain = (number: number, statistic: 'accumulation' | 'average'): GribField =>
    fieldOf(
      smallMessage({
        parameter: { discipline: 0, category: 1, number },
        validity: { kind: 'interval', startEpochMs: REFERENCE_EPOCH_MS, endEpochMs: hoursOn(6), statistic },
      }),
    );

  it.each([
    ['accumulated rate 0/1/52: times seconds', rain(52, 'accumulation'), 'kg m-2'],
    ['mean rate 0/1/52: the rate', rain(52, 'average'), 'kg m-2 s-1'],
    ['accumulated sum 0/1/8: the sum', rain(8, 'accumulation'), 'kg m-2'],
  ])('%s', (_, field, unit) => {
    expect(unitOfParameter(field)).toBe(unit);
  });

  it('process and type of data: code tables 4.3 and 1.4', () => {
    expect(formatProcess(fieldOf(altered(smallMessage(), { sectionNumber: 1, octet: 21 }, [1])))).toBe(
      'forecast (forecast)',
    );
    expect(formatProcess(fieldOf(altered(smallMessage(), { sectionNumber: 1, octet: 21 }, [200])))).toBe('forecast');
  });
});
