import {
  adjustScenarioSet,
  leadOfH,
  sampleScenarioPressure,
  sampleScenarios,
  type ScenarioSet,
} from '../../forecast/index.ts';
import { commonBias, type Difference } from './common-bias.ts';
import { type ComparedReading, comparisonOf, type Comparison, differenceOf, pointsOf } from './comparison.ts';
import { valuesOf } from './fit-reference.ts';
import { pressureSdHpa } from './reading-errors.ts';
import type { BarometerOffset, SeenQuantity, SeenWeather } from './seen-weather.ts';
import { SHIFTS_H } from './shifts.ts';

/** One in twenty readings is taken as a slip of eye or pen, three times as far off: it must not decide alone. Ours. */
const SLIP_SHARE = 0.05;
const SLIP_RATIO = 3;

/** What a reading that a scenario does not hold counts: what one counts on average. */
const USUAL_LOG = -0.5;

export interface ReadingsOfSet {
  readonly seen: readonly SeenWeather[];
  readonly barometer: BarometerOffset;
}

/**
 * Log likelihood of the readings in every scenario at every shift, scenario-major, up to a constant.
 *
 * Level and direction are the scenario's own, its timing is the shift tried. Pressure has no error in a scenario: that of
 * its lead is put to the reading's, and the barometer's offset is left open.
 */
export function scenarioLogs(set: ScenarioSet, { seen, barometer }: ReadingsOfSet): Float64Array {
  const comparison = comparisonOf(seen);
  const logs = new Float64Array(set.scenarioCount * SHIFTS_H.length);
  const seenAtEpochMs = Math.max(...seen.map(({ epochMs }) => epochMs));
  const pressureSds = seen.map(({ epochMs }) =>
    pressureSdHpa({ leadH: leadOfH(set, epochMs), isEnsemble: set.kind === 'ensemble' }),
  );
  for (const [k, tried] of SHIFTS_H.entries()) {
    const shiftH = new Float64Array(set.scenarioCount).fill(tried);
    const values = sampled(adjustScenarioSet(set, { shiftH, seenAtEpochMs, note: '' }), seen, comparison);
    for (let w = 0; w < set.scenarioCount; w++) {
      const at = { values, firstIndex: w * seen.length };
      logs[w * SHIFTS_H.length + k] = logOf(comparison, at) + pressureLog(comparison, at, { pressureSds, barometer });
    }
  }
  return logs;
}

type SampledValues = ReadonlyMap<SeenQuantity, Float32Array>;

function sampled(set: ScenarioSet, seen: readonly SeenWeather[], comparison: Comparison): SampledValues {
  const points = pointsOf(seen);
  const weather = sampleScenarios(set, points);
  const asked = [...comparison].filter(([, readings]) => readings.length > 0).map(([quantity]) => quantity);
  return new Map(
    asked.map((quantity) => [
      quantity,
      quantity === 'pressure' ? sampleScenarioPressure(set, points) : valuesOf(quantity, weather),
    ]),
  );
}

interface ScenarioAt {
  readonly values: SampledValues;
  readonly firstIndex: number;
}

function logOf(comparison: Comparison, { values, firstIndex }: ScenarioAt): number {
  let sum = 0;
  for (const [quantity, own] of values) {
    if (quantity === 'pressure') continue;
    for (const reading of comparison.get(quantity) ?? [])
      sum += readingLog(quantity, reading, { value: own[firstIndex + reading.pointIndex] ?? Number.NaN });
  }
  return sum;
}

function readingLog(
  quantity: SeenQuantity,
  { value, readingSd, countShare }: ComparedReading,
  forecast: { readonly value: number },
): number {
  if (Number.isNaN(forecast.value)) return countShare * USUAL_LOG;
  const square = (differenceOf(quantity, { read: { value }, forecast }) / readingSd) ** 2;
  const slip = (SLIP_SHARE / SLIP_RATIO) * Math.exp(-square / (2 * SLIP_RATIO ** 2));
  return countShare * Math.log((1 - SLIP_SHARE) * Math.exp(-square / 2) + slip);
}

function pressureLog(
  comparison: Comparison,
  { values, firstIndex }: ScenarioAt,
  by: { readonly pressureSds: readonly number[]; readonly barometer: BarometerOffset },
): number {
  const own = values.get('pressure');
  if (own === undefined) return 0;
  const differences: Difference[] = [];
  for (const { pointIndex, value, countShare } of comparison.get('pressure') ?? []) {
    const difference = value - (own[firstIndex + pointIndex] ?? Number.NaN);
    const errorSd = by.pressureSds[pointIndex] ?? Number.NaN;
    if (!Number.isNaN(difference)) differences.push({ value: difference, errorSd, countShare });
  }
  const prior = { value: by.barometer.offsetHpa, biasSd: by.barometer.offsetSdHpa };
  return commonBias({ differences, prior }).logWeight;
}
