import type { WeatherAlong } from '../forecast/index.ts';

type Shape = Pick<WeatherAlong, 'scenarioCount' | 'pointCount'>;

type Values = Float32Array | Float64Array;

const kept = new WeakMap<Values, Float32Array>();

/** Median over scenarios at every slot, of values laid out as in WeatherAlong; NaN where every scenario is unknown. */
export function scenarioMedians(values: Values, shape: Shape): Float32Array {
  let medians = kept.get(values);
  if (!medians) {
    medians = scenarioQuantiles(values, shape, 0.5);
    kept.set(values, medians);
  }
  return medians;
}

/** Quantile over scenarios at every slot: of the known values, linear between ranks. */
export function scenarioQuantiles(values: Values, shape: Shape, quantileProbability: number): Float32Array {
  const out = new Float32Array(shape.pointCount);
  const column = new Float64Array(shape.scenarioCount);
  for (let i = 0; i < shape.pointCount; i++) {
    out[i] = quantileOf(column, sortColumn(values, { ...shape, i }, column), quantileProbability);
  }
  return out;
}

/** The same at one slot. */
export function quantileAt(values: Values, shape: Shape, at: { i: number; quantileProbability: number }): number {
  const column = new Float64Array(shape.scenarioCount);
  return quantileOf(column, sortColumn(values, { ...shape, i: at.i }, column), at.quantileProbability);
}

/** Up to so many values insertion is the faster way to sort. */
const FEW_COUNT = 80;

/** Writes the known values of all scenarios at a slot, rising, into a column; returns how many there are. */
function sortColumn(values: Values, at: Shape & { readonly i: number }, column: Float64Array): number {
  let count = 0;
  for (let w = 0; w < at.scenarioCount; w++) {
    const value = values[w * at.pointCount + at.i] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    let place = count++;
    if (at.scenarioCount <= FEW_COUNT) {
      for (; place > 0 && (column[place - 1] ?? 0) > value; place--) column[place] = column[place - 1] ?? 0;
    }
    column[place] = value;
  }
  if (at.scenarioCount > FEW_COUNT) column.subarray(0, count).sort();
  return count;
}

function quantileOf(column: Float64Array, count: number, quantileProbability: number): number {
  if (count === 0) return Number.NaN;
  const rank = quantileProbability * (count - 1);
  const low = column[Math.floor(rank)] ?? Number.NaN;
  const high = column[Math.ceil(rank)] ?? Number.NaN;
  return low + (high - low) * (rank - Math.floor(rank));
}
