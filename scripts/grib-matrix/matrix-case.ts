/** One message of the oracle matrix: what ecCodes is told to write. */
import type { ValueSpread } from './field-values.ts';

/** How the values are packed. */
export interface PackingChoice {
  /** ecCodes' `packingType`. */
  readonly packingType: string;
  /** Assignments of keys that are only there once the packing is chosen; the values are then packed again. */
  readonly options?: readonly string[];
  /** Code table 5.0; null in edition 1. */
  readonly templateNumber: number | null;
  /** What is coded as bits per value is not the width asked for. */
  readonly hasOwnWidths?: true;
}

/** What our listing of the message must say, or ecCodes did not write what it was told. */
export interface AskedHeader {
  readonly templateNumber?: number | null;
  /** Null where the packing chooses them itself. */
  readonly bitsPerValue?: number | null;
  readonly productTemplate?: number;
  readonly scanningMode?: number;
}

export interface MatrixCase {
  /** File of ecCodes' samples. */
  readonly sample: string;
  /** Assignments of grid and product. */
  readonly header: readonly string[];
  readonly pointCount: number;
  /** Points of a row of the pattern the values follow. */
  readonly ni: number;
  readonly isMasked: boolean;
  readonly spread: ValueSpread;
  readonly seed: number;
  /** Null: `decimalScaleFactor` and the spread decide. */
  readonly bitsPerValue: number | null;
  readonly decimalScaleFactor: number;
  readonly packing: PackingChoice;
  readonly asked: AskedHeader;
}

/** A group of messages, one line of the table. */
export interface MatrixRow {
  readonly name: string;
  readonly cases: readonly MatrixCase[];
}
