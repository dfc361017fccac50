import type { CutRequest, WantedPiece } from '../../../lib/stock/index.ts';

/** Numbers in [0, 1) from a seed (mulberry32, public domain). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A small request on a grid of 100 mm: short bars, pieces some of which may be joined, zones, priorities. */
export function smallRequest(seed: number): CutRequest {
  const random = randomFrom(seed);
  const whole = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1));
  const joins = random() < 0.7;
  const stock = Array.from({ length: whole(1, joins ? 4 : 5) }, (_, k) => ({
    id: `bar-${k}`,
    lengthMm: 100 * whole(4, joins ? 16 : 30),
    diameterMm: 10,
    count: 1,
  }));
  const isByPriority = random() < 0.5;
  const pieces = Array.from({ length: whole(1, joins ? 4 : 7) }, (_, k): WantedPiece => {
    const steps = whole(3, joins ? 20 : 14);
    const zones = Array.from({ length: random() < 0.5 ? whole(1, 2) : 0 }, () => {
      const from = whole(0, steps - 1);
      return [100 * from, 100 * whole(from, steps)] as const;
    });
    return {
      id: `piece-${k}`,
      lengthMm: 100 * steps,
      diameterMm: 10,
      count: 1,
      priority: isByPriority ? whole(1, 9) : 5,
      maxJoinCount: joins ? whole(0, 2) : 0,
      overlapMm: 100 * whole(1, 2),
      endAllowanceMm: 0,
      shortestPartMm: 100 * whole(1, 4),
      noJoinZonesMm: zones,
    };
  });
  return { kerfMm: random() < 0.5 ? 0 : 100, stock, pieces, defaultsUsed: [] };
}

/** A request of odd millimetres, several diameters, counts, allowances; bars for about as much as is wanted. */
export function oddRequest(seed: number): CutRequest {
  const random = randomFrom(seed);
  const whole = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1));
  const diametersMm = [8, 9.5, 12].slice(0, whole(1, 3));
  const anyOf = (list: readonly number[]): number => list[whole(0, list.length - 1)] ?? 0;
  const pieces = Array.from({ length: whole(2, 7) }, (_, k): WantedPiece => {
    const lengthMm = whole(4000, 42_000) / 10;
    return {
      id: `piece-${k}`,
      lengthMm,
      diameterMm: anyOf(diametersMm),
      count: whole(0, 3),
      priority: whole(1, 9),
      maxJoinCount: whole(0, 2),
      overlapMm: whole(80, 240),
      endAllowanceMm: random() < 0.5 ? 0 : whole(5, 300),
      shortestPartMm: whole(0, 600),
      noJoinZonesMm:
        random() < 0.5
          ? []
          : [
              [0, whole(100, 600)],
              [lengthMm / 2, lengthMm / 2],
            ].map(([a = 0, b = 0]) => [Math.round(a), Math.round(b)] as const),
    };
  });
  const stock = Array.from({ length: whole(2, 6) }, (_, k) => ({
    id: `bar-${k}`,
    lengthMm: whole(8000, 60_000) / 10,
    diameterMm: anyOf(diametersMm),
    count: whole(0, 3),
  }));
  return { kerfMm: whole(0, 40) / 10, stock, pieces, defaultsUsed: [] };
}
