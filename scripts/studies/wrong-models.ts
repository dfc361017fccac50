import type { WeatherErrors } from './error-paths.ts';

/** Ways in which the truth may not be what the forecast's errors say. */
const WRONG_MODELS = {
  'errors twice as large': (errors: WeatherErrors): WeatherErrors => ({
    windKn: errors.windKn.map((value) => 2 * value),
    earlyH: errors.earlyH.map((value) => 2 * value),
    turnDeg: 2 * errors.turnDeg,
    seaRatio: errors.seaRatio ** 2,
  }),
  '2 kn more wind': (errors: WeatherErrors): WeatherErrors => ({
    ...errors,
    windKn: errors.windKn.map((value) => value + 2),
  }),
  'all 3 h early': (errors: WeatherErrors): WeatherErrors => ({
    ...errors,
    earlyH: errors.earlyH.map((value) => value + 3),
  }),
} as const;

export type WrongModel = keyof typeof WRONG_MODELS;

export const WRONG_MODEL_NAMES = [
  'errors twice as large',
  '2 kn more wind',
  'all 3 h early',
] as const satisfies readonly WrongModel[];

/** The same truth under a wrong model. */
export const dressedWrongly = (errors: WeatherErrors, model: WrongModel): WeatherErrors => WRONG_MODELS[model](errors);
