import type { JobFile } from '../job-file.ts';

/** Something worth adding to the jobs of a passage, or an order they lack. */
export interface Proposal {
  /**
   * `start-now`: a soak or cure that a later job needs. `while-down`: a library job that would share the drop of the
   * mainsail. `order`: a job of the passage that needs the sail down, but is not placed between drop and hoist.
   */
  readonly kind: 'start-now' | 'while-down' | 'order';
  /** Jobs of the passage it is about. */
  readonly jobIds: readonly string[];
  /** Background wait that then runs by itself, counted at its P80 at the temperature it holds at [h]; null: none. */
  readonly waitH: number | null;
  /** Likely minutes of work for one more drop and hoist, which it would otherwise cost; null: none. */
  readonly savesMin: number | null;
  readonly text: string;
  /** Entry to add to the jobs of the passage; null: it is there. */
  readonly add: JobFile | null;
  /** Ids to add to `after`, by job. */
  readonly orders: readonly { readonly jobId: string; readonly after: string }[];
}
