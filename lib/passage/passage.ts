import type { Boat } from '../boat/index.ts';
import type { Position } from '../geo/index.ts';
import type { Job } from '../jobs/index.ts';
import type { Watchkeeper } from '../person/index.ts';
import type { DamageCaseFile } from '../sail/index.ts';
import type { CuttingFile, Locker } from '../stock/index.ts';
import type { Track } from '../track/index.ts';
import type { PlanOrders } from './orders.ts';

/** Everything about one trip, checked: defaults filled in, library jobs resolved, references known to exist. */
export interface Passage {
  readonly name: string;
  /** null: the live clock. */
  readonly fixedNowEpochMs: number | null;
  readonly start: { readonly epochMs: number; readonly position: Position; readonly sailStateId: string };
  /** Begins at the start position. */
  readonly track: Track;
  readonly boat: Boat;
  readonly watchkeeper: Watchkeeper;
  readonly jobs: readonly Job[];
  readonly locker: Locker;
  /** Pieces to cut from the bars of the locker; null: none. */
  readonly cutting: CuttingFile | null;
  /** Sails and the damage on them; every tear can be placed. */
  readonly sails: readonly DamageCaseFile[];
  readonly orders: PlanOrders;
  /** File names or addresses, relative ones as written. */
  readonly forecasts: readonly string[];
  readonly settings: Settings;
  /** Paths of what the file leaves to its default: `settings.slotMin`, `watchkeeper.sleeps`, `jobs.stitch.priority`. */
  readonly defaultsUsed: readonly string[];
}

/** Settings with their defaults filled in; names and defaults are those of the published passage file. */
export interface Settings {
  readonly wantedProbability: number;
  readonly probabilityTolerancePoints: number;
  readonly slotMin: number;
  /** null: to the end of the forecast, 240 h at most. */
  readonly horizonH: number | null;
  readonly seed: number;
  readonly errorModel: 'default' | 'none';
  readonly contingencyShare: number;
  readonly contingencyLeastMin: number;
  readonly planningLimitRatio: number;
  readonly keepPlanUnlessBetterPoints: number;
  readonly spreadInflationRatio: number;
  readonly gustRatio: number;
  readonly deckHeightM: number;
  readonly traffic: 'ocean' | 'lane' | 'coast' | 'ice';
  readonly longestSleepMin: number;
  /** Ship's time, minutes ahead of UTC. */
  readonly shipTimeOffsetMin: number;
  /** Light air leaves an old swell unsteadied: true wind below 5 kn with sea above 0.8 m. */
  readonly steadyingWindRule: boolean;
  /** Height of the eye above the water, for the look-out interval. */
  readonly eyeHeightM: number;
  /** Speed of a ship met head-on. */
  readonly otherShipKn: number;
  /** Never longer between two looks round. */
  readonly lookoutLongestMin: number;
}
