import type { WeatherAlong } from '../forecast/index.ts';

type Shape = Pick<WeatherAlong, 'scenarioCount' | 'pointCount'>;

const kept = new WeakMap<Float32Array, Float32Array>();

/** Median over scenarios at every slot, of values laid out as in WeatherAlong; NaN where every scenario is unknown. */
export function scenarioMedians(values: Float32Array, shape: Shape): Float32Array {
  let medians = kept.get(values);
  if (!medians) {
    medians = scenarioQuantiles(values, shape, 0.5);
    kept.set(values, medians);
  }
  return medians;
}

/** Quantile over scenarios at every slot: of the known values, linear between ranks. */
export function scenarioQuantiles(values: Float32Array, shape: Shape, quantileProbability: number): Float32Array {
  const out = new Float32Array(shape.pointCount);
  for (let i = 0; i < shape.pointCount; i++) out[i] = quantileAt(values, shape, { i, quantileProbability });
  return out;
}

/** The same at one slot. */
export function quantileAt(values: Float32Array, shape: Shape, at: { i: number; quantileProbability: number }): number {
  const known: number[] = [];
  for (let w = 0; w < shape.scenarioCount; w++) {
    const value = values[w * shape.pointCount + at.i] ?? Number.NaN;
    if (!Number.isNaN(value)) known.push(value);
  }
  if (known.length === 0) return Number.NaN;
  known.sort((a, b) => a - b);
  const rank = at.quantileProbability * (known.length - 1);
  const low = known[Math.floor(rank)] ?? Number.NaN;
  const high = known[Math.ceil(rank)] ?? Number.NaN;
  return low + (high - low) * (rank - Math.floor(rank));
}
