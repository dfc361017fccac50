/** Values of limits that a forecast does not hold as they are; worked out once for a course and shared by all jobs. */
import type { WeatherAlong } from '../forecast/index.ts';
import { deepWaterWave, modalHighestRatio } from '../weather/index.ts';

/** Rain a surface or a glue does not stand: any that a gauge shows in an hour. */
export const RAIN_MM_PER_H = 0.1;
/** Sea above this with true wind below STEADYING_WIND_KN leaves a boat rolling: common practice, no source. */
const UNSTEADY_SEA_M = 0.8;
const STEADYING_WIND_KN = 5;
/** Wave period taken for counting waves where the forecast holds none [s]; shorter counts more waves. */
const FALLBACK_PERIOD_S = 6;

/** Runs `make` once for each key. */
function once<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const kept = new WeakMap<K, V>();
  return (key) => {
    let value = kept.get(key);
    if (value === undefined) {
      value = make(key);
      kept.set(key, value);
    }
    return value;
  };
}

/** Sea over deep-water wave length; scenario-major. */
export const steepnessRows = once((weather: WeatherAlong): Float64Array => {
  const lengthM = Float64Array.from(weather.wavePeriodS, (wavePeriodS) => deepWaterWave(wavePeriodS).lengthM);
  return seaRows(weather, (seaHeightM, i) => seaHeightM / (lengthM[i] ?? Number.NaN));
});

/** Most probable highest wave of an hour [m]; scenario-major. */
export const highestWaveRows = once((weather: WeatherAlong): Float64Array => {
  const ratio = Float64Array.from(weather.wavePeriodS, (periodS) =>
    modalHighestRatio(3600 / (Number.isNaN(periodS) ? FALLBACK_PERIOD_S : periodS)),
  );
  return seaRows(weather, (seaHeightM, i) => seaHeightM * (ratio[i] ?? Number.NaN));
});

function seaRows(weather: WeatherAlong, valueOf: (seaHeightM: number, i: number) => number): Float64Array {
  const { seaHeightM, pointCount } = weather;
  const rows = new Float64Array(seaHeightM.length);
  for (let w = 0; w < weather.scenarioCount; w++) {
    for (let i = 0; i < pointCount; i++) {
      const k = w * pointCount + i;
      rows[k] = valueOf(seaHeightM[k] ?? Number.NaN, i);
    }
  }
  return rows;
}

/** 1 where nothing steadies the boat, else 0; NaN where that hangs on a sea the forecast does not hold. Scenario-major. */
export const steadyingRows = once((weather: WeatherAlong): Float64Array => {
  const rows = new Float64Array(weather.windKn.length);
  for (let k = 0; k < rows.length; k++) {
    const windKn = weather.windKn[k] ?? Number.NaN;
    const seaHeightM = weather.seaHeightM[k] ?? Number.NaN;
    const isUnknown = windKn < STEADYING_WIND_KN && Number.isNaN(seaHeightM);
    rows[k] = isUnknown ? Number.NaN : Number(isUnsteady({ windKn, seaHeightM }));
  }
  return rows;
});

/** True wind below 5 kn with a sea above 0.8 m: nothing steadies the boat. */
export function isUnsteady(at: { readonly windKn: number; readonly seaHeightM: number }): boolean {
  return at.windKn < STEADYING_WIND_KN && at.seaHeightM > UNSTEADY_SEA_M;
}

/** Light as numbers (index into LIGHTS). */
export const lightRow = once((light: Uint8Array): Float64Array => Float64Array.from(light));

/** Rain is kept in single precision: rain equal to the limit is not above it. */
const SEEN_RAIN_MM_PER_H = Math.fround(RAIN_MM_PER_H);

const drySpells = once((_rainMmPerH: Float32Array) => new Map<number, Float64Array>());

/**
 * Most rain [mm/h] from `beforeSlots` before each slot up to it.
 *
 * Asked for at every slot of a step, it covers the hours before the step and the step itself. NaN: not known, because
 * those hours begin before the course or before the forecast, or the forecast leaves some out, and no rain is seen in the
 * rest of them.
 */
export function drySpellRow(rainMmPerH: Float32Array, beforeSlots: number): Float64Array {
  const ofRain = drySpells(rainMmPerH);
  const row = ofRain.get(beforeSlots) ?? mostRainBefore(rainMmPerH, beforeSlots);
  ofRain.set(beforeSlots, row);
  return row;
}

function mostRainBefore(rainMmPerH: Float32Array, beforeSlots: number): Float64Array {
  const row = new Float64Array(rainMmPerH.length);
  // Slots whose rain may yet be the most of a later spell, their rain falling: front to back.
  const queue: number[] = [];
  let frontIndex = 0;
  let lastUnknownSlot = -1;
  for (const [i, rain] of rainMmPerH.entries()) {
    if (Number.isNaN(rain)) lastUnknownSlot = i;
    else {
      while (queue.length > frontIndex && (rainMmPerH[queue.at(-1) ?? 0] ?? 0) <= rain) queue.pop();
      queue.push(i);
    }
    if ((queue[frontIndex] ?? i) < i - beforeSlots) frontIndex++;
    const most = rainMmPerH[queue[frontIndex] ?? -1] ?? Number.NaN;
    // Before slot 0 nothing is known, as at a slot left out.
    const isUnknown = lastUnknownSlot >= i - beforeSlots;
    row[i] = isUnknown && !(most > SEEN_RAIN_MM_PER_H) ? Number.NaN : most;
  }
  return row;
}
