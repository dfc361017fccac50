/** Contexts of the coefficient bits (D.3), as tables over the packed flags of `code-block.ts`. */

/** Filter along columns first, then along rows: table B.1. */
export type Orientation = 'LL' | 'HL' | 'LH' | 'HH';

/** Numbers of the contexts, in the order of table D.7. */
export const CONTEXT = { zero: 0, sign: 9, refinement: 14, runLength: 17, uniform: 18 } as const;
export const CONTEXT_COUNT = 19;

/**
 * The three by three neighbourhood of a coefficient as nine bits: rows from above, in each row west, centre, east.
 * A bit says that the coefficient there is significant.
 */
const PLACE = { NW: 0, N: 1, NE: 2, W: 3, E: 5, SW: 6, S: 7, SE: 8 } as const;

const NEIGHBOURHOODS = 512;

/** Table D.1: context of a coefficient by its neighbourhood, one table for each kind of sub-band. */
export const zeroContexts: Readonly<Record<Orientation, Uint8Array>> = {
  LL: zeroTable((h, v, d) => contextOfLowRows(h, v, d)),
  LH: zeroTable((h, v, d) => contextOfLowRows(h, v, d)),
  HL: zeroTable((h, v, d) => contextOfLowRows(v, h, d)),
  HH: zeroTable((h, v, d) => contextOfHighBoth(h + v, d)),
};

function zeroTable(context: (h: number, v: number, d: number) => number): Uint8Array {
  return Uint8Array.from({ length: NEIGHBOURHOODS }, (_, near) => {
    const at = (place: keyof typeof PLACE): number => (near >> PLACE[place]) & 1;
    return context(at('W') + at('E'), at('N') + at('S'), at('NW') + at('NE') + at('SW') + at('SE'));
  });
}

/** LL and LH: significant neighbours to the sides, above and below, at the corners. HL takes the first two the other way. */
function contextOfLowRows(h: number, v: number, d: number): number {
  if (h === 2) return 8;
  if (h === 1) return v >= 1 ? 7 : d >= 1 ? 6 : 5;
  return v > 0 ? v + 2 : Math.min(d, 2);
}

function contextOfHighBoth(s: number, d: number): number {
  if (d >= 3) return 8;
  if (d === 2) return s >= 1 ? 7 : 6;
  return d === 1 ? 3 + Math.min(s, 2) : Math.min(s, 2);
}

/** In an entry of `signContexts`: the decoded bit is to be turned. */
export const SIGN_FLIP = 0x80;

/**
 * Tables D.2 and D.3: context of a sign, and `SIGN_FLIP`. Eight bits in: bits 1, 3, 5, 7 say that the neighbour to the
 * north, west, east, south is significant; bits 0, 2, 4, 6 that it is negative.
 */
export const signContexts = Uint8Array.from({ length: 256 }, (_, near) => {
  const sign = (bitIndex: number): number => [0, 0, 1, -1][(near >> bitIndex) & 3] ?? 0;
  const h = Math.sign(sign(2) + sign(4));
  const v = Math.sign(sign(0) + sign(6));
  const isFlipped = h < 0 || (h === 0 && v < 0);
  const context = CONTEXT.sign + (h === 0 ? Math.abs(v) : 3 + h * v);
  return isFlipped ? context | SIGN_FLIP : context;
});
