import { sampleReference, type ScenarioSet } from '../../forecast/index.ts';
import { agreementOf, meanOf, typicalOf, worstAgreement } from './agreement.ts';
import { comparisonOf, pointsOf } from './comparison.ts';
import { fitReference, type QuantityFit, type ReferenceFit, valuesOf } from './fit-reference.ts';
import type { ComparedForecast, ForecastMatch, QuantityMatch, SeenTiming } from './forecast-match.ts';
import { isFrontNear } from './front.ts';
import {
  type BarometerOffset,
  readingOf,
  SEEN_QUANTITIES,
  type SeenQuantity,
  type SeenWeather,
  UNKNOWN_BAROMETER,
} from './seen-weather.ts';

export interface MatchOptions {
  /** Of the shifts drawn for the scenarios; default 1. */
  readonly seed?: number;
  /** What is known of the barometer; default 0 ± 2 hPa. */
  readonly barometer?: BarometerOffset;
}

/**
 * Holds readings against a forecast: the control run, or the mean of the members, is slid by up to 12 h either way.
 *
 * @param set any scenario set of the forecast; its draws and weights do not matter here
 * @param observations in any order; what lies outside the forecast, or says nothing that it holds, is left out. Readings
 *   after the present instant are for the caller to leave out.
 */
export function matchForecast(
  set: ScenarioSet,
  observations: readonly SeenWeather[],
  options: MatchOptions = {},
): ForecastMatch {
  const offered = observations.filter(saysAnything).toSorted((a, b) => a.epochMs - b.epochMs);
  const seen = heldReadings(set, offered);
  if (seen.length === 0)
    return {
      kind: 'nothing-to-compare',
      readingCount: offered.length,
      reason: offered.length === 0 ? 'no-readings' : 'outside-forecast',
    };
  const barometer = options.barometer ?? UNKNOWN_BAROMETER;
  const fit = fitReference({ set, seen, comparison: comparisonOf(seen), barometer });
  const quantities = [...fit.fits].map(([quantity, own]) => quantityMatch(quantity, own));
  const pressure = fit.fits.get('pressure')?.bias;
  return {
    kind: 'compared',
    seen,
    readingCount: seen.length,
    offeredCount: offered.length,
    effectiveCount: Math.max(...quantities.map(({ effectiveCount }) => effectiveCount)),
    ...spanOf(seen),
    timing: timingOf(fit, isFrontNear(set, seen)),
    quantities,
    barometer: pressure === undefined ? null : { offsetHpa: pressure.value, offsetSdHpa: pressure.biasSd },
    barometerBefore: barometer,
    agreement: worstAgreement(quantities.map(({ agreement }) => agreement)),
    seed: options.seed ?? 1,
  };
}

const saysAnything = (seen: SeenWeather): boolean =>
  SEEN_QUANTITIES.some((quantity) => !Number.isNaN(readingOf(seen, quantity)));

/** Readings with only what the forecast holds at their place and time; those of which nothing is left are left out. */
function heldReadings(set: ScenarioSet, offered: readonly SeenWeather[]): SeenWeather[] {
  const weather = sampleReference({ ...set, referenceShiftH: 0 }, pointsOf(offered));
  return offered
    .map((seen, i) => onlyHeld(seen, (quantity) => isHeld(valuesOf(quantity, weather), i)))
    .filter(saysAnything);
}

const isHeld = (values: Float32Array, i: number): boolean => !Number.isNaN(values[i] ?? Number.NaN);

function onlyHeld(seen: SeenWeather, holds: (quantity: SeenQuantity) => boolean): SeenWeather {
  const { epochMs, lat, lon, windKn, windFromDegTrue, gustKn, pressureHpa, seaHeightM } = seen;
  return {
    epochMs,
    lat,
    lon,
    ...(windKn !== undefined && holds('wind') ? { windKn } : {}),
    ...(windFromDegTrue !== undefined && holds('direction') ? { windFromDegTrue } : {}),
    ...(gustKn !== undefined && holds('gust') ? { gustKn } : {}),
    ...(pressureHpa !== undefined && holds('pressure') ? { pressureHpa } : {}),
    ...(seaHeightM !== undefined && holds('sea') ? { seaHeightM } : {}),
  };
}

function spanOf(seen: readonly SeenWeather[]): Pick<ComparedForecast, 'firstEpochMs' | 'lastEpochMs'> {
  const instants = seen.map(({ epochMs }) => epochMs);
  return { firstEpochMs: Math.min(...instants), lastEpochMs: Math.max(...instants) };
}

/** Timing is shown where the readings leave less than this of its spread. Ours. */
const SHOWN_RATIO = 0.8;

const timingOf = (fit: ReferenceFit, isFront: boolean): SeenTiming => ({
  shiftH: fit.shiftH,
  shiftSd: fit.shiftSd,
  isShown: fit.shiftSd < SHOWN_RATIO * fit.shiftBeforeSd,
  isFront,
});

const UNITS = { wind: 'kn', direction: '°', gust: 'kn', pressure: 'hPa', sea: 'm' } as const;

const quantityMatch = (quantity: SeenQuantity, fit: QuantityFit): QuantityMatch => ({
  quantity,
  unit: UNITS[quantity],
  meanDifference: meanOf(fit),
  typicalDifference: typicalOf(fit, quantity === 'pressure' ? fit.bias.value : 0),
  distanceSd: fit.distanceSd,
  readingCount: fit.differences.length,
  effectiveCount: fit.effectiveCount,
  agreement: agreementOf(quantity, fit),
});
