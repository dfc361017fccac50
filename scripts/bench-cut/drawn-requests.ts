/** Lockers and wants drawn from a seed, in shapes that are hard in different ways. */
import type { CutRequest, StockLine, WantedPiece } from '../../lib/stock/index.ts';

/** A shape of request; `draw` gives the same request for the same numbers. */
export interface Shape {
  readonly name: string;
  readonly draw: (draw: Draw) => CutRequest;
}

/** Draws whole multiples of a step, both ends included. */
export type Draw = (least: number, most: number, step?: number) => number;

/** Mulberry32: a small generator of even numbers, seeded. */
export function drawFrom(seed: number): Draw {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return (least, most, step = 1) => least + step * Math.floor(next() * (Math.floor((most - least) / step) + 1));
}

const piece = (index: number, lengthMm: number, more: Partial<WantedPiece> = {}): WantedPiece => ({
  id: `piece-${index + 1}`,
  lengthMm,
  diameterMm: 10,
  count: 1,
  priority: 5,
  maxJoinCount: 0,
  overlapMm: 200,
  endAllowanceMm: 0,
  shortestPartMm: 400,
  noJoinZonesMm: [],
  ...more,
});

const bars = (lengthMm: number, count: number, index = 0): StockLine => ({
  id: `bar-${index + 1}`,
  lengthMm,
  diameterMm: 10,
  count,
});

const request = (stock: readonly StockLine[], pieces: readonly WantedPiece[]): CutRequest => ({
  kerfMm: 3,
  stock,
  pieces,
  defaultsUsed: [],
});

const many = <T>(count: number, make: (index: number) => T): readonly T[] =>
  Array.from({ length: count }, (_, k) => make(k));

const joinable = (draw: Draw, index: number, lengthMm: number): WantedPiece =>
  piece(index, lengthMm, {
    maxJoinCount: draw(1, 2),
    overlapMm: draw(120, 240, 10),
    shortestPartMm: draw(300, 600, 50),
    noJoinZonesMm: [
      [0, draw(200, 500, 50)],
      [Math.round(lengthMm / 2) - 150, Math.round(lengthMm / 2) + 150],
      [lengthMm - draw(200, 500, 50), lengthMm],
    ],
  });

/** Forty pieces that are not joined. */
export const WHOLE_SHAPES: readonly Shape[] = [
  {
    name: 'any millimetre, bars of 6 m',
    draw: (draw) =>
      request(
        [bars(6000, 40)],
        many(40, (k) => piece(k, draw(300, 2900))),
      ),
  },
  {
    name: 'thirds of a bar',
    draw: (draw) =>
      request(
        [bars(6000, 40)],
        many(40, (k) => piece(k, draw(1300, 2900))),
      ),
  },
  {
    name: 'steps of 5 mm, three bar lengths',
    draw: (draw) =>
      request(
        [bars(6000, 10, 0), bars(4000, 10, 1), bars(3000, 10, 2)],
        many(40, (k) => piece(k, draw(400, 2800, 5))),
      ),
  },
  {
    name: 'ten kinds of four',
    draw: (draw) =>
      request(
        [bars(6000, 40)],
        many(10, (k) => piece(k, draw(400, 3500, 10), { count: 4 })),
      ),
  },
  {
    name: 'off-cuts of all lengths',
    draw: (draw) =>
      request(
        many(30, (k) => bars(draw(900, 6000), 1, k)),
        many(40, (k) => piece(k, draw(300, 2200))),
      ),
  },
  {
    name: 'too little stock, priorities',
    draw: (draw) =>
      request(
        [bars(6000, 6)],
        many(40, (k) => piece(k, draw(400, 2800, 5), { priority: draw(1, 9) })),
      ),
  },
];

/** Eight to twelve pieces that may be joined. */
export const JOINED_SHAPES: readonly Shape[] = [
  {
    name: 'tight: bars little longer than the pieces together',
    draw: (draw) => {
      const pieces = many(draw(8, 12), (k) => joinable(draw, k, draw(1500, 3800, 5)));
      const wantedMm = pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
      return request(cutInto(draw, wantedMm * 1.06, 1500, 4500), pieces);
    },
  },
  {
    name: 'long pieces, short bars',
    draw: (draw) => {
      const pieces = many(draw(8, 12), (k) => joinable(draw, k, draw(2600, 3800, 10)));
      return request([bars(2000, 14, 0), bars(2500, 8, 1), bars(3000, 4, 2)], pieces);
    },
  },
  {
    name: 'off-cuts, some pieces whole',
    draw: (draw) => {
      const pieces = many(draw(8, 12), (k) =>
        k % 2 === 0 ? joinable(draw, k, draw(2000, 4000, 5)) : piece(k, draw(600, 2500, 5)),
      );
      const wantedMm = pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
      return request(cutInto(draw, wantedMm * 1.25, 900, 5000), pieces);
    },
  },
  {
    name: 'too little stock, priorities',
    draw: (draw) => {
      const pieces = many(draw(8, 10), (k) => ({ ...joinable(draw, k, draw(1500, 3800, 10)), priority: draw(1, 9) }));
      const wantedMm = pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
      return request(cutInto(draw, wantedMm * 0.75, 1500, 4500), pieces);
    },
  },
];

/** Bars of drawn lengths that add up to about so much. */
function cutInto(draw: Draw, wholeMm: number, leastMm: number, mostMm: number): readonly StockLine[] {
  const stock: StockLine[] = [];
  for (let leftMm = Math.round(wholeMm); leftMm >= leastMm;) {
    const lengthMm = Math.min(leftMm, draw(leastMm, mostMm, 5));
    stock.push(bars(lengthMm, 1, stock.length));
    leftMm -= lengthMm;
  }
  return stock;
}
