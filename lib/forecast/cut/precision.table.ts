/**
 * Greatest error that rounding may make, in the unit of the quantity (`QUANTITIES`), of each component of a pair; for wave
 * and wind directions in degrees, for rain given as sums in mm of each sum. Ours: fine is a tenth or less of what separates two
 * forecasts of the next day, coarse is half of what a sailor reads off an instrument.
 */
import type { QuantityId } from '../quantity.ts';
import type { CutPrecision } from './request.ts';

export const GREATEST_ERRORS: Readonly<Record<QuantityId, Readonly<Record<CutPrecision, number>>>> = {
  wind: { fine: 0.1, coarse: 0.5 },
  gust: { fine: 0.1, coarse: 0.5 },
  seaHeight: { fine: 0.05, coarse: 0.1 },
  wavePeriod: { fine: 0.05, coarse: 0.25 },
  waveDirection: { fine: 0.5, coarse: 2.5 },
  pressure: { fine: 0.1, coarse: 0.5 },
  rain: { fine: 0.05, coarse: 0.25 },
  air: { fine: 0.05, coarse: 0.5 },
  humidity: { fine: 0.5, coarse: 2.5 },
  seaWater: { fine: 0.05, coarse: 0.25 },
  cape: { fine: 5, coarse: 50 },
  visibility: { fine: 0.05, coarse: 0.5 },
  cloud: { fine: 0.005, coarse: 0.05 },
  current: { fine: 0.05, coarse: 0.1 },
};

/** Greatest error of a wind direction [degrees]; its speed has that of the wind. */
export const WIND_DIRECTION_ERRORS: Readonly<Record<CutPrecision, number>> = { fine: 0.5, coarse: 2.5 };
