import {
  adjustScenarioSet,
  leadOfH,
  sampleReference,
  type ScenarioSet,
  type WeatherAlong,
} from '../../forecast/index.ts';
import { sigmaTimeH } from '../../weather/index.ts';
import { commonBias, type CommonBias, type Difference } from './common-bias.ts';
import { type ComparedReading, type Comparison, differenceOf, pointsOf } from './comparison.ts';
import { biasBefore, levelSd } from './forecast-errors.ts';
import type { BarometerOffset, SeenQuantity, SeenWeather } from './seen-weather.ts';
import { momentsOfShift, sharesOfLogs, shiftShares, SHIFTS_H } from './shifts.ts';

/** What the readings say of the forecast the sailor looks at: the control run, or the members' mean. */
export interface ReferenceFit {
  /** Shift of the forecast [h], positive later, and one standard deviation, after and before the readings. */
  readonly shiftH: number;
  readonly shiftSd: number;
  readonly shiftBeforeSd: number;
  /** At that shift, by quantity read. */
  readonly fits: ReadonlyMap<SeenQuantity, QuantityFit>;
}

/** One quantity, read against the forecast at its shift. */
export interface QuantityFit extends CommonBias {
  readonly differences: readonly Difference[];
  readonly effectiveCount: number;
}

export interface FitQuestion {
  readonly set: ScenarioSet;
  readonly seen: readonly SeenWeather[];
  readonly comparison: Comparison;
  readonly barometer: BarometerOffset;
}

/** Slides the reference run over the readings: every shift weighed by the timing error of the lead and by the fit. */
export function fitReference(of: FitQuestion): ReferenceFit {
  const lastLeadH = Math.max(...of.seen.map(({ epochMs }) => leadOfH(of.set, epochMs)));
  const shiftBeforeSd = sigmaTimeH(lastLeadH);
  const before = shiftShares(shiftBeforeSd);
  const logs = Float64Array.from(SHIFTS_H, (shiftH, k) => {
    const fits = fitsAt(of, shiftH);
    return [...fits.values()].reduce((sum, { logWeight }) => sum + logWeight, Math.log(before[k] ?? 0));
  });
  const moments = momentsOfShift(sharesOfLogs(logs));
  return { ...moments, shiftBeforeSd, fits: fitsAt(of, moments.shiftH) };
}

function fitsAt(of: FitQuestion, shiftH: number): Map<SeenQuantity, QuantityFit> {
  const shifted = adjustScenarioSet(of.set, { referenceShiftH: shiftH, note: '' });
  const weather = sampleReference(shifted, pointsOf(of.seen));
  return new Map(
    [...of.comparison]
      .filter(([, readings]) => readings.length > 0)
      .map(([quantity, readings]) => [quantity, fitOf(of, { quantity, readings, weather })]),
  );
}

function fitOf(
  of: FitQuestion,
  at: { quantity: SeenQuantity; readings: readonly ComparedReading[]; weather: WeatherAlong },
): QuantityFit {
  const { quantity, readings, weather } = at;
  const values = valuesOf(quantity, weather);
  const told = readings.flatMap(({ pointIndex, value, readingSd, countShare }) => {
    const forecast = { value: values[pointIndex] ?? Number.NaN };
    if (Number.isNaN(forecast.value)) return [];
    const leadH = leadOfH(of.set, of.seen[pointIndex]?.epochMs ?? 0);
    // The error of the forecast by the value read: the same for every shift, so that no shift is favoured by its size.
    const { lastingSd, driftingSd } = levelSd(quantity, { leadH, value });
    const difference = differenceOf(quantity, { read: { value }, forecast });
    return [{ lastingSd, difference: { value: difference, errorSd: Math.hypot(readingSd, driftingSd), countShare } }];
  });
  const differences = told.map(({ difference }) => difference);
  const lastingSd = Math.max(0, ...told.map((one) => one.lastingSd));
  const prior = biasBefore(quantity, lastingSd, of.barometer);
  const effectiveCount = differences.reduce((sum, { countShare }) => sum + countShare, 0);
  return { ...commonBias({ differences, prior }), differences, effectiveCount };
}

/** Forecast values of a quantity at the points of the course. */
export function valuesOf(quantity: SeenQuantity, weather: WeatherAlong): Float32Array {
  return {
    wind: weather.windKn,
    direction: weather.windFromDegTrue,
    gust: weather.gustKn,
    pressure: weather.pressureHpa,
    sea: weather.seaHeightM,
  }[quantity];
}
