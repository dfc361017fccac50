import { sigmaDirectionDeg, sigmaSeaHeightM, sigmaWindKn } from '../../weather/index.ts';
import type { Bias } from './common-bias.ts';
import { pressureSdHpa } from './reading-errors.ts';
import type { BarometerOffset, SeenQuantity } from './seen-weather.ts';

/** Part of a level error that lasts through a forecast; as in the scenarios. Ours. */
const LASTING_RATIO = 0.7;
const DRIFTING_RATIO = Math.sqrt(1 - LASTING_RATIO ** 2);
/** Gust over mean, for the size of its error. Common practice. */
const GUST_RATIO = 1.3;

/** Error of a single forecast at a lead, in the unit of the quantity: what lasts, and what comes and goes. */
export function levelSd(
  quantity: SeenQuantity,
  at: { readonly leadH: number; readonly value: number },
): { readonly lastingSd: number; readonly driftingSd: number } {
  if (quantity === 'direction') return { lastingSd: sigmaDirectionDeg(at.leadH), driftingSd: 0 };
  if (quantity === 'pressure')
    return { lastingSd: 0, driftingSd: pressureSdHpa({ leadH: at.leadH, isEnsemble: false }) };
  const wholeSd =
    quantity === 'sea'
      ? sigmaSeaHeightM({ seaHeightM: at.value, leadH: at.leadH })
      : sigmaWindKn(at.leadH) * (quantity === 'gust' ? GUST_RATIO : 1);
  return { lastingSd: LASTING_RATIO * wholeSd, driftingSd: DRIFTING_RATIO * wholeSd };
}

/** What a quantity may be off by all along: the barometer by its offset, the others by the lasting error. */
export const biasBefore = (quantity: SeenQuantity, lastingSd: number, barometer: BarometerOffset): Bias =>
  quantity === 'pressure'
    ? { value: barometer.offsetHpa, biasSd: barometer.offsetSdHpa }
    : { value: 0, biasSd: lastingSd };
