import type { Boat, Handling } from '../boat/index.ts';
import { deckWindAt, steeringUnder } from '../boat/index.ts';
import type { WeatherAlong } from '../forecast/index.ts';
import { lightAt } from '../sky/index.ts';
import { slotEpochMs } from '../time/index.ts';
import type { Course, SampleWeather } from './course.ts';
import { coursePoints } from './course.ts';

export const LIGHTS = ['day', 'civil', 'nautical', 'night'] as const;
export type Light = (typeof LIGHTS)[number];

/** Wind over the deck under one handling; scenario-major like WeatherAlong. */
export interface DeckWind {
  readonly meanKn: Float32Array;
  readonly gustKn: Float32Array;
}

/** Everything the weather and the sky do along one course, in every scenario. */
export interface Conditions {
  readonly course: Course;
  readonly weather: WeatherAlong;
  /** One scenario: what the boat's own progress is reckoned with. */
  readonly reference: WeatherAlong;
  /** Index into LIGHTS per slot. */
  readonly light: Uint8Array;
  readonly boat: Boat;
  readonly deckHeightM: number;
  /** Deck winds already worked out, by handling and sail state. */
  readonly deckWinds: Map<string, DeckWind>;
}

export interface ConditionsInput {
  readonly course: Course;
  readonly boat: Boat;
  readonly deckHeightM: number;
  readonly sampleScenarios: SampleWeather;
  readonly sampleReference: SampleWeather;
}

/** Asks weather and sky along a course. */
export function conditionsAlong(input: ConditionsInput): Conditions {
  const points = coursePoints(input.course);
  return {
    course: input.course,
    weather: input.sampleScenarios(points),
    reference: input.sampleReference(points),
    light: lightsAlong(input.course),
    boat: input.boat,
    deckHeightM: input.deckHeightM,
    deckWinds: new Map(),
  };
}

function lightsAlong(course: Course): Uint8Array {
  return Uint8Array.from(course.lat, (lat, i) =>
    LIGHTS.indexOf(lightAt(slotEpochMs(course.grid, i), { lat, lon: course.lon[i] ?? 0 })),
  );
}

/**
 * Wind over the deck in every scenario and slot under a handling: the 10 m wind and gust brought to deck height, then
 * combined with the boat's velocity as vectors. The boat's speed is that of the mean wind, in the gust too.
 */
export function deckWindUnder(conditions: Conditions, handling: Handling, sailStateId: string): DeckWind {
  const key = `${handling.id} ${sailStateId}`;
  const known = conditions.deckWinds.get(key);
  if (known) return known;
  const { weather } = conditions;
  const deck = {
    meanKn: new Float32Array(weather.windKn.length),
    gustKn: new Float32Array(weather.windKn.length),
  };
  const steer = steeringUnder(conditions.boat, handling, sailStateId);
  const feltKn = deckWindAt(conditions.deckHeightM);
  for (let w = 0; w < weather.scenarioCount; w++) fillScenario({ conditions, steer, feltKn }, deck, w);
  conditions.deckWinds.set(key, deck);
  return deck;
}

function fillScenario(
  under: {
    conditions: Conditions;
    steer: ReturnType<typeof steeringUnder>;
    feltKn: ReturnType<typeof deckWindAt>;
  },
  deck: DeckWind,
  w: number,
): void {
  const { steer, feltKn } = under;
  const { weather, course } = under.conditions;
  for (let i = 0; i < weather.pointCount; i++) {
    const k = w * weather.pointCount + i;
    const twsKn = weather.windKn[k] ?? Number.NaN;
    if (Number.isNaN(twsKn)) {
      deck.meanKn[k] = deck.gustKn[k] = Number.NaN;
      continue;
    }
    const steering = steer({
      twsKn,
      windFromDegTrue: weather.windFromDegTrue[k] ?? 0,
      courseTowardDegTrue: course.courseTowardDegTrue[i] ?? 0,
    });
    deck.meanKn[k] = feltKn(twsKn, steering);
    deck.gustKn[k] = feltKn(weather.gustKn[k] ?? Number.NaN, steering);
  }
}
