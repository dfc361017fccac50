/** What a file says about each of its fields, before any value is decoded. */
import type { Problem } from '../result/index.ts';
import type { FieldGrid } from './grid.ts';
import type { SectionPlace } from './section.ts';

/** Parameter of edition 2: discipline (code table 0.0), category (4.1) and number (4.2). */
export interface ParameterEdition2 {
  readonly edition: 2;
  readonly discipline: number;
  readonly category: number;
  readonly number: number;
}

/** Parameter of edition 1: the number means something only with the centre's table. */
export interface ParameterEdition1 {
  readonly edition: 1;
  readonly centre: number;
  readonly tableVersion: number;
  readonly number: number;
}

export type Parameter = ParameterEdition2 | ParameterEdition1;

/** A fixed surface: code table 4.5 (edition 2) or 3 (edition 1); `value` in that table's unit, null when none is coded. */
export interface FixedSurface {
  readonly typeCode: number;
  readonly value: number | null;
}

/** Level or layer; `second` is null for a single level, both are null when the product is not understood. */
export interface Level {
  readonly first: FixedSurface | null;
  readonly second: FixedSurface | null;
}

/** Statistical process over an interval: code table 4.10. `unspecified`: edition 1 range (table 5, indicator 2). */
export type Statistic =
  | 'average'
  | 'accumulation'
  | 'maximum'
  | 'minimum'
  | 'difference'
  | 'root-mean-square'
  | 'standard-deviation'
  | 'covariance'
  | 'reversed-difference'
  | 'ratio'
  | 'standardized-anomaly'
  | 'summation'
  | 'return-period'
  | 'severity'
  | 'mode'
  | 'index'
  | 'unspecified'
  | 'other';

/** One time range of an interval: code tables 4.10 and 4.11. */
export interface TimeRange {
  readonly statistic: Statistic;
  readonly statisticCode: number;
  readonly incrementCode: number;
}

/** When the values hold. A zero-length interval is passed on as coded (some centres write one at step 0). */
export type Validity =
  | { readonly kind: 'instant'; readonly validEpochMs: number }
  | {
      readonly kind: 'interval';
      readonly startEpochMs: number;
      readonly endEpochMs: number;
      readonly statistic: Statistic;
      /** Number in code table 4.10; null in edition 1. */
      readonly statisticCode: number | null;
      /**
       * All time ranges, outermost first, whose statistic is the one above. Left out where there is a single range that
       * steps through one forecast, as nearly all have.
       */
      readonly ranges?: readonly TimeRange[];
    }
  /** Product template or time coding not understood; `support` says why. */
  | { readonly kind: 'unknown' };

/** Ensemble membership: code table 4.6 (edition 2). `memberCount` is what the message claims; files do not always hold that many. */
export interface EnsembleMember {
  readonly kind: 'control' | 'perturbed';
  readonly typeCode: number;
  readonly perturbationNumber: number;
  readonly memberCount: number;
}

/** A field computed from all members (mean, spread, …): code table 4.7. */
export interface DerivedForecast {
  readonly code: number;
  readonly name: string;
  readonly memberCount: number;
}

/** In the unit of the parameter, or in seconds for periods of waves; null where none is coded. */
export type Limit = number | null;

/** Between which an event or a band lies. */
export interface Limits {
  readonly lower: Limit;
  readonly upper: Limit;
}

/** What the values are of the parameter, where they are not simply its values. */
export type Aspect =
  /** Chance [%] of an event: code table 4.9; the `probabilityNumber`-th of `probabilityCount` coded. */
  | {
      readonly kind: 'probability';
      readonly typeCode: number;
      readonly limits: Limits;
      readonly probabilityNumber: number;
      readonly probabilityCount: number;
    }
  /** Value that this percentage [0 to 100] of the possible values does not exceed. */
  | { readonly kind: 'percentile'; readonly percentileNumber: number }
  /** Waves of a band of periods [s] only: code table 4.91. */
  | { readonly kind: 'wave-periods'; readonly intervalCode: number; readonly limits: Limits }
  /** Statistic over an area around each point: code tables 4.10 and 4.15. */
  | {
      readonly kind: 'area';
      readonly statistic: Statistic;
      readonly processCode: number;
      readonly pointCount: number;
    }
  /** Forecast of a past date by a later model, whose version is dated; null when that is no date. */
  | { readonly kind: 'reforecast'; readonly modelEpochMs: number | null }
  /** Error of an analysis or a forecast. */
  | { readonly kind: 'error' };

/** How values are packed; `other` cannot be unpacked here. */
export type PackingMethod = 'simple' | 'complex' | 'second-order' | 'ieee' | 'jpeg-2000' | 'png' | 'ccsds' | 'other';

/** How values are packed. `templateNumber`: code table 5.0 (edition 2); null in edition 1. */
export interface Packing {
  readonly method: PackingMethod;
  readonly templateNumber: number | null;
  readonly description: string;
  readonly bitsPerValue: number;
  readonly decimalScaleFactor: number;
  readonly binaryScaleFactor: number;
  readonly referenceValue: number;
  /** Values stored, masked-out points excluded. */
  readonly packedCount: number;
}

/** Places the decoder needs to find a field's values again. */
export interface FieldLocation {
  /** Section 5 (edition 2) or Section 1 (edition 1, which keeps its decimal factor there). */
  readonly representation: SectionPlace;
  readonly bitmap: SectionPlace | null;
  readonly data: SectionPlace;
}

/** Why a field cannot be placed, unpacked or understood; null where it can. */
export interface Obstacles {
  readonly grid: Problem | null;
  readonly packing: Problem | null;
  readonly product: Problem | null;
}

/** One field: everything in its header. */
export interface GribField {
  readonly fileName: string;
  /** From 1, in file order. */
  readonly fieldNumber: number;
  /** From 1, in file order. */
  readonly messageNumber: number;
  /** From 1, within the message. */
  readonly submessageNumber: number;
  /** Octets before the message in its file. */
  readonly messageOffsetOctet: number;
  /** Octets of the message, as its sections add up. */
  readonly messageLengthOctets: number;
  readonly edition: 1 | 2;
  readonly parameter: Parameter;
  readonly centre: number;
  readonly subcentre: number;
  /** Code table 4.0; null in edition 1. */
  readonly productTemplate: number | null;
  readonly level: Level;
  readonly referenceEpochMs: number;
  readonly validity: Validity;
  readonly ensemble: EnsembleMember | null;
  readonly derived: DerivedForecast | null;
  /** Null when the values are those of the parameter. */
  readonly aspect: Aspect | null;
  /** Code table 1.4; null in edition 1. */
  readonly dataTypeCode: number | null;
  /** Code table 4.3 (edition 2, null when the product is not understood) or the centre's process number (edition 1). */
  readonly typeOfProcess: number | null;
  readonly packing: Packing;
  readonly hasBitmap: boolean;
  readonly grid: FieldGrid;
  readonly pointCount: number;
  /** Null when the field can be used; otherwise the first of `obstacles`. */
  readonly support: Problem | null;
  readonly obstacles: Obstacles;
  readonly location: FieldLocation;
}

/** The fields of a file, and what is wrong with the rest of it. */
export interface GribScan {
  readonly fields: readonly GribField[];
  readonly problems: readonly Problem[];
}

/** Fields of a message, numbered on from the fields before it. */
export interface ReadMessage {
  readonly fields: readonly GribField[];
  readonly problems: readonly Problem[];
  readonly nextIndex: number;
}
