/** Levels, members and products that have the numbers of a quantity and are none; the same sources as `match-field.test.ts`. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { edition1Message, edition1Product, replaced } from '../grib/edition-1-message.ts';
import { altered, section4, smallMessage, withSection } from '../grib/sample-message.ts';
import {
  DWD,
  ECMWF,
  edition1,
  edition2,
  expectMeanings,
  firstField,
  hoursOf,
  match,
  meaningOf,
  over,
  TOKYO,
} from './meaning.ts';

describe('levels', () => {
  const components = 'wind: components at 10 m, instant';
  const reduced = 'pressure: reduced to sea level, instant';

  expectMeanings([
    ['u at 10 m', edition2('0/2/2', { surface: [103, 10] }), components],
    ['u at 80 m', edition2('0/2/2', { surface: [103, 80] }), 'nothing'],
    ['u at 100 m', edition2('0/2/2', { centre: ECMWF, surface: [103, 100] }), 'nothing'],
    [
      'u on model level 10 (type 105, which in edition 1 is height)',
      edition2('0/2/2', { centre: DWD, surface: [105, 10] }),
      'nothing',
    ],
    ['u between 10 m and 100 m', edition2('0/2/2', { surface: [103, 10], second: [103, 100] }), 'nothing'],
    ['u of the planetary boundary layer', edition2('0/2/2', { surface: [220] }), 'nothing'],
    ['u at 850 hPa', edition2('0/2/2', { surface: [100, 85_000] }), 'nothing'],
    [
      'u on the surface: a wave model',
      edition2('0/2/2', { surface: [1, 1] }),
      'wind: components of a wave model, instant',
    ],
    ['edition 1, u at 10 m', edition1('7 2/33', [105, 10]), components],
    ['edition 1, u at 1000 cm', edition1('7 2/33', [125, 1000]), components],
    [
      'edition 1, u 10 m above the sea (type 103, which in edition 2 is above ground)',
      edition1('7 2/33', [103, 10]),
      'nothing',
    ],
    ['edition 1, u at −10 m', edition1('7 2/33', [105, 0x800a]), 'nothing'],
    ['temperature at 2 m', edition2('0/0/0', { surface: [103, 2] }), 'air: at 2 m, instant'],
    ['temperature of the surface', edition2('0/0/0', { surface: [1] }), 'nothing'],
    ['0/3/1', edition2('0/3/1', { surface: [101] }), reduced],
    ['0/3/0 on mean sea level: centre 98', edition2('0/3/0', { centre: ECMWF, surface: [101] }), reduced],
    ['0/3/0 on the surface: pressure at the ground', edition2('0/3/0', { surface: [1] }), 'nothing'],
    [
      '0/3/0 at 500 m (type 102, which in edition 1 is sea level)',
      edition2('0/3/0', { surface: [102, 500] }),
      'nothing',
    ],
    [
      '0/3/192 of centre 7',
      edition2('0/3/192', { surface: [101] }),
      'pressure: reduced to sea level, Eta reduction, instant',
    ],
    ['0/3/192 of another centre', edition2('0/3/192', { centre: TOKYO, surface: [101] }), 'nothing'],
    ['edition 1, 2 at sea level', edition1('7 2/2', [102]), reduced],
    ['edition 1, 1 on the surface', edition1('7 2/1', [1]), 'nothing'],
    ['edition 1, 1 between 100 kPa and 50 kPa', edition1('7 2/1', [101, 0x6432]), 'nothing'],
    ['edition 1, 128.151', edition1('98 128/151'), reduced],
    ['edition 1, 128.134: pressure at the ground', edition1('98 128/134'), 'nothing'],
  ]);

  it('a scale factor of all ones is no value: surface, not 10^127', () => {
    const octets = [1, 255, 0, 0, 0, 0];
    expect(meaningOf(altered(edition2('10/0/3', { surface: [1] }), { sectionNumber: 4, octet: 23 }, octets))).toBe(
      'seaHeight: wind sea and swell, instant',
    );
  });
});

describe('humidity', () => {
  const humidity = 'humidity: at 2 m, instant';
  const dewPoint = 'humidity: from dew point and air temperature at 2 m, instant';

  expectMeanings([
    ['relative humidity 0/1/1 at 2 m', edition2('0/1/1', { surface: [103, 2] }), humidity],
    ['0/1/1 at 850 hPa', edition2('0/1/1', { surface: [100, 85_000] }), 'nothing'],
    ['0/1/1 of the layer from the surface to 2 m', edition2('0/1/1', { surface: [1], second: [103, 2] }), 'nothing'],
    ['0/1/1 of the whole atmosphere', edition2('0/1/1', { surface: [10] }), 'nothing'],
    ['highest of 6 hours', edition2('0/1/1', { surface: [103, 2] }, over(0, 6, 'maximum')), 'nothing'],
    ['specific humidity 0/1/0', edition2('0/1/0', { surface: [103, 2] }), 'nothing'],
    ['dew point 0/0/6 at 2 m', edition2('0/0/6', { centre: DWD, surface: [103, 2] }), dewPoint],
    ['dew point at 850 hPa', edition2('0/0/6', { surface: [100, 85_000] }), 'nothing'],
    ['dew point depression 0/0/7', edition2('0/0/7', { surface: [103, 2] }), 'nothing'],
    ['edition 1, 52 at 2 m', edition1('7 2/52', [105, 2]), humidity],
    ['edition 1, 52 at 200 cm', edition1('7 2/52', [125, 200]), humidity],
    ['edition 1, 52 at 850 hPa', edition1('7 2/52', [100, 850]), 'nothing'],
    ['edition 1, 17 at 2 m', edition1('7 2/17', [105, 2]), dewPoint],
    ['edition 1, 18, its depression', edition1('7 2/18', [105, 2]), 'nothing'],
    ['edition 1, 128.168 of centre 98', edition1('98 128/168'), dewPoint],
    ['edition 1, 128.168 of another centre', edition1('34 128/168'), 'nothing'],
    ['edition 1, 128.157: relative humidity of pressure levels', edition1('98 128/157', [100, 850]), 'nothing'],
  ]);

  it('a little below nothing and above saturation: 0 and 100 %; missing stays missing', () => {
    const toUnit = match(edition2('0/1/1', { surface: [103, 2] }))?.row.toUnit;
    expect([-0.3, 61, 104.2].map((coded) => toUnit?.(coded))).toEqual([0, 61, 100]);
    expect(toUnit?.(Number.NaN)).toBeNaN();
  });
});

describe('sea and sky', () => {
  const sky = 'cloud: total, instant';
  const water = 'seaWater: at the surface, instant';

  expectMeanings([
    ['water temperature 10/3/0', edition2('10/3/0', { surface: [1] }), water],
    ['10/3/0 at a depth of 0 m', edition2('10/3/0', { surface: [160, 0] }), water],
    ['10/3/0 at 30 m', edition2('10/3/0', { surface: [160, 30] }), 'nothing'],
    ['skin temperature 0/0/17', edition2('0/0/17', { surface: [1] }), 'nothing'],
    ['edition 1, 80', edition1('7 2/80'), water],
    ['edition 1, 128.34', edition1('98 128/34'), water],
    ['current 10/1/2', edition2('10/1/2', { surface: [160, 0] }), 'current: at the surface, instant'],
    [
      'eastward surface current 10/3/14',
      edition2('10/3/14', { centre: ECMWF, surface: [160, 0] }),
      'current: at the surface, eastward and northward, instant',
    ],
    ['barotropic current 10/1/194 of centre 7', edition2('10/1/194', { surface: [1] }), 'nothing'],
    ['current at 100 m', edition2('10/1/2', { surface: [160, 100] }), 'nothing'],
    ['Stokes drift 10/0/21', edition2('10/0/21', { surface: [1] }), 'nothing'],
    ['cloud 0/6/1 of the whole atmosphere', edition2('0/6/1', { surface: [10] }), sky],
    ['cloud 0/6/1 from the surface to the top', edition2('0/6/1', { centre: DWD, surface: [1], second: [8] }), sky],
    ['low cloud 0/6/3', edition2('0/6/3', { surface: [214] }), 'nothing'],
    ['0/6/1 of the boundary layer', edition2('0/6/1', { surface: [211] }), 'nothing'],
    [
      '0/6/192 of centre 98, from the surface to the top',
      edition2('0/6/192', { centre: ECMWF, surface: [1], second: [8] }),
      sky,
    ],
    ['0/6/192 of centre 7: not convective', edition2('0/6/192', { surface: [10] }), 'nothing'],
    [
      'CAPE of a mixed layer, surface 192 of centre 78',
      edition2('0/7/6', { centre: DWD, surface: [192] }),
      'cape: of a mixed layer, instant',
    ],
    ['surface 192 of another centre', edition2('0/7/6', { centre: TOKYO, surface: [192] }), 'nothing'],
    ['CAPE of the layer 180 to 0 hPa', edition2('0/7/6', { surface: [108, 18_000], second: [108, 0] }), 'nothing'],
  ]);

  it('cloud: percent, or shares of 0 to 1', () => {
    const share = (bytes: Uint8Array, coded: number) => match(bytes)?.row.toUnit(coded);
    expect(share(edition2('0/6/1', { surface: [10] }), 50)).toBe(0.5);
    expect(share(edition2('0/6/192', { centre: ECMWF, surface: [1], second: [8] }), 0.5)).toBe(0.5);
    expect(share(edition1('98 128/164'), 0.5)).toBe(0.5);
    expect(share(edition1('7 2/71', [200]), 50)).toBe(0.5);
  });
});

describe('ensembles', () => {
  const memberOf = (typeCode: number, perturbationNumber: number, memberCount: number): string | undefined =>
    match(smallMessage({ ensemble: { typeCode, perturbationNumber, memberCount } }))?.memberId;

  it.each([
    ['control of centre 7: type 1, number 0', [1, 0, 31], 'control'],
    ['control of centre 98: reserved type 5, number 0 of 51', [5, 0, 51], 'control'],
    ['member 50 of centre 98: type 255, of "51"', [255, 50, 51], 'member-50'],
    ['member 40 of centre 78: local type 192, of 40', [192, 40, 40], 'member-40'],
    ['number 0 of a local type', [192, 0, 40], 'control'],
    ['member 19 of "10": the count is not believed', [3, 19, 10], 'member-19'],
    ['number 0 of type 3, which says perturbed', [3, 0, 20], 'member-00'],
    ['the two of a pair', [2, 4, 20], 'member-04-negative'],
  ])('%s', (_, [typeCode = 0, number = 0, count = 0], memberId) => {
    expect(memberOf(typeCode, number, count)).toBe(memberId);
  });

  it('a real file of centre 7: member 19 of "10"', () => {
    // grib_get -p perturbationNumber,numberOfForecastsInEnsemble gefs_ens_simple.grib2: 19 10
    const bytes = readFileSync(new URL('../golden/grib/files/gefs_ens_simple.grib2', import.meta.url));
    expect(firstField(new Uint8Array(bytes)).ensemble).toMatchObject({
      kind: 'perturbed',
      perturbationNumber: 19,
      memberCount: 10,
    });
  });

  it('edition 1 of centre 7: control, both of a pair, and a mean, by octets 41 to 45', () => {
    const ofEnsemble = (...local: readonly number[]): Uint8Array => {
      const head = replaced(replaced([...edition1Product], 1, [0, 0, 45]), 9, [2, 102, 0, 0]);
      return edition1Message({ product: [...head, ...Array.from({ length: 12 }, () => 0), ...local] });
    };
    const idOf = (...local: readonly number[]) => match(ofEnsemble(...local))?.memberId;
    expect(idOf(1, 1, 1, 1, 0)).toBe('control');
    expect(idOf(1, 1, 2, 1, 0)).toBe('control');
    expect(idOf(1, 3, 5, 1, 0)).toBe('member-05');
    expect(idOf(1, 2, 5, 1, 0)).toBe('member-05-negative');
    expect(match(ofEnsemble(1, 5, 0, 1, 0))).toBeNull();
    expect(match(ofEnsemble(1, 3, 5, 2, 0))).toBeNull();
    expect(firstField(ofEnsemble(1, 5, 0, 1, 0)).derived?.name).toContain('several members');
  });
});

describe('other products', () => {
  const HEAD = [2, 2, 2, 255, 255, 255, 255, 255, 1, 0, 0, 0, 6, 103, 0, 0, 0, 0, 10, 255, 255, 255, 255, 255, 255];
  const wind = (template: number, tail: readonly number[]): string =>
    meaningOf(withSection(smallMessage(), 4, section4(template, [...HEAD, ...tail])));

  it.each([
    ['4.0, a forecast', 0, [], 'wind: components at 10 m, instant'],
    ['4.117, a member of a large ensemble', 117, [3, 0, 0, 1, 44, 0, 0, 3, 232], 'wind: components at 10 m, instant'],
    ['4.2, a mean', 2, [0, 31], 'nothing'],
    ['4.5, a probability', 5, [1, 1, 1, 255, 255, 255, 255, 255, 0, 0, 0, 0, 17], 'nothing'],
    ['4.6, a percentile', 6, [90], 'nothing'],
    ['4.7, an error', 7, [], 'nothing'],
    ['4.15, the maximum around', 15, [2, 0, 9], 'nothing'],
    ['4.60, a forecast of years ago', 60, [3, 7, 11, 7, 232, 3, 1, 0, 0, 0], 'nothing'],
  ])('%s', (_, template, tail, meaning) => {
    expect(wind(template, tail)).toBe(meaning);
  });

  it.each([
    ['analysis', 0, true],
    ['forecast', 2, true],
    ['local, of centre 78', 203, true],
    ['forecast error', 6, false],
    ['analysis error', 7, false],
    ['climatology', 9, false],
    ['analysis increment', 20, false],
  ])('template 4.0, code table 4.3: %s', (_, process, isUsed) => {
    expect(match(altered(smallMessage(), { sectionNumber: 4, octet: 12 }, [process])) !== null).toBe(isUsed);
  });
});

describe('edition 1 times', () => {
  it.each([
    ['indicator 10: P1 over two octets', [1, 8, 10], [264, 264]],
    ['indicator 1: an analysis', [0, 0, 1], [0, 0]],
  ] as [string, [number, number, number], [number, number]][])('%s', (_, time, hours) => {
    expect(hoursOf(edition1('7 2/33', [105, 10], time))).toEqual(hours);
  });

  it.each([
    ['average of uninitialized analyses', 123],
    ['accumulation of uninitialized analyses', 124],
    ['average of forecasts', 113],
    ['climatological mean', 51],
  ])('refused by name: %s', (name, indicator) => {
    const { support } = firstField(edition1('7 2/33', [105, 10], [0, 6, indicator]));
    expect(support?.code).toBe('grib.time-range-unsupported');
    expect(support?.what).toContain(name.split(' of ')[0]);
  });

  it('a difference over a range is no sum', () => {
    expect(meaningOf(edition1('7 2/61', [1], [0, 6, 5]))).toBe('nothing');
  });
});
