/** What a forecast covers of a way in space and time, as plain data: it goes from the planning process to the pages. */
import type { Position } from '../../../lib/geo/index.ts';
import type { QuantityId } from '../../../lib/forecast/index.ts';

export interface CoverageData {
  /** From now, or from the start of a passage that has not begun. */
  readonly fromEpochMs: number;
  /** Last instant of the plan. */
  readonly planEndEpochMs: number;
  /** Last instant of the way below: the wind of the forecast ends, or ten days are over. */
  readonly endEpochMs: number;
  /** When she is at the end of her track; null: not before `endEpochMs`. */
  readonly arrivesEpochMs: number | null;
  /** Miles of the track left at `endEpochMs`. */
  readonly leftNm: number;
  /** Where the boat will be without stopping, an hour or less apart; longitudes run on over the date line. */
  readonly way: readonly WayPlace[];
  readonly quantities: readonly QuantityCovered[];
  readonly areas: readonly AreaCovered[];
  readonly files: readonly FileCovered[];
}

export interface WayPlace extends Position {
  readonly atEpochMs: number;
}

/** One quantity in time, and where the boat will be. */
export interface QuantityCovered {
  readonly id: QuantityId;
  readonly name: string;
  /** Runs with their steps: one, or the members and the control run where their steps differ. */
  readonly runs: readonly RunCovered[];
  /** Hours of the way of which it says nothing, in order of time. */
  readonly silent: readonly SilentSpan[];
  /** Jobs with a limit on it, by name. */
  readonly neededBy: readonly string[];
  /** Of the lists in `areas`. */
  readonly areaIndex: number;
}

/** Steps of one run, or of several with the same. */
export interface RunCovered {
  /** `control`, `20 members`, `20 members and control`, `one run`. */
  readonly name: string;
  readonly baseEpochMs: number;
  /** `instant`: read between steps as far apart as half a day; `interval`: each holds over its own interval. */
  readonly kind: 'instant' | 'interval';
  readonly steps: readonly StepCovered[];
}

export interface StepCovered {
  readonly startEpochMs: number;
  readonly endEpochMs: number;
}

export interface SilentSpan {
  /** The last instant known before it, or the first of the way. */
  readonly fromEpochMs: number;
  /** The first instant known after it, or the last of the way. */
  readonly toEpochMs: number;
  readonly why: 'no-hour' | 'no-place';
}

/** A grid on the earth; of fields on several the widest. */
export interface AreaCovered {
  /** Around it, longitudes running on; null: it goes all the way round between two parallels. */
  readonly ring: readonly Position[] | null;
  readonly southLat: number;
  readonly northLat: number;
  readonly stepDeg: { readonly lat: number; readonly lon: number };
}

/** One run of a model in one file. */
export interface FileCovered {
  /** As the passage names the file. */
  readonly reference: string;
  readonly baseEpochMs: number;
  readonly firstEpochMs: number;
  readonly endEpochMs: number;
  readonly stepEndsEpochMs: readonly number[];
  readonly quantities: readonly string[];
  readonly memberCount: number;
  readonly hasControl: boolean;
}
