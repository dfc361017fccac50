import { describe, expect, it } from 'vitest';
import { knFromMps } from '../../lib/units/index.ts';
import {
  alphaRatio,
  CONFIDENCE_SD,
  sigmaDirectionDeg,
  sigmaSeaHeightM,
  sigmaWindKn,
  standardSeaAlphaRatio,
  standardWindAlphaRatio,
} from '../../lib/weather/index.ts';

/** DNV-OS-H101 (2011), Sec. 4, Table 4-1 (public copy of the text): rows 12, 24, 36, 48, 72 h; columns 1, 2, 4, 6 m. */
const TABLE_4_1 = [
  [12, 0.65, 0.76, 0.79, 0.8],
  [24, 0.63, 0.73, 0.76, 0.78],
  [36, 0.62, 0.71, 0.73, 0.76],
  [48, 0.6, 0.68, 0.71, 0.74],
  [72, 0.55, 0.63, 0.68, 0.72],
] as const;

describe('standardSeaAlphaRatio', () => {
  it.each(TABLE_4_1)(
    'Table 4-1, %i h: the four columns as printed, the last for higher seas',
    (periodH, ...columns) => {
      const heightsM = [1, 2, 4, 6];
      expect(heightsM.map((limitM) => standardSeaAlphaRatio({ limitM, periodH }))).toEqual(columns);
      expect(standardSeaAlphaRatio({ limitM: 9, periodH })).toBe(columns[3]);
    },
  );

  it('a period between two rows: the longer row', () => {
    expect(standardSeaAlphaRatio({ limitM: 2, periodH: 12.5 })).toBe(0.73);
  });

  it('below 1 m, beyond 72 h: the standard has no answer', () => {
    expect(standardSeaAlphaRatio({ limitM: 0.9, periodH: 12 })).toBeNull();
    expect(standardSeaAlphaRatio({ limitM: 2, periodH: 73 })).toBeNull();
    expect(standardSeaAlphaRatio({ limitM: NaN, periodH: 12 })).toBeNull();
    expect(standardWindAlphaRatio({ periodH: 73, belowHalfTenYearWind: true })).toBeNull();
  });

  it('better forecasts: never a stricter factor, in any cell', () => {
    for (const [periodH] of TABLE_4_1) {
      for (const limitM of [1, 1.5, 2, 3, 4, 5, 6]) {
        const alphas = (['4-1', '4-2', '4-3'] as const).map(
          (table) => standardSeaAlphaRatio({ limitM, periodH, table }) ?? NaN,
        );
        expect(alphas).toEqual(alphas.toSorted((one, other) => one - other));
      }
    }
  });
});

describe('alphaRatio', () => {
  it('the default error of the sea at 90 %: Table 4-1 of the standard within 0.035 in every cell', () => {
    for (const [periodH, ...columns] of TABLE_4_1) {
      for (const [index, limitM] of [1, 2, 4, 6].entries()) {
        const errorOverLimitRatio = sigmaSeaHeightM({ seaHeightM: limitM, leadH: periodH }) / limitM;
        expect(Math.abs(alphaRatio({ errorOverLimitRatio }) - (columns[index] ?? NaN))).toBeLessThan(0.036);
      }
    }
  });

  it('the default error of the wind, 20 kn limit at 24, 48, 72 h: within 0.062 of Table 4-6 (0.80, 0.75, 0.70)', () => {
    for (const [periodH, printed] of [
      [24, 0.8],
      [48, 0.75],
      [72, 0.7],
    ] as const) {
      expect(Math.abs(alphaRatio({ errorOverLimitRatio: sigmaWindKn(periodH) / 20 }) - printed)).toBeLessThan(0.062);
    }
  });

  it('an error larger than the limit: 0, not a negative wind', () => {
    expect(alphaRatio({ errorOverLimitRatio: 1 })).toBe(0);
    expect(alphaRatio({ errorOverLimitRatio: Infinity })).toBe(0);
  });

  it('more confidence: a smaller factor', () => {
    const [p80, p90, p95] = [CONFIDENCE_SD.p80, CONFIDENCE_SD.p90, CONFIDENCE_SD.p95].map((confidenceSd) =>
      alphaRatio({ errorOverLimitRatio: 0.2, confidenceSd }),
    );
    expect(p80).toBeGreaterThan(p90 ?? NaN);
    expect(p90).toBeGreaterThan(p95 ?? NaN);
  });
});

describe('default forecast errors', () => {
  it('wind beyond nine days: saturated at 4.5 m/s', () => {
    expect(sigmaWindKn(240)).toBeCloseTo(knFromMps(4.5), 9);
    expect(sigmaWindKn(1000)).toBe(sigmaWindKn(240));
  });

  it('sea: between 0.8 and 1 of the spread of Wilcken (2012), Table 10, at 1, 2 and 4 m, 24 and 72 h', () => {
    const table10 = [
      { seaHeightM: 1, leadH: 24, sdM: 0.36 },
      { seaHeightM: 1, leadH: 72, sdM: 0.43 },
      { seaHeightM: 2, leadH: 24, sdM: 0.45 },
      { seaHeightM: 2, leadH: 72, sdM: 0.66 },
      { seaHeightM: 4, leadH: 24, sdM: 0.76 },
      { seaHeightM: 4, leadH: 72, sdM: 1.08 },
    ];
    for (const { sdM, ...sea } of table10) {
      expect(sigmaSeaHeightM(sea) / sdM).toBeGreaterThan(0.8);
      expect(sigmaSeaHeightM(sea) / sdM).toBeLessThan(1);
    }
  });

  it('direction: 17° at analysis (OSCAT validation 2012), growing', () => {
    expect(sigmaDirectionDeg(0)).toBe(17);
    expect(sigmaDirectionDeg(48)).toBe(27);
  });
});
