import { DIRECTION_ROWS } from './direction-numbers.table.ts';
import { mixedBits } from './hash.ts';

/** Dimensions there are direction numbers for. */
export const SOBOL_DIMENSION_COUNT = DIRECTION_ROWS.length + 1;

const WORD = 2 ** 32;

/**
 * Points of the Sobol sequence in Gray-code order, the first included, one array per dimension, values in [0, 1).
 *
 * With a seed every dimension is scrambled on its own (Owen's nested scrambling by the hash of Laine and Karras),
 * which keeps the net and makes each value uniform; null: the sequence as it stands. Throws beyond
 * `SOBOL_DIMENSION_COUNT` dimensions.
 */
export function sobolPoints(of: {
  readonly pointCount: number;
  readonly dimensionCount: number;
  readonly seed: number | null;
}): readonly Float64Array[] {
  return Array.from({ length: of.dimensionCount }, (_, dimensionIndex) =>
    sobolColumn({
      pointCount: of.pointCount,
      dimensionIndex,
      scrambleBits: of.seed === null ? null : mixedBits(of.seed + mixedBits(dimensionIndex)),
    }),
  );
}

/** One dimension of the sequence. */
export function sobolColumn(of: {
  readonly pointCount: number;
  readonly dimensionIndex: number;
  readonly scrambleBits: number | null;
}): Float64Array {
  const directions = directionBits(of.dimensionIndex);
  const column = new Float64Array(of.pointCount);
  let x = 0;
  for (let i = 0; i < of.pointCount; i++) {
    // Scrambled values stand in the middle of their cell, so that none is 0.
    column[i] = of.scrambleBits === null ? x / WORD : (owenScrambled(x, of.scrambleBits) + 0.5) / WORD;
    x = (x ^ (directions[31 - Math.clz32(~i & (i + 1))] ?? 0)) >>> 0;
  }
  return column;
}

/** The 32 direction numbers of a dimension, as binary fractions of 2^32. */
function directionBits(dimensionIndex: number): Uint32Array {
  const directions = new Uint32Array(32);
  if (dimensionIndex === 0) return directions.map((_, bit) => 2 ** (31 - bit));
  const row = DIRECTION_ROWS[dimensionIndex - 1];
  if (row === undefined) throw new Error(`the table has ${SOBOL_DIMENSION_COUNT} dimensions`);
  const { degreeCount, innerBits, initialNumbers } = row;
  for (let bit = 0; bit < 32; bit++) {
    if (bit < degreeCount) {
      directions[bit] = (initialNumbers[bit] ?? 0) * 2 ** (31 - bit);
      continue;
    }
    const oldest = directions[bit - degreeCount] ?? 0;
    let next = oldest ^ (oldest >>> degreeCount);
    for (let k = 1; k < degreeCount; k++) {
      if (((innerBits >>> (degreeCount - 1 - k)) & 1) === 1) next ^= directions[bit - k] ?? 0;
    }
    directions[bit] = next >>> 0;
  }
  return directions;
}

/**
 * Owen's nested uniform scrambling: whether a bit is turned over depends on all bits above it. Hash of S. Laine and
 * T. Karras, "Stratified sampling for stochastic transparency", Computer Graphics Forum 30 (2011), on reversed bits.
 */
function owenScrambled(bits: number, seed: number): number {
  let x = (reversedBits(bits) + seed) >>> 0;
  x ^= Math.imul(x, 0x6c50b47c);
  x ^= Math.imul(x, 0xb82f1e52);
  x ^= Math.imul(x, 0xc7afe638);
  x ^= Math.imul(x, 0x8d22f6e6);
  return reversedBits(x >>> 0);
}

function reversedBits(bits: number): number {
  let x = bits;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return ((x >>> 16) | (x << 16)) >>> 0;
}
