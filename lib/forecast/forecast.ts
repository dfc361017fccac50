import type { Problem } from '../result/index.ts';
import type { QuantityCoverage } from './coverage.ts';
import type { Series } from './frame.ts';
import type { QuantityId } from './quantity.ts';

/** What some GRIB files say together, ready to be asked about places and instants. */
export interface Forecast {
  /** Base time of the wind (of the newest quantity where there is no wind): lead counts from here. */
  readonly baseEpochMs: number;
  /** First and last instant of the wind (of everything held where there is no wind). */
  readonly firstEpochMs: number;
  readonly endEpochMs: number;
  /** Perturbed members that hold wind, sorted; empty for a single forecast. */
  readonly memberIds: readonly string[];
  /** Whether the control run, or a forecast that is no ensemble, holds wind. */
  readonly hasControl: boolean;
  readonly held: readonly QuantityId[];
  readonly missing: readonly QuantityId[];
  readonly coverage: readonly QuantityCoverage[];
  /** What was chosen, left out or made good, in sentences for the user. */
  readonly notes: readonly string[];
  /** What was wrong with parts of the files; the rest is used. */
  readonly problems: readonly Problem[];
  /** Series by quantity and member (`control` for the control run). */
  readonly series: ReadonlyMap<QuantityId, ReadonlyMap<string, Series>>;
  /** The control run, or the members' mean where there is none. */
  readonly reference: ReadonlyMap<QuantityId, Series>;
}
