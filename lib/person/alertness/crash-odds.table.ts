import type { Constant } from '../constant.ts';

const akerstedt = (x: number): Constant => ({
  value: x,
  unit: 'odds ratio per KSS point',
  sourceId: 'AKERSTEDT_2008',
  note: 'abstract; least and most: 95 % confidence interval',
});
const dawsonReid = (x: number): Constant => ({
  value: x,
  unit: 'g per 100 ml of blood',
  sourceId: 'DAWSON_REID_1997',
  note: 'at second hand; 40 people kept awake for 28 h',
});

/** Odds of a road crash for each step up the sleepiness scale. */
export const CRASH_ODDS = {
  least: akerstedt(1.41),
  likely: akerstedt(1.72),
  most: akerstedt(2.09),
} as const satisfies Readonly<Record<string, Constant>>;

/** Hours awake whose loss of performance equals that of alcohol. */
export interface AlcoholRow {
  readonly awakeH: number;
  readonly alcohol: Constant;
}

/** Shortest waking first. */
export const ALCOHOL_EQUIVALENCE: readonly AlcoholRow[] = [
  { awakeH: 17, alcohol: dawsonReid(0.05) },
  { awakeH: 24, alcohol: dawsonReid(0.1) },
];
