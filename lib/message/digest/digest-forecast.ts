/** A forecast from a digest: enough to plan by, in a strip along the way it was made for. */
import {
  boxAround,
  CONTROL_ID,
  type Forecast,
  forecastOfSeries,
  type Frame,
  type QuantityId,
  type Series,
} from '../../forecast/index.ts';
import type { LatLonFrame } from '../../grib/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { uvFromWind, wrap360Deg } from '../../units/index.ts';
import { AIR_STEPS, type Digest, LANES_NM, SEA_WATER_STEPS, STEP_H } from './digest.ts';
import { type LaneInstant, laneInstant, type LaneWeather, laneWeather } from './lane-weather.ts';
import { memberDifference, memberInstant } from './members.ts';
import { rainOfIndex, visibilityOfIndex } from './scales.ts';
import { placeBehind, placeByWay, wayOf, type DigestWay } from './way.ts';

/** Step of the grid the strip is laid on; finer than the lanes lie apart. */
const GRID_STEP_DEG = 0.25;
/** Beside the way the weather is taken as on it, so far; farther off nothing is known. Ours. */
const MOST_OFF_NM = 75;
/** Ahead of the first lane and behind the last, it is taken as there, so far. Ours. */
const BEYOND_LANES_NM = 75;

/**
 * The forecast a digest stands for. Members are rebuilt with their own timing and level; quantities the digest does not
 * carry (humidity, wave direction, CAPE, cloud, current) are missing.
 */
export function forecastOfDigest(digest: Digest): Forecast {
  const strip = stripOf(digest);
  const weather = laneWeather(digest);
  const reference = instantsOf(weather, (laneIndex, stepIndex) => laneInstant(weather, laneIndex, stepIndex));
  const sets = new Map<string, readonly (readonly LaneInstant[])[]>();
  if (digest.hasControl || digest.spread === null) sets.set(CONTROL_ID, reference);
  if (digest.spread !== null) {
    for (let memberIndex = 0; memberIndex < digest.memberCount; memberIndex++) {
      const difference = memberDifference(digest, digest.spread, memberIndex);
      sets.set(
        memberId(memberIndex),
        instantsOf(weather, (laneIndex, stepIndex) => memberInstant(weather, difference, { laneIndex, stepIndex })),
      );
    }
  }
  const mapped = (make: (lanes: readonly (readonly LaneInstant[])[]) => Series): Map<string, Series> =>
    new Map([...sets].map(([id, lanes]) => [id, make(lanes)]));
  const series = new Map<QuantityId, ReadonlyMap<string, Series>>([
    ['wind', mapped((lanes) => windSeries(strip, lanes))],
  ]);
  if (digest.holdsGust)
    series.set(
      'gust',
      mapped((lanes) => gustSeries(strip, lanes)),
    );
  if (isHeld(digest.seaHeightM))
    series.set(
      'seaHeight',
      mapped((lanes) => seaSeries(strip, lanes)),
    );
  for (const [quantity, shared] of sharedSeries(strip)) series.set(quantity, new Map([[CONTROL_ID, shared]]));
  return forecastOfSeries({
    baseEpochMs: digest.baseEpochMs,
    series,
    notes: [
      `This is a digest: the weather along one way, every ${STEP_H} h, ${-LANES_NM[0]} nm ahead of it to ` +
        `${LANES_NM[2]} nm behind. Beyond that, and beside it by more than ${MOST_OFF_NM} nm, nothing is known.`,
    ],
  });
}

/** Members sort as they were sent. */
const memberId = (memberIndex: number): string => `digest ${String(memberIndex + 1).padStart(3, '0')}`;

const isHeld = (values: readonly number[]): boolean => values.some((value) => !Number.isNaN(value));

/** Grid along the way; of each of its points where it lies. */
interface Strip {
  readonly digest: Digest;
  readonly way: DigestWay;
  readonly grid: LatLonFrame;
  readonly alongNm: Float64Array;
  readonly offNm: Float64Array;
  readonly lanesNm: readonly number[];
}

function stripOf(digest: Digest): Strip {
  const way = wayOf(digest.places, digest.stepCount);
  const ends = [
    ...digest.places,
    placeBehind(way, 0, LANES_NM[2] + BEYOND_LANES_NM),
    placeBehind(way, digest.stepCount - 1, LANES_NM[0] - BEYOND_LANES_NM),
  ];
  const grid = gridAround(ends);
  const count = grid.columnCount * grid.rowCount;
  const alongNm = new Float64Array(count);
  const offNm = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const column = k % grid.columnCount;
    const place = {
      lat: grid.southWest.lat + Math.floor(k / grid.columnCount) * grid.latStepDeg,
      lon: wrap360Deg(grid.southWest.lon + column * grid.lonStepDeg + 180) - 180,
    };
    const by = placeByWay(way, place);
    alongNm[k] = by.alongNm;
    offNm[k] = Math.abs(by.offNm);
  }
  const lanesNm = [...LANES_NM, 0].toSorted((a, b) => a - b);
  return { digest, way, grid, alongNm, offNm, lanesNm };
}

function gridAround(places: Parameters<typeof boxAround>[0]): LatLonFrame {
  const box = boxAround(places);
  if (box === null) throw new Error('a digest has places');
  const offDeg = MOST_OFF_NM / 60;
  const highestLat = Math.max(Math.abs(box.southWest.lat), Math.abs(box.northEast.lat));
  const eastDeg = offDeg / Math.max(0.1, Math.cos((Math.min(85, highestLat) * Math.PI) / 180));
  const south = Math.max(-90, gridBelow(box.southWest.lat - offDeg));
  const north = Math.min(90, gridBelow(box.northEast.lat + offDeg) + GRID_STEP_DEG);
  const west = gridBelow(box.southWest.lon - eastDeg);
  const spanDeg = Math.min(359, wrap360Deg(box.northEast.lon - box.southWest.lon) + 2 * eastDeg + GRID_STEP_DEG);
  return {
    kind: 'latlon',
    southWest: { lat: south, lon: wrap360Deg(west + 180) - 180 },
    lonStepDeg: GRID_STEP_DEG,
    latStepDeg: GRID_STEP_DEG,
    columnCount: Math.ceil(spanDeg / GRID_STEP_DEG) + 1,
    rowCount: Math.round((north - south) / GRID_STEP_DEG) + 1,
    wrapsInLon: false,
  };
}

const gridBelow = (deg: number): number => Math.floor(deg / GRID_STEP_DEG) * GRID_STEP_DEG;

/** Instants by lane, then by step. */
const instantsOf = (
  { lanesNm, stepCount }: LaneWeather,
  at: (laneIndex: number, stepIndex: number) => LaneInstant,
): readonly (readonly LaneInstant[])[] =>
  lanesNm.map((_, laneIndex) => Array.from({ length: stepCount }, (_value, stepIndex) => at(laneIndex, stepIndex)));

/** A value per grid point at one step: straight between lanes; beyond them as on the last, so far as it is told. */
function overGrid(strip: Strip, stepIndex: number, valueOfLane: (laneIndex: number) => number): Float32Array {
  const { lanesNm, alongNm, offNm, way } = strip;
  const values = lanesNm.map((_, laneIndex) => valueOfLane(laneIndex));
  const nominalNm = way.alongNm[stepIndex] ?? 0;
  const [ahead, behind] = [(lanesNm[0] ?? 0) - BEYOND_LANES_NM, (lanesNm.at(-1) ?? 0) + BEYOND_LANES_NM];
  const out = new Float32Array(alongNm.length).fill(Number.NaN);
  for (let k = 0; k < out.length; k++) {
    const lateNm = nominalNm - (alongNm[k] ?? Number.NaN);
    if (lateNm < ahead || lateNm > behind || (offNm[k] ?? Infinity) > MOST_OFF_NM) continue;
    out[k] = between(lanesNm, values, lateNm);
  }
  return out;
}

function between(lanesNm: readonly number[], values: readonly number[], lateNm: number): number {
  const clampedNm = Math.min(Math.max(lateNm, lanesNm[0] ?? 0), lanesNm.at(-1) ?? 0);
  const next = lanesNm.findIndex((nm) => nm >= clampedNm);
  if (next <= 0) return values[0] ?? Number.NaN;
  const [fromNm, toNm] = [lanesNm[next - 1] ?? 0, lanesNm[next] ?? 0];
  const [from, to] = [values[next - 1] ?? Number.NaN, values[next] ?? Number.NaN];
  return clampedNm === toNm ? to : from + ((to - from) * (clampedNm - fromNm)) / (toNm - fromNm);
}

type Lanes = readonly (readonly LaneInstant[])[];

const steps = (strip: Strip): number[] => Array.from({ length: strip.digest.stepCount }, (_, stepIndex) => stepIndex);
const instantOf = (strip: Strip, stepIndex: number): number =>
  strip.digest.firstEpochMs + stepIndex * STEP_H * MS_PER_H;

function windSeries(strip: Strip, lanes: Lanes): Series {
  return {
    kind: 'instant',
    frames: steps(strip).map((stepIndex): Frame => {
      const vectors = lanes.map((laneIndex) =>
        uvFromWind({
          speed: laneIndex[stepIndex]?.windKn ?? Number.NaN,
          fromDegTrue: laneIndex[stepIndex]?.windFromDegTrue ?? Number.NaN,
        }),
      );
      return {
        startEpochMs: instantOf(strip, stepIndex),
        endEpochMs: instantOf(strip, stepIndex),
        grid: strip.grid,
        first: overGrid(strip, stepIndex, (laneIndex) => vectors[laneIndex]?.u ?? Number.NaN),
        second: overGrid(strip, stepIndex, (laneIndex) => vectors[laneIndex]?.v ?? Number.NaN),
      };
    }),
  };
}

const seaSeries = (strip: Strip, lanes: Lanes): Series =>
  instantSeries(strip, (stepIndex) =>
    overGrid(strip, stepIndex, (laneIndex) => lanes[laneIndex]?.[stepIndex]?.seaM ?? Number.NaN),
  );

const gustSeries = (strip: Strip, lanes: Lanes): Series =>
  intervalSeries(strip, (stepIndex) =>
    overGrid(strip, stepIndex, (laneIndex) => lanes[laneIndex]?.[stepIndex]?.gustKn ?? Number.NaN),
  );

function instantSeries(strip: Strip, valuesAt: (stepIndex: number) => Float32Array, everySteps = 1): Series {
  const told = steps(strip).filter((stepIndex) => stepIndex % everySteps === 0);
  return {
    kind: 'instant',
    frames: told.map((stepIndex) => ({
      startEpochMs: instantOf(strip, stepIndex),
      endEpochMs: instantOf(strip, stepIndex),
      grid: strip.grid,
      first: valuesAt(stepIndex),
      second: null,
    })),
  };
}

/** Values that hold over the three hours before a step; the first of them ends at the second step. */
function intervalSeries(strip: Strip, valuesAt: (stepIndex: number) => Float32Array): Series {
  return {
    kind: 'interval',
    frames: steps(strip)
      .slice(1)
      .map((stepIndex) => ({
        startEpochMs: instantOf(strip, stepIndex - 1),
        endEpochMs: instantOf(strip, stepIndex),
        grid: strip.grid,
        first: valuesAt(stepIndex),
        second: null,
      })),
  };
}

/** What is told of the reference run on the nominal voyage alone: the same on all lanes. */
function sharedSeries(strip: Strip): [QuantityId, Series][] {
  const { digest } = strip;
  const everywhere =
    (values: readonly number[], everySteps = 1) =>
    (stepIndex: number): Float32Array =>
      overGrid(strip, stepIndex, () => values[stepIndex / everySteps] ?? Number.NaN);
  const rain = digest.rainIndex.map(rainOfIndex);
  const visibility = digest.visibilityIndex.map(visibilityOfIndex);
  const all: [QuantityId, readonly number[], () => Series][] = [
    ['wavePeriod', digest.wavePeriodS, () => instantSeries(strip, everywhere(digest.wavePeriodS))],
    ['pressure', digest.pressureHpa, () => instantSeries(strip, everywhere(digest.pressureHpa))],
    ['rain', rain, () => intervalSeries(strip, everywhere(rain))],
    ['air', digest.airC, () => instantSeries(strip, everywhere(digest.airC, AIR_STEPS), AIR_STEPS)],
    ['seaWater', digest.seaWaterC, () => heldSeaWater(strip)],
    ['visibility', visibility, () => instantSeries(strip, everywhere(visibility))],
  ];
  return all.filter(([, values]) => isHeld(values)).map(([quantity, , make]) => [quantity, make()]);
}

/** The sea's temperature is told once a day and holds till the next. */
const heldSeaWater = (strip: Strip): Series =>
  instantSeries(strip, (stepIndex) =>
    overGrid(strip, stepIndex, () => strip.digest.seaWaterC[Math.floor(stepIndex / SEA_WATER_STEPS)] ?? Number.NaN),
  );
