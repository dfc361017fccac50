import { describe, expect, it } from 'vitest';
import { landOfTheEarth } from '../../../server/coastline.ts';
import { type CoverageMap, coverageMap } from '../../../server/presenters/coverage/coverage-map.ts';
import { forecastOf, type Field, message, wind } from '../../forecast/sample-fields.ts';
import { covered, times } from './covered-way.ts';

const winds = [0, 6, 12, 18, 24].flatMap((stepH) => wind(stepH, 5, 0));
const land = landOfTheEarth();

function mapOf(messages: readonly Uint8Array[], toLon: number): CoverageMap {
  const data = covered({
    forecast: forecastOf(...messages),
    from: { lat: -34.5, lon: 179 },
    to: { lat: -34.5, lon: toLon },
    hours: 24,
  });
  const map = coverageMap({ data, land, track: null, times, shipTimeOffsetMin: 0 });
  if (map === null) throw new Error('no map');
  return map;
}

/** Numbers of a path, as points. */
const pointsOf = (path: string): (readonly [number, number])[] =>
  [...path.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

describe('coverageMap', () => {
  it('an area: its four corners by the Mercator projection, as far apart as its degrees', () => {
    const { desk } = mapOf(winds, 181);
    const points = pointsOf(desk.areas[0] ?? '');
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const [width, height] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
    // 4° of longitude; 3° of latitude from 36 S to 33 S. Snyder, PP 1395, equation 7-2: y = R ln tan(45° + φ/2).
    const parts = (lat: number): number => Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360));
    expect(height / width).toBeCloseTo((parts(36) - parts(33)) / ((4 * Math.PI) / 180), 2);
    expect(desk.now.x).toBeGreaterThan(Math.min(...xs));
    expect(desk.now.x).toBeLessThan(Math.max(...xs));
  });

  it('the same area for all: one row without a letter, with its spacing', () => {
    const { areas } = mapOf(winds, 181);
    expect(areas.map(({ letter }) => letter)).toEqual(['']);
    expect(areas[0]?.text).toMatch(
      /^wind at 10 m: 36°00'S to 33°00'S, from 178°00'E eastward to 178°00'W; a value every 1° \(60′\)$/,
    );
  });

  it('two areas: a letter each, on the chart and in the list', () => {
    const grid: Field['grid'] = {
      ni: 3,
      nj: 3,
      first: { lat: -36, lon: 178 },
      iIncrementDeg: 1,
      jIncrementDeg: 1,
      scanningMode: 64,
    };
    const sea = [0, 24].map((h) => message({ kind: 'visibility', stepsH: [h], value: 9000, grid }));
    const { areas, desk } = mapOf([...winds, ...sea], 181);
    expect(areas.map(({ letter }) => letter)).toEqual(['A', 'B']);
    expect(desk.labels.map(({ text }) => text)).toEqual(expect.arrayContaining(['A', 'B']));
  });

  it('a way that leaves the area: the place is marked, the rest drawn apart, and both are told', () => {
    const { desk, ends } = mapOf(winds, 185);
    expect([desk.way.length, desk.silentWay.length, desk.ends.length]).toEqual([1, 1, 1]);
    expect(ends).toEqual([
      "Wed 27 May 12:00, at 34°30'S 178°00'W: she leaves the area of wind at 10 m, or comes to its land.",
    ]);
    const [edge] = desk.ends;
    const right = Math.max(...pointsOf(desk.areas[0] ?? '').map(([x]) => x));
    expect(Math.abs((edge?.x ?? 0) - right)).toBeLessThan(1);
  });

  it('a quantity that is known again later breaks off; one that is not ends', () => {
    const visibility = [0, 3, 21, 22].map((h) => message({ kind: 'visibility', stepsH: [h], value: 9000 }));
    expect(mapOf([...winds, ...visibility], 181).ends).toEqual([
      expect.stringMatching(/^Wed 27 May 03:00, at .*: visibility breaks off\.$/),
      expect.stringMatching(/^Wed 27 May 22:00, at .*: visibility ends\.$/),
    ]);
  });

  it('a way that stays inside: nothing drawn apart, no end', () => {
    const { desk, ends } = mapOf(winds, 181);
    expect([desk.silentWay, desk.ends, ends]).toEqual([[], [], []]);
  });
});
