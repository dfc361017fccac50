/** Cuts of drawn boxes and corridors read like the files they were cut from, within the precision they state. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Box, type CutArea, type CutRequest, sampleScenarios } from '../../lib/forecast/index.ts';
import { greatCircleFraction, greatCirclePoint, type Position } from '../../lib/geo/index.ts';
import { scanGrib } from '../../lib/grib/index.ts';
import { builtOf, compared, cutOf, differencesAt, type File, goldenFile, sampleFile } from './cut-samples.ts';
import { atH, coursePoints, setOf } from './sample-fields.ts';

/** Evenly drawn; numbers of double precision would be drawn near 0. */
const share = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

interface World {
  readonly file: File;
  readonly area: Box;
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
}

/**
 * Files that cover: rows from the north and from the south, across the date line, all longitudes with a first column at
 * Greenwich (1° and 2.5°; NOAA/NWS, public domain), edition 1 with land missing (the same), several fields in one message.
 */
const WORLDS: readonly World[] = [
  ...([0, 64] as const).map((mode) => ({
    file: sampleFile(mode),
    area: { southWest: { lat: -42, lon: 172 }, northEast: { lat: -30, lon: 187 } },
    fromEpochMs: atH(0),
    toEpochMs: atH(12),
  })),
  {
    file: goldenFile('forecast/gfs_wind10m_20161120_0h_6h.grib2'),
    area: { southWest: { lat: -89, lon: -200 }, northEast: { lat: 89, lon: 200 } },
    fromEpochMs: Date.UTC(2016, 10, 20),
    toEpochMs: Date.UTC(2016, 10, 20, 6),
  },
  {
    file: goldenFile('grib/files/gfs_2p5_cut.grib2'),
    area: { southWest: { lat: -88, lon: -200 }, northEast: { lat: 88, lon: 200 } },
    fromEpochMs: Date.UTC(2011, 9, 11),
    toEpochMs: Date.UTC(2011, 9, 11),
  },
  {
    file: goldenFile('grib/files/gdaswave_cut.grib1'),
    area: { southWest: { lat: 26, lon: 223 }, northEast: { lat: 46, lon: 240 } },
    fromEpochMs: Date.UTC(2021, 10, 30),
    toEpochMs: Date.UTC(2021, 10, 30),
  },
];

const wrapped = (lon: number): number => ((((lon + 180) % 360) + 360) % 360) - 180;

const inside = ({ southWest, northEast }: Box, [y, x]: readonly [number, number]): Position => ({
  lat: southWest.lat + y * (northEast.lat - southWest.lat),
  lon: wrapped(southWest.lon + x * (northEast.lon - southWest.lon)),
});

/** A box within another, of at most a third of its width. */
function boxWithin(
  area: Box,
  drawn: { readonly corner: readonly [number, number]; readonly size: readonly [number, number] },
): Box {
  const [height, width] = [area.northEast.lat - area.southWest.lat, area.northEast.lon - area.southWest.lon];
  const [y, x] = [(drawn.corner[0] * 2) / 3, (drawn.corner[1] * 2) / 3];
  const [tall, wide] = [drawn.size[0] / 3, drawn.size[1] / 3];
  const at = (v: number, h: number): Position => ({
    lat: area.southWest.lat + v * height,
    lon: area.southWest.lon + h * width,
  });
  return { southWest: at(y, x), northEast: at(y + tall, x + wide) };
}

const pair = fc.tuple(share, share);

describe('cutForecast, box', () => {
  it.each(WORLDS.map((world, i) => [world.file.name, world, i] as const))(
    '%s, drawn boxes: the same weather at every place inside, within the stated error',
    (_, { file, area, fromEpochMs, toEpochMs }, i) => {
      let allCount = 0;
      fc.assert(
        fc.property(
          fc.record({ corner: pair, size: pair, places: fc.array(pair, { minLength: 4, maxLength: 4 }) }),
          fc.constantFrom('fine', 'coarse'),
          fc.constantFrom(0, 1),
          (drawn, precision, spareCellCount) => {
            const box = boxWithin(area, drawn);
            const of = compared([file], { area: { kind: 'box', box }, precision, spareCellCount });
            for (const place of [...drawn.places, [0, 0], [1, 1]] as const) {
              const position = inside(box, [place[0] ?? 0, place[1] ?? 0]);
              const { differing, comparedCount } = differencesAt(of, {
                position,
                fromEpochMs,
                toEpochMs,
                everyMin: 50,
              });
              expect(differing).toEqual([]);
              allCount += comparedCount;
            }
          },
        ),
        { seed: 20_260_527 + i, numRuns: 8 },
      );
      expect(allCount).toBeGreaterThan(40);
    },
  );

  it('across the date line: one grid, its first column west of it', () => {
    const box = { southWest: { lat: -36, lon: 178 }, northEast: { lat: -34, lon: -178 } };
    const { bytes } = cutOf([sampleFile(0)], { area: { kind: 'box', box } });
    // Ten cells across and four up, and a cell to each side.
    expect(scanGrib(bytes, 'cut').fields[0]?.grid).toMatchObject({
      ni: 11,
      nj: 7,
      first: { lat: -33.5, lon: 177.5 },
      last: { lat: -36.5, lon: 182.5 },
      scanningMode: 0,
    });
  });

  it('a box wider than the grid: all of it that lies inside, and said', () => {
    const box = { southWest: { lat: -60, lon: 176 }, northEast: { lat: -34, lon: -150 } };
    const { bytes, summary } = cutOf([sampleFile(64)], { area: { kind: 'box', box } });
    expect(scanGrib(bytes, 'cut').fields[0]?.grid).toMatchObject({
      first: { lat: -42, lon: 175.5 },
      last: { lat: -33.5, lon: 187 },
    });
    expect(summary.leftOut.join()).toContain('The area reaches beyond the grid of: wind at 10 m');
  });

  it('a cut of a cut: the same octets', () => {
    const request: CutRequest = {
      area: { kind: 'box', box: { southWest: { lat: -36, lon: 178 }, northEast: { lat: -34, lon: -178 } } },
    };
    const once = cutOf([sampleFile(0)], request);
    expect(cutOf([{ name: 'cut', bytes: once.bytes }], request).bytes).toEqual(once.bytes);
  });
});

describe('cutForecast, corridor', () => {
  const way = [
    { lat: -40, lon: 174 },
    { lat: -35.2, lon: 179.5 },
    { lat: -32, lon: -175 },
  ];

  it.each([0, 30, 60])('%d nm: the same weather at every place within that distance of the way', (marginNm) => {
    const of = compared([sampleFile(64)], { area: { kind: 'corridor', places: way, marginNm } });
    let allCount = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(0, 1),
        share,
        share,
        fc.integer({ min: 0, max: 359 }),
        (leg, along, off, courseTowardDegTrue) => {
          const [from, to] = [way[leg], way[leg + 1]];
          if (from === undefined || to === undefined) throw new Error('no leg');
          const foot = greatCircleFraction({ from, to }, along);
          const position = greatCirclePoint(foot, { courseTowardDegTrue, distanceNm: off * marginNm });
          const { differing, comparedCount } = differencesAt(of, {
            position,
            fromEpochMs: atH(0),
            toEpochMs: atH(12),
            everyMin: 90,
          });
          expect(differing).toEqual([]);
          allCount += comparedCount;
        },
      ),
      { seed: 7, numRuns: 60 },
    );
    expect(allCount).toBeGreaterThan(5000);
  });

  it('points far from the way are missing, and the file is the shorter for it', () => {
    const area: CutArea = { kind: 'corridor', places: way, marginNm: 30 };
    const [masked, kept] = [cutOf([sampleFile(64)], { area }), cutOf([sampleFile(64)], { area, outside: 'kept' })];
    expect(masked.bytes.length).toBeLessThan(0.8 * kept.bytes.length);
    const far = { position: { lat: -32, lon: 174 }, fromEpochMs: atH(0), toEpochMs: atH(0), everyMin: 60 };
    const errors = new Map([['wind', 0.1]] as const);
    expect(differencesAt({ whole: builtOf(kept), cut: builtOf(masked), errors }, far).differing).toHaveLength(2);
  });

  it('every scenario of a plan along the way: wind within the error of both components, sea and gust within theirs', () => {
    const { whole, cut, errors } = compared([sampleFile(64)], {
      area: { kind: 'corridor', places: way, marginNm: 60 },
    });
    const course = coursePoints(
      [0, -40, 174],
      [3.5, -38.1, 176.3],
      [6.2, -35.3, 179.4],
      [9.9, -33.4, -177.6],
      [12, -32, -175],
    );
    const [before, after] = [sampleScenarios(setOf(whole), course), sampleScenarios(setOf(cut), course)];
    const keys = ['windKn', 'gustKn', 'seaHeightM'] as const;
    const worst = keys.map((key) =>
      Math.max(...Array.from(before[key], (value, i) => Math.abs(value - (after[key][i] ?? NaN)))),
    );
    expect(before.scenarioCount).toBe(after.scenarioCount);
    expect(before.scenarioCount).toBeGreaterThan(2);
    expect(worst[0]).toBeLessThanOrEqual(Math.SQRT2 * (errors.get('wind') ?? 0) + 1e-3);
    expect(worst[1]).toBeLessThanOrEqual((errors.get('gust') ?? 0) + 1e-3);
    expect(worst[2]).toBeLessThanOrEqual((errors.get('seaHeight') ?? 0) + 1e-3);
    expect(worst.every((value) => value > 0)).toBe(true);
  });
});
