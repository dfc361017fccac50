import { groupBy } from './choose-fields.ts';
import type { Frame, Series } from './frame.ts';
import { gridKey } from './grid-kinds.ts';

/** Mean of several members, frame by frame, over those that have the frame; null for none. */
export function meanSeries(members: readonly Series[]): Series | null {
  const [first] = members;
  if (first === undefined) return null;
  const times = groupBy(
    members.flatMap((series) => series.frames),
    (frame) => `${frame.startEpochMs} ${frame.endEpochMs} ${gridKey(frame.grid)}`,
  );
  const frames = [...times.values()].flatMap((group) => meanFrame(group) ?? []);
  return { kind: first.kind, frames: frames.toSorted((a, b) => a.endEpochMs - b.endEpochMs) };
}

function meanFrame(frames: readonly Frame[]): Frame | null {
  const [model] = frames;
  if (model === undefined) return null;
  const seconds = frames.flatMap(({ second }) => second ?? []);
  return {
    ...model,
    first: meanValues(frames.map(({ first }) => first)),
    second: model.second === null ? null : meanValues(seconds),
  };
}

function meanValues(arrays: readonly Float32Array[]): Float32Array {
  const sums = new Float64Array(arrays[0]?.length ?? 0);
  for (const array of arrays) {
    for (let i = 0; i < sums.length; i++) sums[i] = (sums[i] ?? Number.NaN) + (array[i] ?? Number.NaN);
  }
  return Float32Array.from(sums, (sum) => sum / arrays.length);
}

/** A member with its distance from the mean multiplied, frames without a mean left as they are; never below `least`. */
export function inflateFromMean(
  member: Series,
  mean: Series,
  by: { readonly inflationRatio: number; readonly leastN: number },
): Series {
  const meanByTime = new Map(mean.frames.map((frame) => [`${frame.startEpochMs} ${frame.endEpochMs}`, frame]));
  const inflate = (own: Float32Array, central: Float32Array): Float32Array =>
    own.map((value, i) => {
      const centre = central[i] ?? Number.NaN;
      const inflated = centre + by.inflationRatio * (value - centre);
      return inflated < by.leastN ? by.leastN : inflated;
    });
  const frames = member.frames.map((frame) => {
    const central = meanByTime.get(`${frame.startEpochMs} ${frame.endEpochMs}`);
    if (central === undefined || gridKey(central.grid) !== gridKey(frame.grid)) return frame;
    const second = frame.second !== null && central.second !== null ? inflate(frame.second, central.second) : null;
    return { ...frame, first: inflate(frame.first, central.first), second };
  });
  return { ...member, frames };
}
