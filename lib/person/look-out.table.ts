import type { Constant } from './constant.ts';

const practice = (x: number, unit: string, note = ''): Constant => ({
  value: x,
  unit,
  sourceId: null,
  note: `common practice, no source, from memory${note === '' ? '' : `; ${note}`}`,
});
const choice = (x: number, unit: string, note: string): Constant => ({
  value: x,
  unit,
  sourceId: null,
  note: `engineering choice, no source; ${note}`,
});
const annex = (x: number, unit: string, note: string): Constant => ({
  value: x,
  unit,
  sourceId: 'COLREG_1972',
  note: `Annex I, section 8: ${note}`,
});

/** Settings of the look-out interval; all may be edited. */
export const LOOK_OUT = {
  /** Range to the horizon: this times √height. */
  horizon: practice(2.08, 'nm per √m', 'tables with 1.17 nm per √ft (2.12 per √m) put it 2 % further'),
  shipHeight: choice(8, 'm', 'the hull of a ship or the lights of a small one: what must be above the horizon'),
  /** Taken where the forecast holds no visibility, by day; in the dark the light's range. */
  unknownVisibility: practice(8, 'nm', 'upper end of ordinary haze, 5 … 8 nm'),
  /** Distance at which the ship must be understood and our own manoeuvre begun. */
  actAt: practice(1.5, 'nm'),
  /** From the alarm to eyes that see. */
  wake: practice(3, 'min'),
  otherSpeed: choice(20, 'kn', 'a fast merchant ship, met head-on'),
  longestInterval: practice(20, 'min', 'never more when ships are known'),
  /** One look all round from where one works outside, and how seldom at most. */
  lookOutside: practice(20 / 60, 'min', '20 s'),
  longestOutside: practice(10, 'min'),
  /** One look all round from below: climb out, look, climb back. */
  lookFromBelow: practice(2.5, 'min', '2 … 3'),
  /** Air in which lights have their range, and the visibility that belongs to it. */
  clearAir: annex(0.8, 'transmissivity per nm', 'K of the prescribed lights'),
  clearVisibility: annex(13, 'nm', 'meteorological visibility for K 0.8'),
} as const satisfies Readonly<Record<string, Constant>>;

/** Least ranges of lights by length of the vessel, longest first. */
export interface LightRanges {
  /** Length of the vessel and more. */
  readonly lengthM: number;
  readonly mastheadNm: number;
  readonly sideNm: number;
  readonly sternNm: number;
}

/** sources.COLREG_1972, Rule 22 (a) … (c). */
export const LIGHT_RANGES_NM: readonly [LightRanges, ...(readonly LightRanges[])] = [
  { lengthM: 50, mastheadNm: 6, sideNm: 3, sternNm: 3 },
  { lengthM: 20, mastheadNm: 5, sideNm: 2, sternNm: 2 },
  { lengthM: 12, mastheadNm: 3, sideNm: 2, sternNm: 2 },
  { lengthM: 0, mastheadNm: 2, sideNm: 1, sternNm: 2 },
];
