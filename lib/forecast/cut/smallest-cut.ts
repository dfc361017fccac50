/** The shortest file of edition 2 from which the weather along a way can still be read. */
import type { Result } from '../../result/index.ts';
import type { ForecastFile } from '../forecast-files.ts';
import type { QuantityId } from '../quantity.ts';
import { type CutForecast, cutForecast } from './cut-forecast.ts';
import type { CutMembers, CutPrecision, TimedPlace } from './request.ts';

/** The boat's way, and what is wanted along it. */
export interface SmallestCutQuestion {
  /** In order of time. */
  readonly places: readonly TimedPlace[];
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
  /** Room for the boat to be early, late or off her track [nm]; default 60. */
  readonly marginNm?: number;
  /** Default: the control run alone, which holds no spread. */
  readonly members?: CutMembers;
  /** Default coarse. */
  readonly precision?: CutPrecision;
}

const ALONG_TRACK: readonly QuantityId[] = ['wind', 'gust', 'seaHeight', 'wavePeriod', 'pressure', 'rain'];
const EVERY_H = 3;
const MARGIN_NM = 60;

/**
 * Wind, gust, sea height and period, pressure and rain every 3 h, at each step only at the grid points that interpolation
 * reads where the boat may be then. All that the standard lets be shared is shared, rows and columns that a step
 * does not need are left out of it where that is shorter, and values are coarse; grids are not
 * thinned, because values on the track would change.
 *
 * @returns as `cutForecast`
 */
export function smallestCut(files: readonly ForecastFile[], question: SmallestCutQuestion): Result<CutForecast> {
  const { places, marginNm = MARGIN_NM, fromEpochMs, toEpochMs, members = 'control', precision = 'coarse' } = question;
  const cut = (trimEachStep: boolean): Result<CutForecast> =>
    cutForecast(files, {
      area: { kind: 'moving', places, marginNm },
      fromEpochMs,
      toEpochMs,
      everyH: EVERY_H,
      quantities: ALONG_TRACK,
      members,
      precision,
      spareCellCount: 0,
      trimEachStep,
    });
  const [onOneGrid, trimmed] = [cut(false), cut(true)];
  if (!onOneGrid.ok || !trimmed.ok) return onOneGrid;
  return trimmed.value.bytes.length < onOneGrid.value.bytes.length ? trimmed : onOneGrid;
}
