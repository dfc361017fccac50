import type { Constant } from './constant.ts';

const cold = (x: number, unit: string): Constant => ({
  value: x,
  unit,
  sourceId: 'DAANEN_2009',
  note: 'only the form is published (wind chill, square root of time); the coefficient is a default of ours: edit it',
});
const choice = (x: number, unit: string): Constant => ({
  value: x,
  unit,
  sourceId: null,
  note: 'engineering choice, no source',
});

/** Settings of the time factors; all may be edited. */
export const TIME_FACTORS = {
  /** Slope per °C of wind chill below 10 °C, after an hour. */
  coldGross: cold(0.01, '1/°C'),
  coldMedium: cold(0.015, '1/°C'),
  coldFine: cold(0.025, '1/°C'),
  /** Wet hands or spray count as this much colder. */
  wetColder: cold(5, '°C'),
  glovesThin: cold(1.15, 'ratio'),
  glovesThick: cold(1.35, 'ratio'),
  /** Fine hand work is not offered below this wind chill, nor wet below this air temperature. */
  fineLeastWindChill: choice(-10, '°C'),
  fineLeastAirWet: choice(5, '°C'),
  /** Time factor at a mean rating up to 5, up to 6, below 8; none at 8 and above. */
  tiredKss5: choice(1, 'ratio'),
  tiredKss6: choice(1.15, 'ratio'),
  tiredKss8: choice(1.35, 'ratio'),
  /** All factors together; above it the work is refused. */
  productCap: choice(3, 'ratio'),
} as const satisfies Readonly<Record<string, Constant>>;
