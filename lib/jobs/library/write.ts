/** Short ways to write the tables of the library. */
import type { LimitsFile, StepFile } from '../job-file.ts';
import { NO_LIMITS } from '../defaults.ts';

export type LibraryStep = StepFile & Required<Pick<StepFile, 'name' | 'place' | 'limits'>>;

export const MAIN_UP = ['full-main', 'deep-reef'];
export const MAIN_DOWN = ['headsail-only', 'bare-poles'];
export const ANY_STATE: string[] = [];

/** Minutes: least, likely, most. */
export const minutes = (leastMin: number, likelyMin: number, mostMin: number): NonNullable<StepFile['work']> => ({
  leastMin,
  likelyMin,
  mostMin,
});

type Wait = NonNullable<StepFile['waitAfter']>;

/** Hours of a background wait: least, likely, most. */
export const hours = (kind: Wait['kind'], of: readonly [number, number, number], more: Partial<Wait> = {}): Wait => ({
  kind,
  leastH: of[0],
  likelyH: of[1],
  mostH: of[2],
  ...more,
});

type Triple = readonly [ideal: number, caution: number, noGo: number];
const levels = ([ideal, caution, noGo]: Triple) => ({ ideal, caution, noGo });

/** Limits from wind over the deck [kn] and sea height [m]; daylight is preferred unless told. */
export const limits = (deckWindKn: Triple, seaHeightM: Triple, more: LimitsFile = {}): LimitsFile => ({
  ...NO_LIMITS,
  byEye: [],
  deckWindKn: levels(deckWindKn),
  seaHeightM: levels(seaHeightM),
  daylight: 'preferred',
  ...more,
});
