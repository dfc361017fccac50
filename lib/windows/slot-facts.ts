import {
  heatFactorRatio,
  lookoutInterval,
  wbgtEstimateC,
  wbgtShadeC,
  wetBulbC,
  type Effort,
  type LookoutInterval,
} from '../person/index.ts';
import type { Conditions } from '../voyage/index.ts';
import type { TableSettings } from './window-table.ts';

/** What the hour itself does to work, one value per slot; NaN: the forecast does not say. */
export interface SlotFacts {
  /** Wet-bulb globe temperature in the sun with little wind, and in the shade. */
  readonly wbgtSunC: Float64Array;
  readonly wbgtShadeC: Float64Array;
  /** Time factor of the heat by effort; 1 where the forecast does not say. */
  readonly heatSunRatio: Readonly<Record<Effort, Float64Array>>;
  readonly heatShadeRatio: Readonly<Record<Effort, Float64Array>>;
  /** Longest time without a look all round. */
  readonly lookoutMin: Float64Array;
}

/** Heat that slows work by less than a hundredth is not felt: our choice. */
const FELT_HEAT_RATIO = 1.01;

type FactSettings = Pick<TableSettings, 'timeFactors' | 'lookout'>;

const kept = new WeakMap<Conditions, { readonly settings: FactSettings; readonly facts: SlotFacts }>();

/** The facts of every slot of a course; worked out once for each course. */
export function slotFacts(conditions: Conditions, settings: FactSettings): SlotFacts {
  const known = kept.get(conditions);
  const { timeFactors, lookout } = settings;
  if (known !== undefined && known.settings.timeFactors === timeFactors && known.settings.lookout === lookout)
    return known.facts;
  const facts = { ...warmthAlong(conditions, settings), lookoutMin: lookoutAlong(conditions, settings) };
  kept.set(conditions, { settings: { timeFactors, lookout }, facts });
  return facts;
}

function warmthAlong({ weather }: Conditions, { timeFactors }: FactSettings): Omit<SlotFacts, 'lookoutMin'> {
  const { assumedHumidityRatio, wbgtAdjustC } = timeFactors;
  const air = Array.from(weather.airC, (airC, i) => {
    const humidityRatio = weather.humidityRatio[i] ?? Number.NaN;
    return { airC, humidityRatio: Number.isNaN(humidityRatio) ? assumedHumidityRatio : humidityRatio };
  });
  const along = (wbgtC: (of: { airC: number; humidityRatio: number }) => number): Float64Array =>
    Float64Array.from(air, (of) => (Number.isNaN(of.airC) ? Number.NaN : wbgtC(of) + wbgtAdjustC));
  const sunC = along(wbgtEstimateC);
  // In the shade nothing shines on the globe: it takes the temperature of the air.
  const shadeC = along((of) => wbgtShadeC({ naturalWetBulbC: wetBulbC(of), globeC: of.airC }));
  return { wbgtSunC: sunC, wbgtShadeC: shadeC, heatSunRatio: heatRatios(sunC), heatShadeRatio: heatRatios(shadeC) };
}

function heatRatios(wbgtAlongC: Float64Array): Readonly<Record<Effort, Float64Array>> {
  const of = (effort: Effort): Float64Array =>
    wbgtAlongC.map((wbgtC) => {
      const ratio = Number.isNaN(wbgtC) ? 1 : heatFactorRatio({ wbgtC, effort });
      return ratio < FELT_HEAT_RATIO ? 1 : ratio;
    });
  return { light: of('light'), moderate: of('moderate'), heavy: of('heavy') };
}

const lookoutAlong = (conditions: Conditions, settings: FactSettings): Float64Array =>
  Float64Array.from(conditions.light, (_, i) => lookoutAt(conditions, settings, i).intervalMin);

/** Longest time without a look all round in a slot, with what sets it. */
export function lookoutAt(
  { course, light, weather }: Conditions,
  { lookout }: Pick<TableSettings, 'lookout'>,
  i: number,
): LookoutInterval {
  // The last slot goes on as the one before it.
  const from = Math.max(0, Math.min(i, course.grid.slotCount - 2));
  const sailedNm = (course.alongNm[from + 1] ?? 0) - (course.alongNm[from] ?? 0);
  const visibilityNm = weather.visibilityNm[i] ?? Number.NaN;
  return lookoutInterval({
    eyeM: lookout.eyeHeightM,
    visibilityNm: Number.isNaN(visibilityNm) ? null : visibilityNm,
    isDark: (light[i] ?? 0) > 1,
    ownKn: Math.max(0, sailedNm / (course.grid.slotMin / 60)),
    otherKn: lookout.otherShipKn,
    longestMin: lookout.longestMin,
  });
}
