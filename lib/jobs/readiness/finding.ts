import type { MaterialShort } from '../../stock/index.ts';
import type { Offer } from './offers.ts';

/** What a finding does: bars the job, delays it, leaves it unknown, or is only to be known. */
export type ReadinessEffect = 'bars' | 'delays' | 'unknown' | 'note';

/** So much of an item, for or by a job. */
export interface JobAmount {
  readonly jobId: string;
  readonly amount: number;
  readonly unit: string;
}

/** Too little of an item, the reserve kept and what more important jobs take left to them. */
export interface MaterialShortFinding extends MaterialShort {
  readonly code: 'material-short';
  readonly effect: 'bars';
  readonly unit: string;
  /** In all lines of the locker. */
  readonly onBoardAmount: number;
  readonly keepAmount: number;
  readonly takenBy: readonly JobAmount[];
  /** Jobs of the passage that make it, but that this one does not come after. */
  readonly makerIds: readonly string[];
  /** A name in the locker that is nearly the same; null: none. */
  readonly nearName: string | null;
  readonly offers: readonly Offer[];
}

/** A tool that a locker with tools does not list, or lists with none on board. */
export interface ToolMissingFinding {
  readonly code: 'tool-missing';
  readonly effect: 'bars';
  readonly tool: string;
  readonly isListed: boolean;
  readonly nearName: string | null;
  readonly offers: readonly Offer[];
}

/** It comes after a job that cannot be done. */
export interface AfterBarredFinding {
  readonly code: 'after-barred';
  readonly effect: 'bars';
  readonly jobId: string;
}

/** On board, but not to be used before. */
export interface NotYetFinding {
  readonly code: 'material-later' | 'tool-later';
  readonly effect: 'delays';
  readonly item: string;
  readonly readyEpochMs: number;
}

/** A job before it makes what it needs. */
export interface MadeFinding {
  readonly code: 'made-before';
  readonly effect: 'delays';
  readonly item: string;
  readonly amount: number;
  readonly unit: string;
  readonly makerId: string;
}

/** The locker lists nothing, or no tools: what the job needs was not counted. */
export interface NotCountedFinding {
  readonly code: 'materials-not-counted' | 'tools-not-counted';
  readonly effect: 'unknown';
  readonly items: readonly string[];
}

/** Another job holds the tool until its wait is over, so this one cannot start then. */
export interface ToolHeldFinding {
  readonly code: 'tool-held';
  readonly effect: 'note';
  readonly tool: string;
  readonly heldByIds: readonly string[];
}

/** Other jobs use the tool too; none of them holds it. */
export interface ToolSharedFinding {
  readonly code: 'tool-shared';
  readonly effect: 'note';
  readonly tool: string;
  readonly jobIds: readonly string[];
  /** This job holds it until its own wait is over. */
  readonly isHeldHere: boolean;
}

/** More jobs than batteries: it is to be charged between them. */
export interface ChargeFinding {
  readonly code: 'charge-between';
  readonly effect: 'note';
  readonly tool: string;
  readonly onBoardCount: number;
  readonly jobIds: readonly string[];
}

/** What it takes is then missing for a less important job. */
export interface LeavesShortFinding extends JobAmount {
  readonly code: 'leaves-short';
  readonly effect: 'note';
  readonly item: string;
}

export type ReadinessFinding =
  | MaterialShortFinding
  | ToolMissingFinding
  | AfterBarredFinding
  | NotYetFinding
  | MadeFinding
  | NotCountedFinding
  | ToolHeldFinding
  | ToolSharedFinding
  | ChargeFinding
  | LeavesShortFinding;
