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

/** What the hour itself does to work, asked slot by slot and worked out once; NaN: the forecast does not say. */
export interface SlotFacts {
  /** Wet-bulb globe temperature in the sun with little wind [°C]. */
  wbgtSunC(i: number): number;
  /** The same in the shade. */
  wbgtShadeC(i: number): number;
  /** Time factor of the heat; 1 where the forecast does not say. */
  heatRatio(i: number, of: { effort: Effort; isInSun: boolean }): number;
  /** Longest time without a look all round. */
  lookoutMin(i: number): number;
}

/** Heat that slows work by less than a hundredth is not felt: our choice. Heavy work is not slowed so much below this. */
const FELT_HEAT_RATIO = 1.01;
const UNFELT_WBGT_C = 22;

type FactSettings = Pick<TableSettings, 'timeFactors' | 'lookout'>;

const kept = new WeakMap<Conditions, { readonly settings: FactSettings; readonly facts: SlotFacts }>();

/** The facts of the slots of a course. */
export function slotFacts(conditions: Conditions, settings: FactSettings): SlotFacts {
  const known = kept.get(conditions);
  const { timeFactors, lookout } = settings;
  if (known !== undefined && known.settings.timeFactors === timeFactors && known.settings.lookout === lookout)
    return known.facts;
  const facts = freshFacts(conditions, settings);
  kept.set(conditions, { settings: { timeFactors, lookout }, facts });
  return facts;
}

function freshFacts(conditions: Conditions, settings: FactSettings): SlotFacts {
  const count = conditions.light.length;
  const { wbgtAdjustC } = settings.timeFactors;
  const wbgtSunC = onceEach(count, (i) => wbgtOf(conditions, settings, i, wbgtEstimateC) + wbgtAdjustC);
  // In the shade nothing shines on the globe: it takes the temperature of the air.
  const shadeC = (of: Air): number => wbgtShadeC({ naturalWetBulbC: wetBulbC(of), globeC: of.airC });
  const wbgtInShadeC = onceEach(count, (i) => wbgtOf(conditions, settings, i, shadeC) + wbgtAdjustC);
  return {
    wbgtSunC,
    wbgtShadeC: wbgtInShadeC,
    heatRatio: (i, { effort, isInSun }) => feltHeatRatio(isInSun ? wbgtSunC(i) : wbgtInShadeC(i), effort),
    lookoutMin: onceEach(count, (i) => lookoutAt(conditions, settings, i).intervalMin),
  };
}

/** Values worked out when they are first asked for. */
function onceEach(count: number, of: (i: number) => number): (i: number) => number {
  const values = new Float64Array(count);
  const isKnown = new Uint8Array(count);
  return (i) => {
    if (isKnown[i] !== 1) {
      values[i] = of(i);
      isKnown[i] = 1;
    }
    return values[i] ?? Number.NaN;
  };
}

interface Air {
  readonly airC: number;
  readonly humidityRatio: number;
}

function wbgtOf({ weather }: Conditions, { timeFactors }: FactSettings, i: number, wbgtC: (of: Air) => number): number {
  const airC = weather.airC[i] ?? Number.NaN;
  const humidityRatio = weather.humidityRatio[i] ?? Number.NaN;
  if (Number.isNaN(airC)) return Number.NaN;
  return wbgtC({ airC, humidityRatio: Number.isNaN(humidityRatio) ? timeFactors.assumedHumidityRatio : humidityRatio });
}

function feltHeatRatio(wbgtC: number, effort: Effort): number {
  // Unknown fails the comparison.
  if (!(wbgtC >= UNFELT_WBGT_C)) return 1;
  const ratio = heatFactorRatio({ wbgtC, effort });
  return ratio < FELT_HEAT_RATIO ? 1 : ratio;
}

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
