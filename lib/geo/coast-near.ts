import { radFromDeg } from '../units/index.ts';
import type { Coastline } from './coast-ahead.ts';
import { NM_PER_DEG, type Position } from './position.ts';

/**
 * The part of a coastline that lies within a distance of a place, so that asking it many times takes less: every piece of
 * which any point is so near is in it, and some that are a little farther.
 *
 * A piece of a great circle has no point nearer than its nearer end by more than half its length.
 *
 * @param withinNm below 10 800 nm, half the way round
 */
export function coastNear({ vectors }: Coastline, around: Position, withinNm: number): Coastline {
  const [latRad, lonRad] = [radFromDeg(around.lat), radFromDeg(around.lon)];
  const centre = [Math.cos(latRad) * Math.cos(lonRad), Math.cos(latRad) * Math.sin(lonRad), Math.sin(latRad)] as const;
  const withinRad = radFromDeg(withinNm / NM_PER_DEG);
  const near: number[] = [];
  let lastIndex = -1;
  let lastAwayRad = Number.NaN;
  for (let i = 0; i < vectors.length; i += 3) {
    const [x, y, z] = [vectors[i] ?? Number.NaN, vectors[i + 1] ?? Number.NaN, vectors[i + 2] ?? Number.NaN];
    const awayRad = angleRad(x * centre[0] + y * centre[1] + z * centre[2]);
    const before = vectors.subarray(Math.max(0, i - 3), i);
    // NaN ends a line: no piece begins or ends there.
    const lengthRad = angleRad(
      (before[0] ?? Number.NaN) * x + (before[1] ?? Number.NaN) * y + (before[2] ?? Number.NaN) * z,
    );
    if (Math.min(awayRad, lastAwayRad) - lengthRad / 2 <= withinRad) {
      if (lastIndex !== i - 3) near.push(Number.NaN, Number.NaN, Number.NaN, ...before);
      near.push(x, y, z);
      lastIndex = i;
    }
    lastAwayRad = awayRad;
  }
  return { vectors: Float64Array.from(near) };
}

/** Rounding may carry the cosine of a small angle over 1. */
const angleRad = (cosineRatio: number): number => Math.acos(Math.min(1, Math.max(-1, cosineRatio)));
