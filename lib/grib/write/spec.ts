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
  /** Values are kept to 2^E · 10^-D: D of 2 keeps hundredths. */
  readonly decimalScaleFactor: number;
  /** E; default 0. */
  readonly binaryScaleFactor?: number;
  /** `smallest` (default) tries both templates and keeps the shorter message. */
  readonly packing?: 'simple' | 'complex' | 'smallest';
  /** Common code table C-11; default 65535, no centre. */
  readonly centre?: number;
  /** Default 0: none. */
  readonly subcentre?: number;
  /** Code table 1.4; default by the ensemble: forecast, control or perturbed forecast. */
  readonly dataTypeCode?: number;
  /** Code table 4.3; default forecast, or ensemble forecast. */
  readonly typeOfProcess?: number;
  /** The centre's number of the model that made the forecast; default 255, none. */
  readonly processNumber?: number;
  /** Headers of the message a field was cut from, kept octet by octet; they replace what is said of them above. */
  readonly copied?: CopiedHeaders;
}

/** Sections that a cut field takes over from its own message of edition 2. */
export interface CopiedHeaders {
  /** Section 1: centre, tables, reference time, type of data. */
  readonly identification: Uint8Array;
  /** Section 4: parameter, level, time, member; null where the time has changed. */
  readonly product: Uint8Array | null;
  /** Octets 15 to 30 of Section 3: shape of the earth. */
  readonly earth: Uint8Array;
}
