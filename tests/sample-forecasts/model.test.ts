import { describe, expect, it } from 'vitest';
import {
  directionGrowthSdDeg,
  seaGrowthSdM,
  timingGrowthSdH,
  windGrowthSdKn,
} from '../../scripts/sample-forecasts/error-growth.ts';
import { isLand } from '../../scripts/sample-forecasts/land.ts';
import { MEMBER_COUNT, memberErrorAt } from '../../scripts/sample-forecasts/member-errors.ts';
import { normalDraw, stratifiedTwenty, uniformDraws } from '../../scripts/sample-forecasts/random.ts';
import { worseningShare } from '../../scripts/sample-forecasts/script-at.ts';
import {
  controlWeather,
  memberWeather,
  patternPlace,
  scriptHourH,
} from '../../scripts/sample-forecasts/weather-pattern.ts';
import { scriptRows } from '../../scripts/sample-forecasts/weather-script.table.ts';
import { knFromMps, wrap360Deg } from '../../lib/units/index.ts';

const LEADS_H = [6, 24, 72, 120, 192];
const MEMBERS = Array.from({ length: MEMBER_COUNT }, (_, i) => i + 1);
const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('controlWeather', () => {
  it('boat that makes 5.8 kn along the pattern: meets every row at its own hour', () => {
    for (const row of scriptRows) {
      const weather = controlWeather({ alongNm: 5.8 * row.h, southOfStartDeg: 0 }, row.h);
      expect(Math.abs(weather.windKn - row.windKn)).toBeLessThan(1e-9);
      expect(Math.abs(weather.gustKn - Math.max(row.gustKn, row.windKn + 2))).toBeLessThan(1e-9);
      expect(Math.abs(wrap360Deg(weather.windFromDegTrue) - row.windFromDegTrue)).toBeLessThan(1e-9);
      expect(Math.abs(weather.seaHeightM - row.seaHeightM)).toBeLessThan(1e-9);
      expect(Math.abs(wrap360Deg(weather.waveFromDegTrue) - row.waveFromDegTrue)).toBeLessThan(1e-9);
      expect(Math.abs(weather.pressureHpa - row.pressureHpa)).toBeLessThan(1e-9);
    }
  });

  it('one degree south: wind and sea 4 % stronger', () => {
    const [here, south] = [0, 1].map((southOfStartDeg) => controlWeather({ alongNm: 0, southOfStartDeg }, 20));
    expect(south?.windKn).toBeCloseTo((here?.windKn ?? 0) * 1.04, 9);
    expect(south?.seaHeightM).toBeCloseTo((here?.seaHeightM ?? 0) * 1.04, 9);
  });
});

describe('patternPlace', () => {
  it('one degree of longitude east of the start: 60 nm · cos(36.3°) · sin(80°) along the pattern, over the date line too', () => {
    const stepNm = 60 * 0.80593 * 0.98481;
    expect(Math.abs(patternPlace({ lat: -36.3, lon: 179.1 }).alongNm - stepNm)).toBeLessThan(0.01);
    expect(Math.abs(patternPlace({ lat: -36.3, lon: -178.9 }).alongNm - 3 * stepNm)).toBeLessThan(0.02);
  });

  it('farther east: the same weather comes later', () => {
    const west = patternPlace({ lat: -36.3, lon: 178.1 });
    const east = patternPlace({ lat: -36.3, lon: -171.9 });
    expect(scriptHourH(east, 40)).toBeLessThan(scriptHourH(west, 40));
  });
});

describe('worseningShare', () => {
  it('middle of a rise and of a fall, and a turn between them: 1, 0, one half', () => {
    expect(worseningShare(52)).toBe(1);
    expect(worseningShare(18)).toBe(0);
    expect(worseningShare(34)).toBe(0.5);
  });
});

describe('members', () => {
  it('growth and analysis error together: the default model of wind, timing and sea', () => {
    // 1.2 m/s at the analysis and 0.5 m/s a day, at most 4.5 m/s; 1 h and 1.5 h a day; 0.25 m and 12 % + 0.17 % an hour.
    for (const leadH of LEADS_H) {
      const windMps = Math.min(4.5, Math.hypot(1.2, (0.5 * leadH) / 24));
      expect(Math.hypot(windGrowthSdKn(leadH), knFromMps(1.2))).toBeCloseTo(knFromMps(windMps), 6);
      expect(Math.hypot(timingGrowthSdH(leadH), 1)).toBeCloseTo(1 + (1.5 * leadH) / 24, 9);
      const analysisM = Math.hypot(0.25, 0.12 * 3);
      expect(Math.hypot(seaGrowthSdM({ seaHeightM: 3, leadH }), analysisM)).toBeCloseTo(
        Math.hypot(0.25, 3 * (0.12 + 0.0017 * leadH)),
        9,
      );
      expect(Math.hypot(directionGrowthSdDeg(leadH), 12)).toBeCloseTo(12 + (4 * leadH) / 24, 9);
    }
  });

  it('lead 0: every member is the control', () => {
    const place = patternPlace({ lat: -36, lon: -179 });
    for (const member of MEMBERS) {
      expect(memberWeather(place, -6, memberErrorAt(member, 0))).toEqual(controlWeather(place, -6));
    }
  });

  it('timing of the first front: mean 0 and variance 1 over the members', () => {
    const deviates = MEMBERS.map((member) => memberErrorAt(member, 24).timingDeviates);
    expect(Math.abs(meanOf(deviates))).toBeLessThan(1e-9);
    expect(Math.abs(meanOf(deviates.map((z) => z * z)) - 1)).toBeLessThan(1e-9);
  });

  it('timing deviate above 0: the front comes early', () => {
    const place = patternPlace({ lat: -36.3, lon: 178.1 });
    const error = { ...memberErrorAt(1, 66), timingDeviates: 1, worseningDeviates: 0, windKn: 0, seaDeviates: 0 };
    expect(memberWeather(place, 50, error).windKn).toBeGreaterThan(controlWeather(place, 50).windKn);
  });

  it('member beyond the twentieth: refused', () => {
    expect(() => memberErrorAt(21, 0)).toThrow('no member 21');
  });
});

describe('random draws', () => {
  it('twenty strata: each quantile lies at the middle of its twentieth of the normal distribution', () => {
    const draws = [...stratifiedTwenty(uniformDraws(1))].toSorted((a, b) => a - b);
    const scale = 1.95996398 / (draws.at(-1) ?? 0);
    for (const [i, z] of draws.entries()) expect(Math.abs(normalShare(z * scale) - (i + 0.5) / 20)).toBeLessThan(1e-7);
  });

  it('4000 normal draws: mean 0, variance 1 and 2.5 % above 1.96, within four standard errors', () => {
    const uniform = uniformDraws(3);
    const draws = Array.from({ length: 4000 }, () => normalDraw(uniform));
    expect(Math.abs(meanOf(draws))).toBeLessThan(4 / Math.sqrt(4000));
    expect(Math.abs(meanOf(draws.map((z) => z * z)) - 1)).toBeLessThan(4 * Math.sqrt(2 / 4000));
    expect(Math.abs(draws.filter((z) => z > 1.96).length / 4000 - 0.025)).toBeLessThan(0.01);
  });
});

describe('isLand', () => {
  it.each([
    ['Lake Taupo', -38.8, 175.9, true],
    ['Hamilton', -37.8, 175.3, true],
    ['Nelson lakes', -41.8, 172.8, true],
    ['East Cape, 60 nm off', -37.7, 179.8, false],
    ['Cook Strait, western entrance', -40.5, 174.2, false],
    ['middle of the track', -36, -172, false],
  ])('%s', (_, lat, lon, expected) => {
    expect(isLand({ lat, lon })).toBe(expected);
  });
});

/** Distribution function of the standard normal by Simpson's rule over its density. */
function normalShare(z: number): number {
  const n = 2000;
  const h = z / n;
  const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  const inner = Array.from(
    { length: n + 1 },
    (_, i) => density(i * h) * (i === 0 || i === n ? 1 : i % 2 === 0 ? 2 : 4),
  );
  return 0.5 + (inner.reduce((sum, term) => sum + term, 0) * h) / 3;
}
