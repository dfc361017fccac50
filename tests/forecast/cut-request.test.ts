/** What a cut keeps of steps, members, quantities and grid points, and what it refuses. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  buildForecast,
  cutForecast,
  type CutRequest,
  matchField,
  seriesAt,
  smallestCut,
} from '../../lib/forecast/index.ts';
import { positionAt, scanGrib, frameOfGrid } from '../../lib/grib/index.ts';
import { greatCirclePoint } from '../../lib/geo/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { builtOf, compared, cutOf, differencesAt, goldenFile, refusalOf, sampleFile } from './cut-samples.ts';
import { atH, fileOf, message, wind } from './sample-fields.ts';

const all: CutRequest = {
  area: { kind: 'box', box: { southWest: { lat: -36, lon: 178 }, northEast: { lat: -33, lon: -178 } } },
};
const file = (...messages: readonly Uint8Array[]) => [{ name: 'sample.grib2', bytes: fileOf(...messages) }];

/** Steps of the fields of a cut: hours from the base, of one quantity. */
function stepsOf(bytes: Uint8Array, quantity: string): string[] {
  return scanGrib(bytes, 'cut').fields.flatMap((field) => {
    const match = matchField(field);
    if (match === null || match.row.quantity !== quantity || match.row.part === 'v') return [];
    const [startH, endH] = [match.startEpochMs, match.endEpochMs].map((epochMs) => (epochMs - atH(0)) / 3_600_000);
    return [startH === endH ? String(endH) : `${startH}-${endH}`];
  });
}

describe('steps of a cut', () => {
  const hourly = Array.from({ length: 13 }, (_, h) => h).flatMap((h) => wind(h, 5 + h, 0));

  it.each([
    [3, ['0', '3', '6', '9', '12']],
    [5, ['0', '5', '10', '12']],
    [12, ['0', '12']],
  ])('hourly wind, every %d h: multiples of it, and the last', (everyH, steps) => {
    expect(stepsOf(cutOf(file(...hourly), { ...all, everyH }).bytes, 'wind')).toEqual(steps);
  });

  it('hourly, then three-hourly wind, every 2 h: none farther apart than it has to be', () => {
    const messages = [0, 1, 2, 3, 4, 7, 10].flatMap((h) => wind(h, h, 0));
    expect(stepsOf(cutOf(file(...messages), { ...all, everyH: 2 }).bytes, 'wind')).toEqual(['0', '2', '4', '7', '10']);
  });

  it('from 4:30 to 7:30: the hours before, between and after', () => {
    const cut = cutOf(file(...hourly), { ...all, fromEpochMs: atH(4.5), toEpochMs: atH(7.5) });
    expect(stepsOf(cut.bytes, 'wind')).toEqual(['4', '5', '6', '7', '8']);
  });

  const gusts = [1, 2, 3, 4, 5, 6].map((h) => message({ kind: 'gust', stepsH: [h - 1, h], value: 10 + ((h * 7) % 5) }));

  it('gusts of every hour, every 3 h: the highest of three hours, over three hours', () => {
    const { bytes } = cutOf(file(...hourly, ...gusts), { ...all, everyH: 3 });
    expect(stepsOf(bytes, 'gust')).toEqual(['0-3', '3-6']);
    const forecast = builtOf({ bytes });
    const [first] = seriesAt(forecast, {
      position: { lat: -34, lon: 180 },
      fromEpochMs: atH(0.5),
      toEpochMs: atH(0.5),
      everyMin: 60,
    });
    // 10 + 2, 10 + 4 and 10 + 1 m/s; 1 m/s is 1.9438 kn.
    expect(first?.readings.find(({ key }) => key === 'gustKn')?.control).toBeCloseTo(14 * 1.943844, 1);
  });

  it('rain in sums of an hour each, every 3 h: sums of three hours', () => {
    const rain = [1, 2, 3, 4, 5, 6].map((h) =>
      message({ kind: 'rainSum', stepsH: [h - 1, h], statistic: 'accumulation', value: h }),
    );
    const { bytes } = cutOf(file(...rain), { ...all, everyH: 3 });
    expect(stepsOf(bytes, 'rain')).toEqual(['0-3', '3-6']);
    const forecast = buildForecast([{ name: 'cut', bytes }]);
    if (!forecast.ok) throw new Error('not built');
    const rows = seriesAt(forecast.value, {
      position: { lat: -34, lon: 180 },
      fromEpochMs: atH(1),
      toEpochMs: atH(4),
      everyMin: 180,
    });
    // 1 + 2 + 3 mm and 4 + 5 + 6 mm in 3 h each.
    expect(rows.map(({ readings }) => readings[0]?.control?.toFixed(3))).toEqual(['2.000', '5.000']);
  });

  it('mean rates of an hour, every 2 h: their mean', () => {
    const rain = [1, 2].map((h) =>
      message({ kind: 'rainRateOrSum', stepsH: [h - 1, h], statistic: 'average', value: h / 3600, decimals: 7 }),
    );
    const forecast = builtOf(cutOf(file(...rain), { ...all, everyH: 2 }));
    const [row] = seriesAt(forecast, {
      position: { lat: -34, lon: 180 },
      fromEpochMs: atH(1),
      toEpochMs: atH(1),
      everyMin: 60,
    });
    expect(row?.readings[0]?.control).toBeCloseTo(1.5, 1);
  });

  it('rain in sums from the start, from 7 h on: the sum before is kept, so that rates are those of the files', () => {
    const rain = [3, 6, 9, 12].map((h) =>
      message({ kind: 'rainSum', stepsH: [0, h], statistic: 'accumulation', value: h * h }),
    );
    const request = { ...all, fromEpochMs: atH(7), toEpochMs: atH(11) };
    expect(stepsOf(cutOf(file(...rain), request).bytes, 'rain')).toEqual(['0-6', '0-9', '0-12']);
    const { differing, comparedCount } = differencesAt(compared(file(...rain), request), {
      position: { lat: -34, lon: 180 },
      fromEpochMs: atH(7),
      toEpochMs: atH(11),
      everyMin: 60,
    });
    expect([differing, comparedCount]).toEqual([[], 5]);
  });

  it('gusts with an hour missing between them: left as they are', () => {
    const { bytes } = cutOf(file(...gusts.filter((_, i) => i !== 1)), { ...all, everyH: 3 });
    expect(stepsOf(bytes, 'gust')).toEqual(['0-1', '2-3', '3-6']);
  });
});

describe('members and quantities of a cut', () => {
  const memberIds = (request: Partial<CutRequest>): readonly string[] =>
    builtOf(cutOf([sampleFile(0)], { ...all, ...request })).memberIds;

  it('every second member: the first and the third; the control always', () => {
    const cut = cutOf([sampleFile(0)], { ...all, members: { everyCount: 2 } });
    expect(builtOf(cut)).toMatchObject({ memberIds: ['member-01', 'member-03'], hasControl: true });
    expect(cut.summary.leftOut.join()).toContain('Members left out: 1 of 3');
    expect(scanGrib(cut.bytes, 'cut').fields.at(-1)?.ensemble).toMatchObject({ memberCount: 3 });
  });

  it('control only: no member', () => {
    expect(memberIds({ members: 'control' })).toEqual([]);
  });

  it('wind and sea: nothing else, and what is left out is said', () => {
    const cut = cutOf([sampleFile(0)], { ...all, quantities: ['seaHeight', 'wind'] });
    expect(builtOf(cut).held).toEqual(['wind', 'seaHeight']);
    expect(cut.summary.leftOut.join()).toContain('Quantities left out: gust, pressure at sea level, rain');
  });

  it('humidity from dew points: the air temperatures it needs come with it', () => {
    const messages = [0, 1, 2, 3].flatMap((h) => [
      message({ kind: 'air', stepsH: [h], value: 290 }),
      ...(h % 2 === 1 ? [message({ kind: 'dewPoint', stepsH: [h], value: 288 })] : []),
    ]);
    const cut = cutOf(file(...messages), { ...all, quantities: ['humidity'], everyH: 2 });
    expect(builtOf(cut).held).toEqual(['air', 'humidity']);
    expect(cut.summary.leftOut.join()).toContain('Kept for the humidity');
  });

  it('edition 1: each field of the cut is read as the same quantity', () => {
    const cut = cutOf([goldenFile('grib/files/gdaswave_cut.grib1')], {
      area: { kind: 'box', box: { southWest: { lat: 30, lon: -130 }, northEast: { lat: 35, lon: -125 } } },
    });
    expect(cut.summary.kept.map(({ quantity, fieldCount }) => [quantity, fieldCount])).toEqual([
      ['wind', 2],
      ['seaHeight', 1],
    ]);
    expect(builtOf(cut).held).toEqual(['wind', 'seaHeight']);
  });
});

describe('grids of a cut', () => {
  it('every second row and column: each value where it was', () => {
    const cut = cutOf([sampleFile(0)], { ...all, everyPointCount: 2, quantities: ['wind'] });
    const grid = scanGrib(cut.bytes, 'cut').fields[0]?.grid;
    expect(grid).toMatchObject({ iIncrementDeg: 1, jIncrementDeg: 1 });
    if (grid === undefined || grid.kind === 'unsupported') throw new Error('no grid');
    const frame = frameOfGrid(grid);
    const of = compared([sampleFile(0)], { ...all, everyPointCount: 2, quantities: ['wind'] });
    for (const rowIndex of [1, 2, 3]) {
      const position = positionAt(frame, { columnIndex: 2, rowIndex });
      expect(differencesAt(of, { position, fromEpochMs: atH(0), toEpochMs: atH(12), everyMin: 180 }).differing).toEqual(
        [],
      );
    }
    expect(cut.summary.leftOut.join()).toContain('every 2. row and column');
  });
});

describe('cutForecast refuses', () => {
  it('an unknown quantity, with the one that was meant', () => {
    const cut = cutForecast([sampleFile(0)], { ...all, quantities: ['wind', 'gusts'] });
    expect(cut).toMatchObject({
      ok: false,
      problems: [{ code: 'cut.quantity-unknown', remedy: 'Did you mean "gust"?' }],
    });
  });

  it('everything that is wrong at once', () => {
    const request: CutRequest = {
      area: { kind: 'corridor', places: [], marginNm: 1000 },
      fromEpochMs: atH(3),
      toEpochMs: atH(1),
      everyH: 24,
      everyPointCount: 0,
      members: { everyCount: 1.5 },
      quantities: ['gusts'],
    };
    expect(refusalOf([sampleFile(0)], request)).toEqual([
      ...Array.from({ length: 6 }, () => 'cut.request-wrong'),
      'cut.quantity-unknown',
    ]);
  });

  it.each<[string, Partial<CutRequest>, string]>([
    [
      'a box off the grid',
      { area: { kind: 'box', box: { southWest: { lat: 10, lon: 10 }, northEast: { lat: 20, lon: 20 } } } },
      'cut.area-outside',
    ],
    [
      'a way off the grid',
      { area: { kind: 'corridor', places: [{ lat: 50, lon: -20 }], marginNm: 60 } },
      'cut.area-outside',
    ],
    ['hours after the last', { fromEpochMs: atH(13) }, 'cut.nothing-left'],
    ['hours before the first', { toEpochMs: atH(-1) }, 'cut.nothing-left'],
    ['a quantity that is not there', { quantities: ['current'] }, 'cut.nothing-left'],
    [
      'a box upside down',
      { area: { kind: 'box', box: { southWest: { lat: 5, lon: 10 }, northEast: { lat: 0, lon: 20 } } } },
      'cut.request-wrong',
    ],
  ])('%s', (_, changes, code) => {
    expect(refusalOf([sampleFile(0)], { ...all, ...changes })).toEqual([code]);
  });

  it('members without a control, control only', () => {
    expect(refusalOf(file(...wind(0, 1, 2, { member: 1 })), { ...all, members: 'control' })).toEqual([
      'cut.nothing-left',
    ]);
  });

  it('no file, and a file that is none', () => {
    expect(refusalOf([], all)).toEqual(['cut.nothing-left']);
    expect(refusalOf([{ name: 'text', bytes: new TextEncoder().encode('no weather here') }], all)[0]).toBe(
      'cut.nothing-left',
    );
  });
});

describe('smallestCut', () => {
  const demo = {
    name: 'demo-control.grib2',
    bytes: new Uint8Array(readFileSync(new URL('../../sample-forecasts/demo-control.grib2', import.meta.url))),
  };
  const startEpochMs = Date.UTC(2026, 4, 27, 18);
  /** 6 kn along the parallel of 36.5 S, over the date line. */
  const placeAtH = (h: number) => ({ lat: -36.5, lon: 178 + h / 8 > 180 ? h / 8 - 182 : 178 + h / 8 });
  const places = Array.from({ length: 17 }, (_, k) => ({
    ...placeAtH(3 * k),
    epochMs: startEpochMs + 3 * k * MS_PER_H,
  }));
  const question = { places, fromEpochMs: startEpochMs, toEpochMs: startEpochMs + 48 * MS_PER_H };

  it('48 h of the demo: shorter than the corridor, and the same weather where the boat is at each hour', () => {
    const cut = smallestCut([demo], question);
    if (!cut.ok) throw new Error(JSON.stringify(cut.problems));
    const corridor = cutOf([demo], {
      area: { kind: 'corridor', places, marginNm: 60 },
      fromEpochMs: question.fromEpochMs,
      toEpochMs: question.toEpochMs,
      everyH: 3,
      quantities: ['wind', 'gust', 'seaHeight', 'wavePeriod', 'pressure', 'rain'],
      precision: 'coarse',
    });
    expect(cut.value.bytes.length).toBeLessThan(0.9 * corridor.bytes.length);
    const errors = new Map(
      cut.value.summary.kept.map(({ quantity, greatestError }) => [quantity, greatestError.value]),
    );
    const around = { southWest: { lat: -40, lon: 176 }, northEast: { lat: -33, lon: -172 } };
    const whole = buildForecast([demo], { around });
    if (!whole.ok) throw new Error('not built');
    const of = { whole: whole.value, cut: builtOf(cut.value), errors };
    let allCount = 0;
    for (let h = 0; h <= 48; h += 1.5) {
      const fromEpochMs = startEpochMs + h * MS_PER_H;
      const late = greatCirclePoint(placeAtH(h), { courseTowardDegTrue: 37 * h, distanceNm: h % 2 === 0 ? 0 : 59 });
      const at = { position: late, fromEpochMs, toEpochMs: fromEpochMs, everyMin: 60 };
      const { differing, comparedCount } = differencesAt(of, at);
      expect(differing).toEqual([]);
      allCount += comparedCount;
    }
    expect(allCount).toBeGreaterThan(150);
  });

  it('a track that goes back in time: refused', () => {
    const cut = smallestCut([sampleFile(64)], { ...question, places: places.toReversed() });
    expect(cut).toMatchObject({ ok: false, problems: [{ code: 'cut.request-wrong' }] });
  });
});
