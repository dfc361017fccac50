/**
 * Same numbers, other meanings: what a field must not be taken for. Numbers and surfaces: WMO-No. 306, code tables 4.2, 4.5,
 * 4.10 (edition 2), 2, 3, 5 (edition 1); how centres use them: their public parameter tables, as ecCodes 2.28 defines them.
 */
import { describe, expect, it } from 'vitest';
import { altered, section4, smallMessage, withSection } from '../grib/sample-message.ts';
import {
  DWD,
  ECMWF,
  edition1,
  edition2,
  expectMeanings,
  hoursOf,
  match,
  meaningOf,
  NCEP,
  over,
  type Surface,
  TOULOUSE,
} from './meaning.ts';

describe('wave height', () => {
  const sea = 'seaHeight: wind sea and swell, instant';
  // Section 4 of a message of centre 98, 28 June 2026 (open data, CC-BY-4.0): 10/0/3, template 4.103, periods 10 to 12 s.
  const band = [
    0, 0, 0, 45, 4, 0, 0, 0, 103, 0, 3, 7, 0, 0, 0, 0, 10, 0, 0, 0, 0, 12, 2, 1, 5, 255, 255, 255, 1, 0, 0, 0, 0, 1,
    255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255,
  ];
  // And of the next but two: 10/0/3, template 4.0.
  const whole = [
    0, 0, 0, 34, 4, 0, 0, 0, 0, 0, 3, 2, 1, 5, 255, 255, 255, 1, 0, 0, 0, 0, 1, 255, 255, 255, 255, 255, 255, 255, 255,
    255, 255, 255,
  ];
  const waves = edition2('10/0/3', { centre: ECMWF, surface: [1] });

  expectMeanings([
    ['10/0/3 in template 4.0: the whole sea', withSection(waves, 4, whole), sea],
    ['10/0/3 in template 4.103: waves of 10 to 12 s only', withSection(waves, 4, band), 'nothing'],
    [
      '10/0/3 in template 4.104: the same of a member',
      withSection(waves, 4, section4(104, [...band.slice(9), 3, 7, 51])),
      'nothing',
    ],
    [
      '10/0/3 of a member',
      edition2('10/0/3', { surface: [1] }, { ensemble: { typeCode: 3, perturbationNumber: 1, memberCount: 31 } }),
      sea,
    ],
    ['10/0/3 at mean sea level', edition2('10/0/3', { centre: ECMWF, surface: [101] }), sea],
    ['wind sea 10/0/5', edition2('10/0/5', { surface: [1] }), 'nothing'],
    ['swell 10/0/8', edition2('10/0/8', { centre: DWD, surface: [101] }), 'nothing'],
    ['first partition of swell: 10/0/8 on surface 241, value 1', edition2('10/0/8', { surface: [241, 1] }), 'nothing'],
    ['10/0/3 on surface 241: a partition, not the sea', edition2('10/0/3', { surface: [241, 1] }), 'nothing'],
    ['first swell partition 10/0/47', edition2('10/0/47', { centre: ECMWF, surface: [101] }), 'nothing'],
    ['maximum individual wave 10/0/24', edition2('10/0/24', { centre: ECMWF, surface: [101] }), 'nothing'],
    ['local 10/0/192 of centre 85', edition2('10/0/192', { centre: TOULOUSE, surface: [101] }), 'nothing'],
    ['edition 1, 100 of table 2', edition1('7 2/100'), sea],
    ['edition 1, 140.229 of centre 98', edition1('98 140/229', [102]), sea],
    ['edition 1, 140.114: periods of 10 to 12 s', edition1('98 140/114', [102]), 'nothing'],
    ['edition 1, 140.120: periods above 10 s', edition1('98 140/120', [102]), 'nothing'],
    ['edition 1, 140.229 of another centre', edition1('7 140/229', [102]), 'nothing'],
    ['edition 1, 105, swell, on surface 241', edition1('7 2/105', [241, 1]), 'nothing'],
  ]);

  it('wave periods: one kind is never called another', () => {
    const period = (code: string, centre = ECMWF) => meaningOf(edition2(code, { centre, surface: [101] }));
    expect(period('10/0/34')).toBe('wavePeriod: peak, instant');
    expect(period('10/0/11', NCEP)).toBe('wavePeriod: primary, instant');
    expect(period('10/0/15')).toBe('wavePeriod: mean, instant');
    expect(period('10/0/15', DWD)).toBe('wavePeriod: mean (energy period), instant');
    expect(period('10/0/28')).toBe('wavePeriod: zero-crossing, instant');
    for (const partial of ['10/0/6', '10/0/9', '10/0/35', '10/0/36', '10/0/65'])
      expect(period(partial)).toBe('nothing');
  });

  it('wave directions: of the whole sea only', () => {
    const direction = (code: string, surface: Surface = [101]) => meaningOf(edition2(code, { centre: ECMWF, surface }));
    expect(direction('10/0/14')).toBe('waveDirection: mean, instant');
    expect(direction('10/0/10')).toBe('waveDirection: primary, instant');
    expect(direction('10/0/46')).toBe('waveDirection: peak, instant');
    for (const partial of ['10/0/4', '10/0/7', '10/0/74', '10/0/75', '10/0/53'])
      expect(direction(partial)).toBe('nothing');
    expect(direction('10/0/7', [241, 1])).toBe('nothing');
  });
});

describe('rain', () => {
  const ground = { surface: [1] as const };
  const inMetres = 'rain: sums in metres, sum';

  expectMeanings([
    ['0/1/52 in 4.0: a rate', edition2('0/1/52', { centre: ECMWF, ...ground }), 'rain: rates, rate'],
    [
      '0/1/52 in 4.8, accumulated: a sum',
      edition2('0/1/52', { centre: DWD, ...ground }, over(0, 6, 'accumulation')),
      'rain: sums, sum',
    ],
    [
      '0/1/52 in 4.8, averaged: a mean rate',
      edition2('0/1/52', ground, over(0, 6, 'average')),
      'rain: mean rates, mean-rate',
    ],
    [
      '0/1/52 in 4.8, maximum: a peak rate, which is no rain',
      edition2('0/1/52', ground, over(0, 6, 'maximum')),
      'nothing',
    ],
    ['0/1/7 in 4.0: a rate', edition2('0/1/7', ground), 'rain: rates, rate'],
    [
      '0/1/7 in 4.8, averaged: a mean rate',
      edition2('0/1/7', ground, over(66, 72, 'average')),
      'rain: mean rates, mean-rate',
    ],
    ['0/1/8 in 4.8: a sum', edition2('0/1/8', ground, over(66, 72, 'accumulation')), 'rain: sums, sum'],
    ['0/1/8 in 4.0: a sum without its interval', edition2('0/1/8', ground), 'nothing'],
    [
      '0/1/193 of centre 98: metres',
      edition2('0/1/193', { centre: ECMWF, ...ground }, over(0, 6, 'accumulation')),
      inMetres,
    ],
    [
      '0/1/193 of centre 7: freezing rain or not',
      edition2('0/1/193', { centre: NCEP, ...ground }, over(0, 6, 'accumulation')),
      'nothing',
    ],
    ['0/1/10: convective part', edition2('0/1/10', ground, over(0, 6, 'accumulation')), 'nothing'],
    ['edition 1, 61 accumulated', edition1('7 2/61', [1], [0, 6, 4]), 'rain: sums, sum'],
    ['edition 1, 59 at an instant', edition1('7 2/59'), 'rain: rates, rate'],
    ['edition 1, 59 averaged', edition1('7 2/59', [1], [0, 6, 3]), 'rain: mean rates, mean-rate'],
    ['edition 1, 128.228 of centre 98: metres', edition1('98 128/228', [1], [0, 6, 4]), inMetres],
    ['edition 1, 228.228 of centre 98: kg m-2', edition1('98 228/228', [1], [0, 6, 4]), 'rain: sums, sum'],
    ['edition 1, 128.228 of another centre', edition1('34 128/228', [1], [0, 6, 4]), 'nothing'],
  ]);

  it('units: 2 mm are 0.002 m, and 0.001 kg m-2 s-1 are 3.6 mm/h', () => {
    const unitOf = (bytes: Uint8Array, coded: number) => match(bytes)?.row.toUnit(coded);
    expect(unitOf(edition2('0/1/193', { centre: ECMWF, ...ground }, over(0, 6, 'accumulation')), 0.002)).toBe(2);
    expect(unitOf(edition2('0/1/8', ground, over(0, 6, 'accumulation')), 2)).toBe(2);
    expect(unitOf(edition2('0/1/52', ground), 0.001)).toBeCloseTo(3.6, 12);
    expect(unitOf(edition1('98 128/228', [1], [0, 6, 4]), 0.002)).toBe(2);
  });

  it('intervals are those of the message: a bucket, from the start of the run, in minutes', () => {
    expect(hoursOf(edition2('0/1/8', ground, over(66, 72, 'accumulation')))).toEqual([66, 72]);
    expect(hoursOf(edition2('0/1/52', ground, over(0, 78, 'accumulation')))).toEqual([0, 78]);
    const minutes = altered(
      edition2('0/1/52', { centre: DWD, ...ground }),
      { sectionNumber: 4, octet: 18 },
      [0, 0, 0, 0x12, 0x48],
    );
    expect(hoursOf(minutes)).toEqual([78, 78]);
  });

  it('128.228 at an instant: summed from the start of the run', () => {
    expect(hoursOf(edition1('98 128/228', [1], [36, 0, 0]))).toEqual([0, 36]);
    expect(hoursOf(edition1('98 128/228', [1], [0, 0, 0]))).toBeNull();
  });

  it('an interval of no length at step 0: nothing', () => {
    expect(meaningOf(edition2('0/1/52', { centre: DWD, ...ground }, over(0, 0, 'accumulation')))).toBe('nothing');
  });
});

describe('gusts', () => {
  const highest = 'gust: highest of the interval, maximum';
  const instant = 'gust: instantaneous, instant';
  const at10M = [103, 10] as const;

  expectMeanings([
    ['centre 7: surface, 4.0', edition2('0/2/22', { surface: [1] }), instant],
    [
      'centre 98, 10fg: 10 m, 4.8, maximum',
      edition2('0/2/22', { centre: ECMWF, surface: at10M }, over(0, 3, 'maximum')),
      highest,
    ],
    [
      'centre 78: maximum of the last hour',
      edition2('0/2/22', { centre: DWD, surface: at10M }, over(80, 81, 'maximum')),
      highest,
    ],
    ['a minimum of gusts', edition2('0/2/22', { surface: at10M }, over(0, 3, 'minimum')), 'nothing'],
    ['a mean of gusts', edition2('0/2/22', { surface: at10M }, over(0, 3, 'average')), 'nothing'],
    ['at 80 m', edition2('0/2/22', { surface: [103, 80] }), 'nothing'],
    ['maximum of the wind 0/2/21', edition2('0/2/21', { surface: at10M }, over(0, 3, 'maximum')), 'nothing'],
    [
      'a member, 4.11',
      edition2(
        '0/2/22',
        { surface: at10M },
        { ...over(0, 3, 'maximum'), ensemble: { typeCode: 192, perturbationNumber: 4, memberCount: 40 } },
      ),
      highest,
    ],
    ['edition 1, 180 of centre 7', edition1('7 2/180'), instant],
    ['edition 1, 180 of another centre', edition1('34 2/180'), 'nothing'],
    [
      'edition 1, 128.49 over a written range',
      edition1('98 128/49', [1], [3, 6, 2]),
      'gust: highest since the step before, maximum',
    ],
    ['edition 1, 128.49 without its interval', edition1('98 128/49'), 'nothing'],
    ['edition 1, 228.29', edition1('98 228/29'), instant],
  ]);

  it('hours: the message says them; edition 1 of centre 98 says them by the parameter', () => {
    expect(hoursOf(edition2('0/2/22', { centre: DWD, surface: at10M }, over(80, 81, 'maximum')))).toEqual([80, 81]);
    expect(hoursOf(edition1('98 228/28', [1], [9, 0, 0]))).toEqual([6, 9]);
    expect(hoursOf(edition1('98 128/123', [1], [12, 0, 0]))).toEqual([6, 12]);
    expect(hoursOf(edition1('98 228/28', [1], [8, 9, 2]))).toEqual([8, 9]);
  });
});

describe('several time ranges', () => {
  const head = [2, 22, 2, 255, 255, 255, 255, 255, 1, 0, 0, 0, 0, 103, 0, 0, 0, 0, 10, 255, 255, 255, 255, 255, 255];
  const end = [7, 234, 5, 28, 0, 0, 0];
  const range = (statistic: number, increment: number): number[] => [
    statistic,
    increment,
    1,
    0,
    0,
    0,
    12,
    255,
    0,
    0,
    0,
    0,
  ];
  const gust = (...ranges: readonly (readonly number[])[]): Uint8Array =>
    withSection(smallMessage(), 4, section4(8, [...head, ...end, ranges.length, 0, 0, 0, 0, ...ranges.flat()]));

  it('the highest of highest values is one', () => {
    expect(meaningOf(gust(range(2, 2)))).toBe('gust: highest of the interval, maximum');
    expect(hoursOf(gust(range(2, 2), range(2, 2)))).toEqual([0, 12]);
  });

  it('the highest of means is none; nor is one over several forecasts', () => {
    expect(meaningOf(gust(range(2, 2), range(0, 2)))).toBe('nothing');
    expect(meaningOf(gust(range(2, 1)))).toBe('nothing');
    expect(meaningOf(gust(range(2, 2), range(2, 1)))).toBe('nothing');
  });
});
