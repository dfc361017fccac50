import { moonAt } from '../sky/index.ts';
import { slotEpochMs } from '../time/index.ts';
import type { Conditions } from '../voyage/index.ts';
import { scenarioQuantiles, steepnessRows } from '../windows/index.ts';
import type { Spread } from './spread.ts';

/** `useful`: high and full enough to work by, if the sky lets it through. */
export type MoonSeen = 'down' | 'up' | 'useful';

/**
 * What can be read of every hour beside deck wind, sea, rain and air. Arrays stand on the slots of the picture they belong
 * to. NaN: the forecast does not hold the value there.
 */
export interface HourValues {
  /** At 10 m. */
  readonly trueWindKn: Spread;
  /** Of the reference run. */
  readonly trueWindFromDegTrue: Float32Array;
  /** Significant height over deep-water wave length. */
  readonly steepnessRatio: Spread;
  readonly seaWaterC: Float32Array;
  readonly visibilityNm: Float32Array;
  readonly moon: readonly MoonSeen[];
}

/** Reads weather and moon along a course, from a slot on. */
export function hourValues({ weather, reference, course }: Conditions, fromSlot: number): HourValues {
  const spread = (values: Float32Array | Float64Array): Spread => {
    const at = (quantileProbability: number): Float32Array =>
      scenarioQuantiles(values, weather, quantileProbability).slice(fromSlot);
    return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
  };
  const slots = Array.from(course.lat.subarray(fromSlot), (_, i) => fromSlot + i);
  return {
    trueWindKn: spread(weather.windKn),
    trueWindFromDegTrue: reference.windFromDegTrue.slice(fromSlot),
    steepnessRatio: spread(steepnessRows(weather)),
    seaWaterC: weather.seaWaterC.slice(fromSlot),
    visibilityNm: weather.visibilityNm.slice(fromSlot),
    moon: slots.map((i) => moonSeen(slotEpochMs(course.grid, i), { lat: course.lat[i] ?? 0, lon: course.lon[i] ?? 0 })),
  };
}

function moonSeen(epochMs: number, at: { lat: number; lon: number }): MoonSeen {
  const { useful, apparentAltitudeDeg } = moonAt(epochMs, at);
  if (useful) return 'useful';
  return apparentAltitudeDeg > 0 ? 'up' : 'down';
}
