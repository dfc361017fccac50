/** What is asked of the engine, and what it tells. */
import type { QuantityId } from '../../../lib/forecast/index.ts';
import type { ForecastCredit, ForecastStore } from '../../stores/index.ts';
import type { FetchTarget } from '../sources/plan-targets.ts';
import type { Meter } from './meter.ts';
import type { Pace } from './pace.ts';
import type { World } from './world.ts';

export interface FetchLimits {
  /** Largest whole of all files [octets]. */
  readonly mostOctets: number;
  /** Cap on the mean rate [octets/s]; null: none. */
  readonly mostOctetsPerS: number | null;
  /** Tries in a row that bring nothing new, before giving up. */
  readonly tryCount: number;
  /** Time until an answer begins. */
  readonly connectMs: number;
  /** Longest pause within an answer. */
  readonly idleMs: number;
}

export const DEFAULT_LIMITS: FetchLimits = {
  mostOctets: 1_000_000_000,
  mostOctetsPerS: null,
  tryCount: 8,
  connectMs: 60_000,
  idleMs: 60_000,
};

/** Where a whole forecast goes. */
export type Destination =
  | { readonly kind: 'store'; readonly forecasts: ForecastStore; readonly credit?: ForecastCredit }
  | { readonly kind: 'file'; readonly path: string };

export interface FetchRequest {
  readonly targets: readonly FetchTarget[];
  /** Name the forecast has in the store and in messages. */
  readonly fileName: string;
  readonly destination: Destination;
  /** Folder for what has come so far; the same folder next time, and the fetch goes on. */
  readonly keepFolder: string;
  /** Quantities that must be there at some step. */
  readonly mustHold: readonly QuantityId[];
  readonly limits: FetchLimits;
}

/** A forecast that was fetched, found good and put where it belongs. */
export interface FetchedForecast {
  /** SHA-256 of the content, 64 hexadecimal digits. */
  readonly hash: string;
  readonly sizeOctets: number;
  /** False: the store had this very content before, and its entry stays as it is. */
  readonly isNew: boolean;
  readonly fieldCount: number;
  /** Quantities Slatch reads in it. */
  readonly quantities: readonly QuantityId[];
  /** Messages wanted that the source does not list, with how many files: ordinary at the first step. */
  readonly missing: readonly string[];
}

/** What the engine works with. */
export interface Workshop {
  readonly world: World;
  readonly limits: FetchLimits;
  readonly pace: Pace;
  readonly meter: Meter;
  readonly signal: AbortSignal;
  /** Octets of all other files of this fetch. */
  readonly otherOctets: () => number;
}
