/** What a message to be written says. Samples and cuts only need a small part of the standard. */
import type { EnsembleMember, Level, ParameterEdition2, Statistic } from '../field.ts';

/** When the values hold. */
export type WrittenValidity =
  | { readonly kind: 'instant'; readonly validEpochMs: number }
  | {
      readonly kind: 'interval';
      readonly startEpochMs: number;
      readonly endEpochMs: number;
      readonly statistic: Exclude<Statistic, 'unspecified' | 'other'>;
    };

/** Regular latitude/longitude grid whose rows run eastward; scanning mode 0 starts in the north, 64 in the south. */
export interface WrittenGrid {
  readonly ni: number;
  readonly nj: number;
  readonly first: { readonly lat: number; readonly lon: number };
  readonly iIncrementDeg: number;
  readonly jIncrementDeg: number;
  readonly scanningMode: 0 | 64;
}

/** One field to be written as one message of edition 2. All times are whole seconds. */
export interface GribMessageSpec {
  readonly parameter: Omit<ParameterEdition2, 'edition'>;
  readonly level: Level;
  readonly referenceEpochMs: number;
  readonly validity: WrittenValidity;
  /** Member of an ensemble; `typeCode` of code table 4.6. Left out: a single forecast. */
  readonly ensemble?: Omit<EnsembleMember, 'kind'>;
  readonly grid: WrittenGrid;
  /** `ni · nj` values in file order, in the unit of the WMO table; NaN is missing. */
  readonly values: ArrayLike<number>;
  /** Values are kept to 10^-D: 2 keeps hundredths. */
  readonly decimalScaleFactor: number;
  /** `smallest` (default) tries both templates and keeps the shorter message. */
  readonly packing?: 'simple' | 'complex' | 'smallest';
  /** Common code table C-11; default 65535, no centre. */
  readonly centre?: number;
}
