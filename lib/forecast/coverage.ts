import type { GridFrame } from '../grib/index.ts';
import { assertNever } from '../result/index.ts';
import { MS_PER_H } from '../time/index.ts';
import { type Box, lonSpanDeg } from './box.ts';
import { leastOf, mostOf } from './extremes.ts';
import type { Series } from './frame.ts';
import { boxOfGrid, latsOf } from './grid-box.ts';
import type { QuantityId } from './quantity.ts';

/** What a forecast holds of one quantity. */
export interface QuantityCoverage {
  readonly quantity: QuantityId;
  /** Which kind of it: `peak` period, `highest of the interval`. */
  readonly variant: string;
  readonly kind: 'instant' | 'interval';
  readonly baseEpochMs: number;
  readonly centreCode: number;
  readonly firstEpochMs: number;
  readonly endEpochMs: number;
  /** Shortest and longest distance between frames; null with one frame. */
  readonly stepH: { readonly least: number; readonly most: number } | null;
  readonly frameCount: number;
  /** Perturbed members that hold it. */
  readonly memberCount: number;
  readonly hasControl: boolean;
  /** As in the files, before any cropping; of the grid with the widest reach. */
  readonly area: Box;
  /** The same grid: a map need not fill the area around it. */
  readonly grid: GridFrame;
  readonly gridStepDeg: { readonly lat: number; readonly lon: number };
}

/** First and last instant of a series, and its steps. */
export function spanOfSeries(
  series: Series,
): Pick<QuantityCoverage, 'firstEpochMs' | 'endEpochMs' | 'stepH' | 'frameCount'> {
  const ends = series.frames.map((frame) => frame.endEpochMs);
  const itself = (value: number): number => value;
  const stepsH = ends.slice(1).map((end, i) => (end - (ends[i] ?? end)) / MS_PER_H);
  return {
    firstEpochMs: leastOf(series.frames, (frame) => frame.startEpochMs),
    endEpochMs: mostOf(ends, itself),
    stepH: stepsH.length === 0 ? null : { least: leastOf(stepsH, itself), most: mostOf(stepsH, itself) },
    frameCount: ends.length,
  };
}

/** Area and steps of the grid that spans the most degrees by degrees. */
export function widestGrid(grids: Iterable<GridFrame>): Pick<QuantityCoverage, 'area' | 'grid' | 'gridStepDeg'> | null {
  const extent = (grid: GridFrame): number => {
    const box = boxOfGrid(grid);
    return lonSpanDeg(box) * (box.northEast.lat - box.southWest.lat);
  };
  const [widest] = [...grids].toSorted((a, b) => extent(b) - extent(a));
  if (widest === undefined) return null;
  return { area: boxOfGrid(widest), grid: widest, gridStepDeg: stepsOf(widest) };
}

/** Metres in a degree of latitude: 60 nautical miles. */
const M_PER_DEG = 60 * 1852;

/** Steps along columns and rows [degrees]; on a map where it is true to scale, between parallels of other spacing the mean. */
export function stepsOf(grid: GridFrame): QuantityCoverage['gridStepDeg'] {
  switch (grid.kind) {
    case 'latlon':
    case 'rotated':
      return { lat: grid.latStepDeg, lon: grid.lonStepDeg };
    case 'gaussian':
    case 'mercator': {
      const [south, north] = latsOf(grid);
      return { lat: grid.rowCount > 1 ? (north - south) / (grid.rowCount - 1) : 0, lon: grid.lonStepDeg };
    }
    case 'conic':
      return { lat: grid.rowStepM / M_PER_DEG, lon: grid.columnStepM / M_PER_DEG };
    default:
      return assertNever(grid);
  }
}
