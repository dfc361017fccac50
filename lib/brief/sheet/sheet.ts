/** The deck sheet as data: one job, one page. All texts are ready to be shown; times are ship's first. */
export interface DeckSheet {
  readonly jobId: string;
  readonly title: string;
  /** `Plan 3` */
  readonly planTitle: string;
  /** What must be known before anything else: not planned, conditional, done; null: it is simply planned. */
  readonly standing: string | null;
  /** What the start check will probably say, where it is not simply “go”, and what to do then; null: nothing. */
  readonly startWarning: string | null;
  /** Boat, instants, place, forecast. */
  readonly head: readonly SheetFact[];
  readonly window: readonly SheetFact[];
  /** Why now; null: the plan gives no reason. */
  readonly why: string | null;
  readonly numbers: readonly NumberRow[];
  /** To be ticked, every one, before the start. */
  readonly go: readonly string[];
  /** How the boat lies meanwhile, and where that puts her. */
  readonly boat: readonly SheetFact[];
  readonly steps: readonly SheetRow[];
  /** `If X, then do Y.` */
  readonly stop: readonly string[];
  readonly abort: readonly string[];
  readonly hurt: readonly string[];
  readonly parts: readonly PartRow[];
  /** `tool box: hammer, pin punch` */
  readonly tools: readonly string[];
  readonly talk: readonly string[];
  readonly after: readonly SheetFact[];
  readonly cautions: readonly string[];
}

export interface SheetFact {
  readonly term: string;
  readonly text: string;
}

/** A quantity to look at: what is expected, up to where to start, where to stop. Empty: nothing is said of it. */
export interface NumberRow {
  readonly quantity: string;
  readonly expected: string;
  readonly startAt: string;
  readonly stopAt: string;
}

/** A line of the running clock. */
export type SheetRow =
  | {
      readonly kind: 'step';
      /** `Fri 14:00`; `+0:40` where the job has no time yet. */
      readonly clock: string;
      readonly name: string;
      /** Whole minutes. */
      readonly lengthMin: number;
      readonly place: string;
      /** Where the tether is clipped; null: nothing is said. */
      readonly clipTo: string | null;
      readonly stop: 'anywhere' | 'at-end' | 'never';
      readonly lookout: 'full' | 'glances' | 'none';
    }
  /** A step of which the log says it is finished. */
  | { readonly kind: 'done'; readonly name: string }
  | {
      /** A state in which she may be left: the box to be drawn round. */
      readonly kind: 'safe-point';
      /** Time to beat. */
      readonly clock: string;
      readonly text: string;
    }
  | { readonly kind: 'wait'; readonly clock: string; readonly text: string };

/** What a job takes from the locker. */
export interface PartRow {
  /** `waxed twine, 27.6 m` */
  readonly takes: string;
  /** Where it is stowed; empty: not said. */
  readonly place: string;
  /** `32.4 m left, never below 15 m` */
  readonly left: string;
}
