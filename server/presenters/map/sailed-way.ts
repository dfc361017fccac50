import type { Position } from '../../../lib/geo/index.ts';
import type { Track } from '../../../lib/track/index.ts';

/** Where the boat goes, beside what a plan says of it. */
export interface SailedWay {
  readonly track: Track;
  /** Where she is when the plan begins. */
  readonly now: Position;
  /** Work under a handling that runs before the wind, in order of time. */
  readonly runs: readonly RunOff[];
}

/** How one piece of work takes the boat down the wind. */
export interface RunOff {
  readonly jobId: string;
  readonly startUtc: string;
  /** Way made good at its start, drift included. */
  readonly towardDegTrue: number;
  readonly speedKn: number;
  /** Work as planned with its contingency. */
  readonly heldMin: number;
}
