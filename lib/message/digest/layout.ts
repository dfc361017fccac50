/** The order of a digest's numbers, once for writing and reading. */
import { MS_PER_H } from '../../time/index.ts';
import {
  airCountOf,
  type Digest,
  type DigestSpread,
  LANES_NM,
  nodeCountOf,
  placeCountOf,
  seaWaterCountOf,
  type SpreadMode,
} from './digest.ts';
import { SCALES, type Scale } from './scales.ts';

/** Numbers go through it in their order: written when given, read when not. */
export interface Port {
  one(scale: Scale, value: number | undefined): number;
}

/** Full hours are counted from here. */
const EPOCH_MS = Date.UTC(2020, 0, 1);
/** Gust, period, pressure, rain, visibility, air and sea temperature are left out altogether where nothing is known of them. */
type OptionalKey =
  | 'gustKn'
  | 'wavePeriodS'
  | 'pressureHpa'
  | 'rainIndex'
  | 'visibilityIndex'
  | 'airC'
  | 'seaWaterC'
  | 'seaHeightM';

const MOST_STEPS = 81;

/** Passes all numbers of a digest through a port. With `given` they are written, without it what was read comes back; null: impossible counts. */
export function passDigest(port: Port, given: Digest | null): Digest | null {
  const baseHours = port.one(SCALES.baseHours, given === null ? undefined : (given.baseEpochMs - EPOCH_MS) / MS_PER_H);
  const firstStepH = port.one(
    SCALES.firstStepH,
    given === null ? undefined : (given.firstEpochMs - given.baseEpochMs) / MS_PER_H + FIRST_STEP_ROOM_H,
  );
  const stepCount = port.one(SCALES.stepCount, given?.stepCount);
  const memberCount = port.one(SCALES.memberCount, given?.memberCount);
  if (!(stepCount >= 2 && stepCount <= MOST_STEPS) || memberCount === 1) return null;
  const isSet = (value: boolean | undefined): boolean =>
    port.one(SCALES.flag, value === undefined ? undefined : Number(value)) === 1;
  const hasControl = isSet(given?.hasControl);
  const holdsGust = isSet(given?.holdsGust);
  const list = (scale: Scale, count: number, values: readonly number[] | undefined): number[] =>
    Array.from({ length: count }, (_, i) => port.one(scale, values === undefined ? undefined : (values[i] ?? NaN)));
  const optional = (key: OptionalKey, count: number): number[] => {
    const values = given?.[key];
    const isThere = isSet(values?.some((value) => !Number.isNaN(value)));
    return isThere ? list(SCALES[key], count, values) : Array.from({ length: count }, () => Number.NaN);
  };
  const places = Array.from({ length: placeCountOf(stepCount) }, (_, i) => ({
    lat: port.one(SCALES.lat, given?.places[i]?.lat),
    lon: port.one(SCALES.lon, given?.places[i]?.lon),
  }));
  const baseEpochMs = EPOCH_MS + baseHours * MS_PER_H;
  return {
    baseEpochMs,
    firstEpochMs: baseEpochMs + (firstStepH - FIRST_STEP_ROOM_H) * MS_PER_H,
    stepCount,
    memberCount,
    hasControl,
    holdsGust,
    places,
    windKn: list(SCALES.windKn, stepCount, given?.windKn),
    windFromDegTrue: list(SCALES.windFromDegTrue, stepCount, given?.windFromDegTrue),
    gustKn: optional('gustKn', stepCount),
    seaHeightM: optional('seaHeightM', stepCount),
    wavePeriodS: optional('wavePeriodS', stepCount),
    pressureHpa: optional('pressureHpa', stepCount),
    rainIndex: optional('rainIndex', stepCount),
    visibilityIndex: optional('visibilityIndex', stepCount),
    airC: optional('airC', airCountOf(stepCount)),
    seaWaterC: optional('seaWaterC', seaWaterCountOf(stepCount)),
    lanes: LANES_NM.map((_, lane) => ({
      windKn: list(SCALES.laneWindKn, stepCount, given?.lanes[lane]?.windKn),
      turnDeg: list(SCALES.laneTurnDeg, stepCount, given?.lanes[lane]?.turnDeg),
      seaM: list(SCALES.laneSeaM, stepCount, given?.lanes[lane]?.seaM),
    })),
    spread: memberCount === 0 ? null : passSpread(port, given?.spread ?? null, { stepCount, memberCount, list }),
  };
}

/** A first step may lie before the base time: the boat's hour, not the forecast's. */
const FIRST_STEP_ROOM_H = 24;

function passSpread(
  port: Port,
  given: DigestSpread | null,
  of: {
    readonly stepCount: number;
    readonly memberCount: number;
    readonly list: (scale: Scale, count: number, values: readonly number[] | undefined) => number[];
  },
): DigestSpread {
  const timingH = of.list(SCALES.timingH, of.memberCount, given?.timingH);
  const modeCount = port.one(SCALES.modeCount, given?.modes.length);
  const modes = Array.from({ length: modeCount }, (_, i): SpreadMode => {
    const mode = given?.modes[i];
    return {
      sizeIndex: port.one(SCALES.modeSize, mode?.sizeIndex),
      values: of.list(SCALES.modeValue, 3 * nodeCountOf(of.stepCount), mode?.values),
      scoresSd: of.list(SCALES.scoreSd, of.memberCount, mode?.scoresSd),
    };
  });
  return { timingH, modes };
}
