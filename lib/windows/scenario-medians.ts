import type { WeatherAlong } from '../forecast/index.ts';

type Shape = Pick<WeatherAlong, 'scenarioCount' | 'pointCount' | 'weights'>;

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

/**
 * Quantile over scenarios at every slot, by weight, of the known values: the least value with so much weight at or below
 * it; where that much is reached exactly, half way to the next. A scenario told as two equal ones of half its weight
 * changes nothing.
 */
export function scenarioQuantiles(values: Values, shape: Shape, quantileProbability: number): Float32Array {
  const column = new WeighedColumn(shape);
  return Float32Array.from({ length: shape.pointCount }, (_, i) => column.quantile(values, i, quantileProbability));
}

/** The same at one slot. */
export function quantileAt(values: Values, shape: Shape, at: { i: number; quantileProbability: number }): number {
  return new WeighedColumn(shape).quantile(values, at.i, at.quantileProbability);
}

/** Up to so many values insertion is the faster way to sort. */
const FEW_COUNT = 80;
/** Shares of the weight nearer to each other than this are the same: equal weights that are whole numbers differ by one. */
const SHARE_TOLERANCE = 1e-4;

/** The values of all scenarios at one slot, rising, each with its weight; written anew for each slot. */
class WeighedColumn {
  private readonly shape: Shape;
  private readonly isEven: boolean;
  private readonly values: Float64Array;
  private readonly weights: Float64Array;
  private readonly order: Int32Array;

  constructor(shape: Shape) {
    this.shape = shape;
    const { weights, scenarioCount } = shape;
    const mean = weights.reduce((sum, weight) => sum + weight, 0) / Math.max(1, scenarioCount);
    this.isEven = weights.every((weight) => Math.abs(weight - mean) <= SHARE_TOLERANCE * mean * scenarioCount);
    this.values = new Float64Array(scenarioCount);
    this.weights = new Float64Array(scenarioCount);
    this.order = new Int32Array(scenarioCount);
  }

  quantile(values: Values, i: number, quantileProbability: number): number {
    const count = this.isEven ? this.sortValues(values, i) : this.sortPairs(values, i);
    if (count === 0) return Number.NaN;
    return this.isEven ? this.byCount(count, quantileProbability) : this.byWeight(count, quantileProbability);
  }

  private sortValues(values: Values, i: number): number {
    const { scenarioCount, pointCount } = this.shape;
    const column = this.values;
    let count = 0;
    for (let w = 0; w < scenarioCount; w++) {
      const value = values[w * pointCount + i] ?? Number.NaN;
      if (Number.isNaN(value)) continue;
      let place = count++;
      if (scenarioCount <= FEW_COUNT) {
        for (; place > 0 && (column[place - 1] ?? 0) > value; place--) column[place] = column[place - 1] ?? 0;
      }
      column[place] = value;
    }
    if (scenarioCount > FEW_COUNT) column.subarray(0, count).sort();
    return count;
  }

  private sortPairs(values: Values, i: number): number {
    const { scenarioCount, pointCount, weights } = this.shape;
    const valueOf = (w: number): number => values[w * pointCount + i] ?? Number.NaN;
    let count = 0;
    for (let w = 0; w < scenarioCount; w++) if (!Number.isNaN(valueOf(w))) this.order[count++] = w;
    const order = this.order.subarray(0, count).toSorted((a, b) => valueOf(a) - valueOf(b));
    for (const [place, w] of order.entries()) {
      this.values[place] = valueOf(w);
      this.weights[place] = weights[w] ?? 0;
    }
    return count;
  }

  private byCount(count: number, quantileProbability: number): number {
    const reached = quantileProbability * count;
    const whole = Math.round(reached);
    return Math.abs(reached - whole) <= SHARE_TOLERANCE * count
      ? this.between(whole - 1, count)
      : this.at(Math.floor(reached), count);
  }

  private byWeight(count: number, quantileProbability: number): number {
    let [sumWeight, belowWeight] = [0, 0];
    for (let place = 0; place < count; place++) sumWeight += this.weights[place] ?? 0;
    const wantedWeight = quantileProbability * sumWeight;
    for (let place = 0; place < count; place++) {
      belowWeight += this.weights[place] ?? 0;
      if (Math.abs(belowWeight - wantedWeight) <= SHARE_TOLERANCE * sumWeight) return this.between(place, count);
      if (belowWeight > wantedWeight) return this.at(place, count);
    }
    return this.at(count - 1, count);
  }

  private between(k: number, count: number): number {
    const low = this.at(k, count);
    return low + (this.at(k + 1, count) - low) / 2;
  }

  private at(k: number, count: number): number {
    return this.values[Math.min(count - 1, Math.max(0, k))] ?? Number.NaN;
  }
}
