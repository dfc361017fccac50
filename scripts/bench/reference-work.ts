/**
 * Work that never changes, to hold times of ours against. It does what the planner does most, so that another processor,
 * memory or version of Node changes both alike: passes over typed arrays, look-ups in maps, sorting, short-lived objects.
 */
import { uniformDraws } from '../sample-forecasts/random.ts';

const VALUE_COUNT = 400_000;
const KEY_COUNT = 40_000;
const PASS_COUNT = 12;

/** @returns a figure that depends on all of it, so that none can be left out */
export function referenceWork(): number {
  const uniform = uniformDraws(1);
  const values = Float64Array.from({ length: VALUE_COUNT }, uniform);
  let total = 0;
  for (let pass = 1; pass <= PASS_COUNT; pass++) {
    for (let i = 1; i < values.length; i++) {
      const value = 0.75 * (values[i] ?? 0) + 0.25 * (values[i - 1] ?? 0);
      values[i] = value > 0.9 ? value - 0.5 : value;
      total += value > 0.5 ? 1 : 0;
    }
    total += mapped(values, pass) + ranked(values, pass);
  }
  return total;
}

function mapped(values: Float64Array, pass: number): number {
  const kept = new Map<string, { readonly index: number; readonly weight: number }>();
  for (let k = 0; k < KEY_COUNT; k++) {
    const index = (k * pass * 7) % values.length;
    kept.set(`${k % 5000} ${pass}`, { index, weight: values[index] ?? 0 });
  }
  let weight = 0;
  for (const one of kept.values()) weight += one.weight;
  return weight;
}

const ranked = (values: Float64Array, pass: number): number =>
  values.slice(pass * KEY_COUNT * 0.5, (pass + 2) * KEY_COUNT * 0.5).toSorted()[KEY_COUNT >> 1] ?? 0;
