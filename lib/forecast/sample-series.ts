import type { GridFrame } from '../grib/index.ts';
import type { Frame, Series } from './frame.ts';
import { bilinearAt, type GridPlaces, placesOn } from './grid-places.ts';
import { bracketTimes, type TimeBrackets } from './time-bracket.ts';
import type { CoursePoints } from './weather-along.ts';

/** Points to be asked about, with their places in each grid worked out once. */
export interface AskedPoints {
  readonly points: CoursePoints;
  readonly places: Map<GridFrame, GridPlaces>;
  /** The places in the grids of a series, frame by frame. */
  readonly placesBySeries: Map<Series, readonly GridPlaces[]>;
}

export const askedPoints = (points: CoursePoints): AskedPoints => ({
  points,
  places: new Map(),
  placesBySeries: new Map(),
});

function placesOfSeries(asked: AskedPoints, series: Series): readonly GridPlaces[] {
  const known = asked.placesBySeries.get(series);
  if (known !== undefined) return known;
  const places = series.frames.map((frame) => placesIn(asked, frame.grid));
  asked.placesBySeries.set(series, places);
  return places;
}

function placesIn(asked: AskedPoints, grid: GridFrame): GridPlaces {
  const known = asked.places.get(grid);
  if (known !== undefined) return known;
  const places = placesOn(grid, asked.points);
  asked.places.set(grid, places);
  return places;
}

/** Values of a series at the asked places at given times (one per place); NaN where it does not reach. */
export function sampleSingle(asked: AskedPoints, series: Series, epochMs: Float64Array): Float32Array {
  const out = new Float32Array(epochMs.length);
  sampleComponent(asked, { series, brackets: bracketTimes(series, epochMs), component: 'first' }, out);
  return out;
}

/** Both components of a series of pairs. */
export function samplePair(
  asked: AskedPoints,
  series: Series,
  epochMs: Float64Array,
): { u: Float32Array; v: Float32Array } {
  const brackets = bracketTimes(series, epochMs);
  const [u, v] = [new Float32Array(epochMs.length), new Float32Array(epochMs.length)];
  sampleComponent(asked, { series, brackets, component: 'first' }, u);
  sampleComponent(asked, { series, brackets, component: 'second' }, v);
  return { u, v };
}

interface AskedComponent {
  readonly series: Series;
  readonly brackets: TimeBrackets;
  readonly component: 'first' | 'second';
}

/** Bilinear in space, then linear in time; a missing end makes the value missing. */
function sampleComponent(asked: AskedPoints, { series, brackets, component }: AskedComponent, out: Float32Array): void {
  const { frames } = series;
  const places = placesOfSeries(asked, series);
  const { frameIndex, nextShare } = brackets;
  for (let i = 0; i < out.length; i++) {
    const k = frameIndex[i] ?? Number.NaN;
    const earlierFrame = frames[k];
    const earlierPlaces = places[k];
    if (earlierFrame === undefined || earlierPlaces === undefined) {
      out[i] = Number.NaN;
      continue;
    }
    const earlier = bilinearAt(componentOf(earlierFrame, component), earlierPlaces, i);
    const share = nextShare[i] ?? Number.NaN;
    const nextFrame = frames[k + 1];
    const nextPlaces = places[k + 1];
    out[i] =
      share === 0 || nextFrame === undefined || nextPlaces === undefined
        ? earlier
        : earlier + (bilinearAt(componentOf(nextFrame, component), nextPlaces, i) - earlier) * share;
  }
}

function componentOf(frame: Frame, component: 'first' | 'second'): Float32Array {
  const values = component === 'first' ? frame.first : frame.second;
  if (values === null) throw new Error('a single quantity has no second component');
  return values;
}
