/** Cuts of grids that are no regular ones: refused, or put on a regular grid of like spacing where that is asked for. */
import { describe, expect, it } from 'vitest';
import type { CutRequest, Forecast } from '../../lib/forecast/index.ts';
import { boxAround, sampleReference } from '../../lib/forecast/index.ts';
import { eastAngleDeg, frameOfGrid, gridPositions, positionAt, scanGrib } from '../../lib/grib/index.ts';
import { uvFromWind } from '../../lib/units/index.ts';
import { gridMessage, gridOctetsOf, placedGrid, withGrid } from '../grib/grid-messages.ts';
import { altered } from '../grib/sample-message.ts';
import { builtOf, cutOf, refusalOf } from './cut-samples.ts';
import { coursePoints, fileOf, message, setOf } from './sample-fields.ts';

type Value = (lat: number, lon: number) => number;

/** A field on the grid of a committed message of edition 2; components point along the grid. */
function onGrid(name: string, kind: 'u' | 'v' | 'seaHeight' | 'waveFrom', value: Value): Uint8Array {
  const base = gridMessage(name);
  const { lats, lons } = gridPositions(placedGrid(base));
  const values = Array.from(lats, (lat, i) => value(lat, lons[i] ?? NaN));
  const line = {
    ni: values.length,
    nj: 1,
    first: { lat: 0, lon: 0 },
    iIncrementDeg: 1e-4,
    jIncrementDeg: 0,
    scanningMode: 64,
  } as const;
  const plain = message({
    kind,
    stepsH: [0],
    grid: line,
    value: (_, lon) => values[Math.round(lon * 1e4)] ?? NaN,
    decimals: 4,
  });
  const octets = gridOctetsOf(base);
  // Resolution and component flags: octet 55 where latitudes are coded in a basic angle, 47 on maps; bit 5: along the grid.
  const flagOctet = octets.templateNumber <= 1 || octets.templateNumber === 40 ? 55 : 47;
  return altered(withGrid(plain, octets), { sectionNumber: 3, octet: flagOctet }, [8]);
}

const GRIDS = ['lambert-secant', 'polar-south', 'mercator-wgs84', 'rotated', 'gaussian-part'];

/** The middle half of a grid, in columns and rows. */
function middleOf(name: string) {
  const frame = frameOfGrid(placedGrid(gridMessage(name)));
  const places = [0.35, 0.5, 0.65].flatMap((x) =>
    [0.35, 0.5, 0.65].map((y) =>
      positionAt(frame, { columnIndex: x * (frame.columnCount - 1), rowIndex: y * (frame.rowCount - 1) }),
    ),
  );
  const box = boxAround(places);
  if (box === null) throw new Error('places have a box');
  return { frame, places, box };
}

const request = (name: string, more: Partial<CutRequest> = {}): CutRequest => ({
  area: { kind: 'box', box: middleOf(name).box },
  spareCellCount: 0,
  ...more,
});

const weatherAt = (forecast: Forecast, { lat, lon }: { lat: number; lon: number }) =>
  sampleReference(setOf(forecast), coursePoints([0, lat, lon]));

describe('cut of a grid that is no regular one', () => {
  it.each(GRIDS)('%s: refused by its name, with what can be done', (name) => {
    const file = { name, bytes: onGrid(name, 'seaHeight', () => 2) };
    expect(refusalOf([file], request(name))).toEqual(['cut.grid-not-regular']);
  });

  it.each(GRIDS)('%s, resampled: a smooth sea within a few hundredths of a metre', (name) => {
    const smooth: Value = (lat, lon) => 3 + Math.sin(lat / 12) + 0.5 * Math.cos(lon / 15);
    const file = { name, bytes: onGrid(name, 'seaHeight', smooth) };
    const cut = cutOf([file], request(name, { resample: true }));
    expect(scanGrib(cut.bytes, 'cut').fields[0]?.grid.kind).toBe('regular-latlon');
    expect(cut.summary.leftOut.join()).toContain('Interpolated to a regular grid');
    const [whole, ours] = [builtOf(file), builtOf(cut)];
    for (const place of middleOf(name).places) {
      const [before, after] = [
        weatherAt(whole, place).seaHeightM[0] ?? NaN,
        weatherAt(ours, place).seaHeightM[0] ?? NaN,
      ];
      // Half a step of rounding, and what two bilinear interpolations of a bend of a metre in 12° make of each other.
      expect(Math.abs(before - after)).toBeLessThan(0.05 + 0.06);
    }
  });

  it.each(['lambert-secant', 'polar-south', 'rotated'])(
    '%s, resampled: a wind from the north along the grid becomes a true one',
    (name) => {
      const { frame, places } = middleOf(name);
      // What a true wind of 10 m/s from 20° is along the columns and rows at each place.
      const { u, v } = uvFromWind({ speed: 10, fromDegTrue: 20 });
      const turnRad = (lat: number, lon: number): number => (eastAngleDeg(frame, { lat, lon }) * Math.PI) / 180;
      const x: Value = (lat, lon) => u * Math.cos(turnRad(lat, lon)) + v * Math.sin(turnRad(lat, lon));
      const y: Value = (lat, lon) => -u * Math.sin(turnRad(lat, lon)) + v * Math.cos(turnRad(lat, lon));
      const file = { name, bytes: fileOf(onGrid(name, 'u', x), onGrid(name, 'v', y)) };
      const ours = builtOf(cutOf([file], request(name, { resample: true })));
      for (const place of places) {
        const wind = weatherAt(ours, place);
        expect(Math.abs((wind.windKn[0] ?? NaN) - 19.438)).toBeLessThan(0.25);
        expect(Math.abs((wind.windFromDegTrue[0] ?? NaN) - 20)).toBeLessThan(1);
      }
    },
  );

  it('directions about north, resampled: north, not south', () => {
    const name = 'lambert-secant';
    const about = middleOf(name).box.southWest.lon;
    const file = { name, bytes: onGrid(name, 'waveFrom', (_, lon) => (lon > about + 2 ? 358 : 2)) };
    const ours = builtOf(cutOf([file], request(name, { resample: true })));
    for (const place of middleOf(name).places) {
      const fromDegTrue = weatherAt(ours, place).waveFromDegTrue[0] ?? NaN;
      expect(Math.min(fromDegTrue, 360 - fromDegTrue)).toBeLessThan(4);
    }
  });
});
