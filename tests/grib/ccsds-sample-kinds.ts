/** Invented samples of every temper, to be coded: each calls for other options of the coding. */

/** Whole numbers from 0 to 2^bits - 1. `next` draws from [0, 1). */
type MakeSample = (at: { readonly index: number; readonly greatest: number; readonly next: () => number }) => number;

const triangle = (index: number, greatest: number): number => Math.abs((index % (2 * greatest + 2)) - greatest);

/** Geometric: mostly 0, seldom large. */
const rare = (next: () => number, greatest: number): number =>
  next() < 0.9 ? 0 : Math.min(greatest, Math.floor(-Math.log(1 - next()) * (1 + greatest / 8)));

export const SAMPLE_KINDS = {
  constant: ({ greatest }) => Math.floor(greatest / 3),
  smooth: ({ index, greatest, next }) =>
    Math.round((0.5 + 0.45 * Math.sin(index / 37)) * greatest + (next() - 0.5) * Math.min(greatest / 64, 6)),
  noise: ({ greatest, next }) => Math.floor(next() * (greatest + 1)),
  sparse: ({ greatest, next }) => rare(next, greatest),
  extremes: ({ index, greatest }) => (index % 2) * greatest,
  ramps: ({ index, greatest }) => (greatest > 1e6 ? (index * 65_537) % (greatest + 1) : triangle(index, greatest)),
  small: ({ greatest, next }) => Math.min(greatest, Math.floor(next() * next() * 4)),
  /** Differences that double every eight samples, from 0 to the greatest and again. */
  growing: ({ index, greatest, next }) =>
    greatest / 2 + (next() - 0.5) * 2 ** (Math.floor(index / 8) % (Math.log2(greatest + 1) + 1)),
  bursts: ({ index, greatest, next }) => (index % 700 < 600 ? 0 : Math.floor(next() * (greatest + 1))),
} as const satisfies Record<string, MakeSample>;

export type SampleKind = keyof typeof SAMPLE_KINDS;

/** Mixed congruential generator modulo 2^32 (Numerical Recipes, 2nd edition, section 7.1: 1664525, 1013904223). */
export function draws(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

export function makeSamples(kind: SampleKind, bitsPerValue: number, count: number): number[] {
  const greatest = 2 ** bitsPerValue - 1;
  const next = draws(bitsPerValue * 1000 + count);
  const make: MakeSample = SAMPLE_KINDS[kind];
  return Array.from({ length: count }, (_, index) =>
    Math.max(0, Math.min(greatest, Math.round(make({ index, greatest, next })))),
  );
}
