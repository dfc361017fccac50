/** Something the log says or leaves open that the user should know; nothing is wrong with the input. */
export interface LogNote {
  /** Stable word. */
  readonly code: string;
  /** Entries it comes from. */
  readonly entryNumbers: readonly number[];
  /** One sentence or two; instants in UTC. */
  readonly text: string;
}
