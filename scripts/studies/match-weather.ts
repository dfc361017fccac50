/**
 * Forecasts for the study of forecast against log: fronts that pass a boat, written as GRIB and read like any other.
 *
 * All of it is invented. Wind backs and freshens before a front, veers and eases behind it; pressure falls and rises
 * again; the sea follows the wind.
 */
import { buildForecast, type Forecast } from '../../lib/forecast/index.ts';
import { type GribMessageSpec, writeGrib2Message, type WrittenGrid } from '../../lib/grib/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';

export const MATCH_BASE_EPOCH_MS = Date.UTC(2026, 5, 1);
export const MATCH_PLACE = { lat: -35, lon: -30 } as const;
const LENGTH_H = 120;
const STEP_H = 3;

const GRID: WrittenGrid = {
  ni: 2,
  nj: 2,
  first: { lat: -36, lon: -31 },
  iIncrementDeg: 2,
  jIncrementDeg: 2,
  scanningMode: 64,
};

/** A row of fronts, and how one member differs from it. */
export interface FrontPattern {
  readonly frontsAtH: readonly number[];
  readonly calmKn: number;
  readonly peakKn: number;
  readonly fallHpa: number;
}

export interface MemberErrors {
  readonly laterH: number;
  readonly windKn: number;
  readonly growthRatio: number;
}

/** Two to five fronts in five days. */
export function drawFronts(seed: number): FrontPattern {
  const uniform = uniformDraws(seed);
  const between = (low: number, high: number): number => low + (high - low) * uniform();
  const firstH = between(8, 40);
  const everyH = between(26, 50);
  return {
    frontsAtH: Array.from({ length: 6 }, (_, k) => firstH + (k - 1) * everyH + between(-4, 4)),
    calmKn: between(4, 9),
    peakKn: between(16, 30),
    fallHpa: between(6, 16),
  };
}

/** A sawtooth about every front: 1 at the front, falling to 0 within 18 h before it and 10 h behind it. */
const nearFront = ({ frontsAtH }: FrontPattern, hourH: number): number =>
  Math.max(0, ...frontsAtH.map((at) => (hourH < at ? 1 - (at - hourH) / 18 : 1 - (hourH - at) / 10)));

const sinceFrontH = ({ frontsAtH }: FrontPattern, hourH: number): number =>
  frontsAtH.reduce((nearest, at) => (Math.abs(hourH - at) < Math.abs(nearest) ? hourH - at : nearest), Infinity);

interface WeatherAt {
  readonly windKn: number;
  readonly windFromDegTrue: number;
  readonly pressureHpa: number;
  readonly seaHeightM: number;
}

function weatherAt(pattern: FrontPattern, of: { hourH: number; member: MemberErrors }): WeatherAt {
  const hourH = of.hourH - of.member.laterH * (1 + (of.member.growthRatio * of.hourH) / 48);
  const near = nearFront(pattern, hourH);
  const turned = 1 / (1 + Math.exp(-sinceFrontH(pattern, hourH) / 1.2));
  const seaFelt = (nearFront(pattern, hourH) + nearFront(pattern, hourH - 4) + nearFront(pattern, hourH - 8)) / 3;
  const levelKn = of.member.windKn * (1 + (of.member.growthRatio * of.hourH) / 48);
  const windAlike = (share: number): number => pattern.calmKn + share * (pattern.peakKn - pattern.calmKn) + levelKn;
  return {
    windKn: Math.max(1, windAlike(near)),
    windFromDegTrue: (300 + 280 * 0.3 * turned + 40 * Math.sin(hourH / 16)) % 360,
    pressureHpa: 1016 - pattern.fallHpa * near,
    seaHeightM: 0.8 + 0.004 * Math.max(1, windAlike(seaFelt)) ** 2,
  };
}

/** A forecast of a pattern: one run, or an ensemble of so many members. */
export function frontForecast(pattern: FrontPattern, seed: number, memberCount: number): Forecast {
  const uniform = uniformDraws(seed + 1);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const members = Array.from({ length: memberCount }, (_, k) => ({
    number: k + 1,
    errors: { laterH: 1.2 * normal(), windKn: 1.5 * normal(), growthRatio: 1 },
  }));
  const none = { laterH: 0, windKn: 0, growthRatio: 0 };
  const messages =
    memberCount === 0
      ? runMessages(pattern, none, undefined)
      : members.flatMap(({ number, errors }) =>
          runMessages(pattern, errors, { typeCode: 3, perturbationNumber: number, memberCount }),
        );
  const length = messages.reduce((sum, { byteLength }) => sum + byteLength, 0);
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const message of messages) {
    bytes.set(message, at);
    at += message.byteLength;
  }
  const built = buildForecast([{ name: 'fronts.grib2', bytes }]);
  if (!built.ok) throw new Error(JSON.stringify(built.problems));
  return built.value;
}

const KN_PER_MPS = 3600 / 1852;

function runMessages(pattern: FrontPattern, member: MemberErrors, ensemble: GribMessageSpec['ensemble']): Uint8Array[] {
  return Array.from({ length: LENGTH_H / STEP_H + 1 }, (_, k) => k * STEP_H).flatMap((hourH) => {
    const { windKn, windFromDegTrue, pressureHpa, seaHeightM } = weatherAt(pattern, { hourH, member });
    const fromRad = (windFromDegTrue * Math.PI) / 180;
    const speedMps = windKn / KN_PER_MPS;
    const write = (codes: readonly [number, number, number, number, number | null], value: number): Uint8Array =>
      writeGrib2Message({
        parameter: { discipline: codes[0], category: codes[1], number: codes[2] },
        level: { first: { typeCode: codes[3], value: codes[4] }, second: null },
        referenceEpochMs: MATCH_BASE_EPOCH_MS,
        validity: { kind: 'instant', validEpochMs: MATCH_BASE_EPOCH_MS + hourH * MS_PER_H },
        ...(ensemble === undefined ? {} : { ensemble }),
        grid: GRID,
        values: new Float64Array(GRID.ni * GRID.nj).fill(value),
        decimalScaleFactor: 2,
        centre: 7,
      });
    // WMO-No. 306, code tables 4.2 and 4.5: wind components at 10 m, pressure at mean sea level, height of the sea.
    return [
      write([0, 2, 2, 103, 10], -speedMps * Math.sin(fromRad)),
      write([0, 2, 3, 103, 10], -speedMps * Math.cos(fromRad)),
      write([0, 3, 1, 101, null], 100 * pressureHpa),
      write([10, 0, 3, 1, null], seaHeightM),
    ];
  });
}
