/** A forecast along the way of one boat, rounded as it is sent. */
import {
  buildScenarioSet,
  type CoursePoints,
  type Forecast,
  sampleReference,
  sampleScenarios,
  type WeatherAlong,
} from '../../forecast/index.ts';
import type { Position } from '../../geo/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { wrap180Deg } from '../../units/index.ts';
import {
  AIR_STEPS,
  type Digest,
  type DigestSpread,
  LANES_NM,
  type LaneDifferences,
  PLACE_STEPS,
  placeCountOf,
  SEA_WATER_STEPS,
  STEP_H,
} from './digest.ts';
import { fitSpread, modeBitCount, MOST_MODES } from './fit-spread.ts';
import { laneWeather } from './lane-weather.ts';
import { packDigest } from './body.ts';
import { directionOnScale, onScale, rainIndexOf, SCALES, type Scale, visibilityIndexOf } from './scales.ts';
import { placeBehind, placeOnScale, wayOf, type DigestWay } from './way.ts';

export interface DigestInput {
  readonly forecast: Forecast;
  /** Where the boat is at an instant when she does not stop. */
  readonly placeAt: (epochMs: number) => Position;
  /** Full hour of the first step. */
  readonly firstEpochMs: number;
  /** 2 to 81. */
  readonly stepCount: number;
  /** Characters the packed digest may take: as many of the members' differences are told as fit. */
  readonly mostCharacterCount: number;
}

/** Makes the digest, or says why there is none: it does not fit even without the members' differences. */
export function digestOf(input: DigestInput): Digest | 'no wind' | 'too long' {
  const bare = withoutSpread(input);
  if (!bare.windKn.some((value) => !Number.isNaN(value))) return 'no wind';
  if (bare.memberCount === 0) return packDigest(bare).length <= input.mostCharacterCount ? bare : 'too long';
  const timed = withSpread(input, bare, 0);
  const fixedBits = bitCountOf(timed);
  const roomBits = input.mostCharacterCount * 6 - fixedBits;
  if (roomBits < 0) return 'too long';
  const modeCount = Math.min(MOST_MODES, Math.floor(roomBits / modeBitCount(bare.stepCount, bare.memberCount)));
  return withSpread(input, bare, modeCount);
}

/** Bits of a digest, counted from its text: never less than they are. */
const bitCountOf = (digest: Digest): number => packDigest(digest).length * 6;

/** Only the reference and the members as they are; a missing gust is asked for on board. */
function plainSet(forecast: Forecast): ReturnType<typeof buildScenarioSet> {
  return buildScenarioSet(forecast, {
    errorModel: 'none',
    purpose: 'planning',
    seed: 1,
    spreadInflationRatio: 1,
    gustRatio: 1.3,
  });
}

const MEMBERS_MOST = 2 ** SCALES.memberCount.bitCount - 1;

function withoutSpread(input: DigestInput): Digest {
  const { forecast, stepCount, firstEpochMs } = input;
  const instantOf = (stepIndex: number): number => firstEpochMs + stepIndex * STEP_H * MS_PER_H;
  const places = Array.from({ length: placeCountOf(stepCount) }, (_, i) =>
    placeOnScale(input.placeAt(instantOf(Math.min(i * PLACE_STEPS, stepCount - 1)))),
  );
  const way = wayOf(places, stepCount);
  const set = plainSet(forecast);
  const ask = (points: CoursePoints): WeatherAlong => sampleReference(set, points);
  const nominal = ask(pointsOn(way, input, 0));
  const rounded = (scale: Scale, values: ArrayLike<number>): number[] =>
    Array.from(values, (value) => onScale(scale, value));
  const windKn = rounded(SCALES.windKn, nominal.windKn);
  const windFromDegTrue = Array.from(nominal.windFromDegTrue, (from, i) =>
    Number.isNaN(windKn[i]) ? 0 : directionOnScale(from),
  );
  const seaHeightM = rounded(SCALES.seaHeightM, nominal.seaHeightM);
  const holdsGust = forecast.held.includes('gust');
  const within = overIntervals(way, input, ask);
  const every = (values: Float32Array, everyCount: number): number[] =>
    Array.from(values.filter((_, i) => i % everyCount === 0));
  const told = { windKn, windFromDegTrue, seaHeightM };
  const memberCount = forecast.memberIds.length >= 2 ? Math.min(MEMBERS_MOST, forecast.memberIds.length) : 0;
  return {
    baseEpochMs: Math.floor(forecast.baseEpochMs / MS_PER_H) * MS_PER_H,
    firstEpochMs,
    stepCount,
    memberCount,
    hasControl: forecast.hasControl,
    holdsGust,
    places,
    ...told,
    gustKn: holdsGust ? within.gustKn : Array.from({ length: stepCount }, () => Number.NaN),
    wavePeriodS: rounded(SCALES.wavePeriodS, nominal.wavePeriodS),
    pressureHpa: rounded(SCALES.pressureHpa, nominal.pressureHpa),
    rainIndex: within.rainIndex,
    visibilityIndex: Array.from(nominal.visibilityNm, visibilityIndexOf),
    airC: rounded(SCALES.airC, every(nominal.airC, AIR_STEPS)),
    seaWaterC: rounded(SCALES.seaWaterC, every(nominal.seaWaterC, SEA_WATER_STEPS)),
    lanes: LANES_NM.map((laneNm) => laneDifferences(told, ask(pointsOn(way, input, laneNm)))),
    spread: memberCount === 0 ? null : { timingH: Array.from({ length: memberCount }, () => 0), modes: [] },
  };
}

/** The steps of a digest, by the way or so many miles late, at their instants or hours before them. */
function pointsOn(way: DigestWay, of: DigestInput, lateNm: number, earlierH = 0): CoursePoints {
  const { stepCount, firstEpochMs } = of;
  const places = Array.from({ length: stepCount }, (_, stepIndex) => {
    const [here, before] = [way.alongNm[stepIndex] ?? 0, way.alongNm[Math.max(0, stepIndex - 1)] ?? 0];
    return placeBehind(way, stepIndex, lateNm + ((here - before) * earlierH) / STEP_H);
  });
  return {
    epochMs: Float64Array.from(
      { length: stepCount },
      (_, stepIndex) => firstEpochMs + (stepIndex * STEP_H - earlierH) * MS_PER_H,
    ),
    lat: Float64Array.from(places, ({ lat }) => lat),
    lon: Float64Array.from(places, ({ lon }) => lon),
  };
}

/** Highest gust and heaviest rain of the three hours that end at each step, looked at every hour. */
function overIntervals(
  way: DigestWay,
  of: DigestInput,
  ask: (points: CoursePoints) => WeatherAlong,
): Pick<Digest, 'gustKn' | 'rainIndex'> {
  const looks = [2.5, 1.5, 0.5].map((earlierH) => ask(pointsOn(way, of, 0, earlierH)));
  const most = (values: (look: WeatherAlong) => Float32Array, stepIndex: number): number => {
    const known = looks.map((look) => values(look)[stepIndex] ?? Number.NaN).filter((value) => !Number.isNaN(value));
    return known.length === 0 ? Number.NaN : Math.max(...known);
  };
  const steps = Array.from({ length: of.stepCount }, (_, stepIndex) => stepIndex);
  return {
    gustKn: steps.map((stepIndex) =>
      onScale(
        SCALES.gustKn,
        most((look) => look.gustKn, stepIndex),
      ),
    ),
    rainIndex: steps.map((stepIndex) => rainIndexOf(most((look) => look.rainMmPerH, stepIndex))),
  };
}

function laneDifferences(
  told: Pick<Digest, 'windKn' | 'windFromDegTrue' | 'seaHeightM'>,
  there: WeatherAlong,
): LaneDifferences {
  const steps = told.windKn.map((_, stepIndex) => stepIndex);
  return {
    windKn: steps.map((stepIndex) =>
      onScale(SCALES.laneWindKn, (there.windKn[stepIndex] ?? Number.NaN) - (told.windKn[stepIndex] ?? Number.NaN)),
    ),
    turnDeg: steps.map((stepIndex) =>
      onScale(
        SCALES.laneTurnDeg,
        wrap180Deg((there.windFromDegTrue[stepIndex] ?? Number.NaN) - (told.windFromDegTrue[stepIndex] ?? Number.NaN)),
      ),
    ),
    seaM: steps.map((stepIndex) =>
      onScale(
        SCALES.laneSeaM,
        (there.seaHeightM[stepIndex] ?? Number.NaN) - (told.seaHeightM[stepIndex] ?? Number.NaN),
      ),
    ),
  };
}

function withSpread(input: DigestInput, bare: Digest, modeCount: number): Digest {
  const members = sampleScenarios(plainSet(input.forecast), pointsOn(wayOf(bare.places, bare.stepCount), input, 0));
  const spread: DigestSpread = fitSpread(
    {
      digest: bare,
      weather: laneWeather(bare),
      members: {
        memberCount: bare.memberCount,
        windKn: members.windKn,
        windFromDegTrue: members.windFromDegTrue,
        seaM: members.seaHeightM,
      },
    },
    modeCount,
  );
  return { ...bare, spread };
}
