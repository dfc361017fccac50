import type { PlacedProblem } from '../new-passage/index.ts';
import type { StoredForecast } from '../stores/index.ts';

/** What the form of a new passage is shown with. */
export interface NewShown {
  readonly token: string;
  /** What was entered; null: nothing yet. */
  readonly entered: {
    readonly text: (name: string) => string;
    readonly all: (name: string) => readonly string[];
  } | null;
  /** The track as lines where it came as a file. */
  readonly trackText: string | null;
  readonly problems: readonly PlacedProblem[];
  readonly stored: readonly StoredForecast[];
  /** Hashes of the forecasts ticked. */
  readonly used: readonly string[];
}
