import type { GateRule } from '../person/index.ts';
import type { LimitId } from '../windows/index.ts';

/** Everything that can stand against an entry of a plan. Weather limits and gates keep the ids of their own rooms. */
export type RuleId = LimitId | GateRule | PlainRule;

/** Rules that belong neither to the weather nor to the person. */
export const PLAIN_RULES = [
  'pace',
  'cold-hands',
  'look-out',
  'precedence',
  'wait',
  'session-rest',
  'effort-rest',
  'settle',
  'tool',
  'twice',
  'sail-state',
  'handling',
  'overlap',
  'longest-sleep',
  'past',
  'horizon',
  'not-before',
  'finish-by',
  'forbidden-hours',
  'lock',
  'lock-handling',
  'materials',
  'wanted-probability',
  'joint',
  'cost',
] as const;
export type PlainRule = (typeof PLAIN_RULES)[number];

/** What one rule found, with the amount. Made of facts, never of scores, so that two plans can be compared. */
export interface Finding {
  readonly rule: RuleId;
  readonly jobId: string;
  /** What is, in `unit`; null: not known. */
  readonly observed: number | null;
  /** What must be, in `unit`. */
  readonly required: number;
  readonly unit: string;
  /** Room on the safe side in `unit`; negative: short by so much; null: not known. */
  readonly margin: number | null;
  /** Weather: the first instant some scenario breaks it. Other rules: the instant asked about. null: no instant. */
  readonly atEpochMs: number | null;
  /** Share of scenario weight that breaks it, 0 to 1; null: not a matter of scenarios. */
  readonly scenarioShare: number | null;
  /** Whom else it is about: another job, an item, the sail state that is set followed by those that would do. */
  readonly names: readonly string[];
}

/**
 * Whether a finding speaks against the entry. Of a limit: some scenario breaks it; how many may is for the wanted
 * probability to say, which is a finding of its own. Unknown is not met.
 */
export function verdictOf(finding: Finding): 'met' | 'broken' | 'unknown' {
  if (finding.observed === null || finding.margin === null) return 'unknown';
  if (finding.scenarioShare !== null) return finding.scenarioShare > 0 ? 'broken' : 'met';
  return finding.margin < 0 ? 'broken' : 'met';
}

/** What a rule needs to say; margin and names follow. */
interface Measured {
  readonly rule: RuleId;
  readonly jobId: string;
  readonly observed: number;
  readonly required: number;
  readonly unit: string;
  readonly atEpochMs?: number;
  readonly names?: readonly string[];
}

/** A finding of something that must be at least so much. */
export const atLeast = (of: Measured): Finding => measured(of, of.observed - of.required);

/** A finding of something that may be at most so much. */
export const atMost = (of: Measured): Finding => measured(of, of.required - of.observed);

function measured(of: Measured, margin: number): Finding {
  return {
    rule: of.rule,
    jobId: of.jobId,
    observed: of.observed,
    required: of.required,
    unit: of.unit,
    margin,
    atEpochMs: of.atEpochMs ?? null,
    scenarioShare: null,
    names: of.names ?? [],
  };
}

/** Only what is not met. */
export const broken = (findings: readonly Finding[]): Finding[] =>
  findings.filter((finding) => verdictOf(finding) !== 'met');
