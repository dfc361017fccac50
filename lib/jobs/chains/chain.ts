/** One job of a chain. */
export interface ChainLink {
  /** Id of the job in the passage. */
  readonly id: string;
  /** Library job it is made from. */
  readonly from: string;
  /** Links that come before it. */
  readonly after: readonly string[];
  /** Left out only with the whole chain. */
  readonly isCore: boolean;
  readonly why: string;
  readonly priority: number;
}

/** Jobs that belong together, in an order that works: a template to be cut down to what is broken. */
export interface Chain {
  readonly id: string;
  readonly name: string;
  readonly what: string;
  readonly links: readonly ChainLink[];
}
