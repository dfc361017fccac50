import { choice, constantsFrom, type Constant } from './constant.ts';

const cold = constantsFrom(
  'DAANEN_2009',
  'only the form is published (wind chill, square root of time); the coefficient is a default of ours: edit it',
);

/** Defaults of the time factors; all may be edited. */
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
  /** Rain from here on wets the hands. */
  wetRain: choice(0.1, 'mm/h'),
  /** Spray from this true wind on, on the foredeck and overside: Beaufort 5, where the scale speaks of spray. */
  sprayWind: { value: 17, unit: 'kn', sourceId: 'WMO_558', note: 'force 5: chance of some spray' },
  /** Taken where the forecast does not hold humidity: damp sea air. */
  assumedHumidity: choice(0.8, 'ratio'),
  /** Added to the estimated WBGT: below 0 for an awning and a breeze. */
  wbgtAdjust: choice(0, '°C'),
  /** Time factor at a mean rating up to 5, up to 6, below 8; none at 8 and above. */
  tiredKss5: choice(1, 'ratio'),
  tiredKss6: choice(1.15, 'ratio'),
  tiredKss8: choice(1.35, 'ratio'),
  /** All factors together; above it the work is refused. */
  productCap: choice(3, 'ratio'),
} as const satisfies Readonly<Record<string, Constant>>;

export type Gloves = 'none' | 'thin' | 'thick';

/** Coefficients of the time factors as one watchkeeper has them. */
export interface TimeFactorSettings {
  readonly coldGrossPerC: number;
  readonly coldMediumPerC: number;
  readonly coldFinePerC: number;
  readonly wetColderC: number;
  readonly glovesThinRatio: number;
  readonly glovesThickRatio: number;
  readonly assumedHumidityRatio: number;
  readonly wbgtAdjustC: number;
  readonly tiredToKss6Ratio: number;
  readonly tiredToKss8Ratio: number;
  readonly productCapRatio: number;
}

export const DEFAULT_TIME_FACTORS: TimeFactorSettings = {
  coldGrossPerC: TIME_FACTORS.coldGross.value,
  coldMediumPerC: TIME_FACTORS.coldMedium.value,
  coldFinePerC: TIME_FACTORS.coldFine.value,
  wetColderC: TIME_FACTORS.wetColder.value,
  glovesThinRatio: TIME_FACTORS.glovesThin.value,
  glovesThickRatio: TIME_FACTORS.glovesThick.value,
  assumedHumidityRatio: TIME_FACTORS.assumedHumidity.value,
  wbgtAdjustC: TIME_FACTORS.wbgtAdjust.value,
  tiredToKss6Ratio: TIME_FACTORS.tiredKss6.value,
  tiredToKss8Ratio: TIME_FACTORS.tiredKss8.value,
  productCapRatio: TIME_FACTORS.productCap.value,
};

/** Time factor of gloves. */
export const glovesRatio = (gloves: Gloves, settings: TimeFactorSettings = DEFAULT_TIME_FACTORS): number =>
  gloves === 'none' ? 1 : gloves === 'thin' ? settings.glovesThinRatio : settings.glovesThickRatio;
