import type { Constant } from '../constant.ts';

/** Single figures of the limits in the cold. */
export const COLD_LIMITS = {
  /** Minutes of bare hands: air in °F + this. */
  bareHandOffset: {
    value: 5,
    unit: 'min',
    sourceId: 'ROGERS_NSMRL_1067',
    note: 'rule of thumb: minutes = °F + 5',
  },
  /** In warmer air bare hands have no limit here. */
  bareHandWarmest: {
    value: 10,
    unit: '°C',
    sourceId: null,
    note: 'engineering choice, no source: the report gives no end of the rule; 10 °C is where the wind chill index ends',
  },
  /** In a wind that lasts above this, frostbite comes sooner than the table says. */
  frostbiteSooner: {
    value: 50,
    unit: 'km/h',
    sourceId: 'EC_WIND_CHILL_HAZARDS',
    note: 'note under the table, reprint read',
  },
  /** Each warm-up break, in a warm place. */
  warmUpBreak: {
    value: 10,
    unit: 'min',
    sourceId: 'WORK_WARM_UP',
    note: 'note under the table',
  },
} as const satisfies Readonly<Record<string, Constant>>;

/** What a wind chill does to bare skin. */
export interface FrostbiteBand {
  /** Wind chill, whole degrees. */
  readonly warmestC: number;
  /** null: no colder end. */
  readonly coldestC: number | null;
  /** `low`: no frostbite to expect; `long-exposure`: the body cools when out for long. */
  readonly risk: 'low' | 'long-exposure' | 'frostbite';
  /** Minutes in which bare skin freezes; null: not to expect. */
  readonly freezesWithin: { readonly leastMin: number; readonly mostMin: number } | null;
}

/** Warmest first. @see sources.EC_WIND_CHILL_HAZARDS */
export const FROSTBITE_BANDS: readonly FrostbiteBand[] = [
  { warmestC: 0, coldestC: -9, risk: 'low', freezesWithin: null },
  { warmestC: -10, coldestC: -27, risk: 'long-exposure', freezesWithin: null },
  { warmestC: -28, coldestC: -39, risk: 'frostbite', freezesWithin: { leastMin: 10, mostMin: 30 } },
  { warmestC: -40, coldestC: -47, risk: 'frostbite', freezesWithin: { leastMin: 5, mostMin: 10 } },
  { warmestC: -48, coldestC: -54, risk: 'frostbite', freezesWithin: { leastMin: 2, mostMin: 5 } },
  { warmestC: -55, coldestC: null, risk: 'frostbite', freezesWithin: { leastMin: 0, mostMin: 2 } },
];

/** Longest stretch of work, null: as on any day, and breaks in a shift of four hours; `stop`: no work outside. */
export type WarmUpCell = { readonly longestWorkMin: number | null; readonly breaksCount: number } | 'stop';

/** One row of the schedule. */
export interface WarmUpRow {
  /** Air, whole degrees. */
  readonly warmestC: number;
  /** One cell for each wind of `WARM_UP_WINDS_KM_PER_H`. */
  readonly cells: readonly WarmUpCell[];
}

/** Winds of the columns [km/h], calm first. */
export const WARM_UP_WINDS_KM_PER_H = [0, 8, 16, 24, 32] as const;

const asUsual: WarmUpCell = { longestWorkMin: null, breaksCount: 1 };
const work75: WarmUpCell = { longestWorkMin: 75, breaksCount: 2 };
const work55: WarmUpCell = { longestWorkMin: 55, breaksCount: 3 };
const work40: WarmUpCell = { longestWorkMin: 40, breaksCount: 4 };
const work30: WarmUpCell = { longestWorkMin: 30, breaksCount: 5 };

/** Warmest first; for moderate and heavy work. @see sources.WORK_WARM_UP */
export const WARM_UP_SCHEDULE: readonly WarmUpRow[] = [
  { warmestC: -26, cells: [asUsual, asUsual, work75, work55, work40] },
  { warmestC: -29, cells: [asUsual, work75, work55, work40, work30] },
  { warmestC: -32, cells: [work75, work55, work40, work30, 'stop'] },
  { warmestC: -35, cells: [work55, work40, work30, 'stop', 'stop'] },
  { warmestC: -38, cells: [work40, work30, 'stop', 'stop', 'stop'] },
  { warmestC: -40, cells: [work30, 'stop', 'stop', 'stop', 'stop'] },
  { warmestC: -43, cells: ['stop', 'stop', 'stop', 'stop', 'stop'] },
];
