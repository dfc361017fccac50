import type { Constant } from '../constant.ts';

const niosh = (x: number, unit: string, note = 'as in a calculator and a handbook that name it'): Constant => ({
  value: x,
  unit,
  sourceId: 'NIOSH_94_110',
  note,
});
const remembered = (x: number, unit: string): Constant => niosh(x, unit, 'from memory');

/** The revised lifting equation, in metres instead of its centimetres. */
export const LIFTING = {
  load: niosh(23, 'kg'),
  /** Reach and way count as at least this. */
  least: niosh(0.25, 'm'),
  bestHeight: niosh(0.75, 'm'),
  heightSlope: niosh(0.3, '1/m'),
  wayConstant: niosh(0.82, 'ratio'),
  wayInverse: niosh(0.045, 'm'),
  twistSlope: niosh(0.0032, '1/deg'),
  /** Beyond these nothing is to be lifted by hand. */
  highest: niosh(1.75, 'm'),
  longestWay: remembered(1.75, 'm'),
  farthest: remembered(0.63, 'm'),
  mostTwist: remembered(135, 'deg'),
  /** Up to 1 the load is one most people can lift; from this on it is highly hazardous. */
  hazardousIndex: niosh(3, 'ratio'),
} as const satisfies Readonly<Record<string, Constant>>;

/** How a load can be gripped. */
export type Grip = 'good' | 'fair' | 'poor';

/** `low`: hands below 0.75 m where the lift begins. @see sources.NIOSH_94_110, table 7 (from memory, seen at second hand) */
export const GRIP_RATIOS: Readonly<Record<Grip, { readonly lowRatio: number; readonly highRatio: number }>> = {
  good: { lowRatio: 1, highRatio: 1 },
  fair: { lowRatio: 0.95, highRatio: 1 },
  poor: { lowRatio: 0.9, highRatio: 0.9 },
};

/** How long lifting goes on: up to 1 h, up to 2 h, up to 8 h. */
export type LiftingSpell = 'hour' | 'two-hours' | 'day';

/** Up to so many lifts a minute; ratio by spell. */
export interface LiftFrequencyRow {
  readonly mostPerMin: number;
  readonly ratio: Readonly<Record<LiftingSpell, number>>;
}

const row = (mostPerMin: number, ratios: readonly [number, number, number]): LiftFrequencyRow => ({
  mostPerMin,
  ratio: { hour: ratios[0], 'two-hours': ratios[1], day: ratios[2] },
});

/**
 * Least often first; 0: not to be lifted so often by hand. @see sources.NIOSH_94_110, table 5, hands below 0.75 m (from
 * memory, seen at second hand)
 */
export const LIFT_FREQUENCY_LOW: readonly LiftFrequencyRow[] = [
  row(0.2, [1, 0.95, 0.85]),
  row(0.5, [0.97, 0.92, 0.81]),
  row(1, [0.94, 0.88, 0.75]),
  row(2, [0.91, 0.84, 0.65]),
  row(3, [0.88, 0.79, 0.55]),
  row(4, [0.84, 0.72, 0.45]),
  row(5, [0.8, 0.6, 0.35]),
  row(6, [0.75, 0.5, 0.27]),
  row(7, [0.7, 0.42, 0.22]),
  row(8, [0.6, 0.35, 0.18]),
  row(9, [0.52, 0.3, 0]),
  row(10, [0.45, 0.26, 0]),
  row(11, [0.41, 0, 0]),
  row(12, [0.37, 0, 0]),
];

/** The rows that differ when the hands are at 0.75 m and above; same source. */
export const LIFT_FREQUENCY_HIGH: readonly LiftFrequencyRow[] = [
  ...LIFT_FREQUENCY_LOW.filter(({ mostPerMin }) => mostPerMin <= 8),
  row(9, [0.52, 0.3, 0.15]),
  row(10, [0.45, 0.26, 0.13]),
  row(11, [0.41, 0.23, 0]),
  row(12, [0.37, 0.21, 0]),
  row(13, [0.34, 0, 0]),
  row(14, [0.31, 0, 0]),
  row(15, [0.28, 0, 0]),
];
