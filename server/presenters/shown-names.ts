/** Names that a plan holds only as ids, and what can be asked of each job. */
export interface ShownNames {
  /** Every job of the passage, in its order. */
  readonly jobs: readonly JobMenu[];
  /** Names of sail states by id. */
  readonly sailStates: Readonly<Record<string, string>>;
}

export interface JobMenu {
  readonly jobId: string;
  readonly name: string;
  /** Jobs that must be finished before it. */
  readonly after: readonly string[];
  /** Parts between safe points, in order: each is started by itself. */
  readonly parts: readonly JobPart[];
}

export interface JobPart {
  readonly steps: readonly { readonly id: string; readonly name: string }[];
  /** It can be stopped anywhere, and is worked in sessions. */
  readonly inSessions: boolean;
  /** Handlings it can be worked under with the sail that is set then, preferred first. */
  readonly handlingIds: readonly string[];
}

/** `Part 2 of 3: reeve, tie`; empty where the job is all one part. */
export function partText({ parts }: JobMenu, partIndex: number): string {
  const part = parts[partIndex];
  if (part === undefined || parts.length < 2) return '';
  return `Part ${partIndex + 1} of ${parts.length}: ${stepsText(part)}`;
}

const LISTED_STEPS = 3;

/** Names of its steps; of many the first and the last. */
export function stepsText({ steps }: JobPart): string {
  const names = steps.map(({ name }) => name);
  const [first] = names;
  const last = names.at(-1);
  if (names.length <= LISTED_STEPS || first === undefined || last === undefined) return names.join(', ');
  return `${first} … ${last}`;
}

/** Name of a sail state; an id nobody has named stands for itself, without hyphens. */
export const sailText = ({ sailStates }: ShownNames, id: string): string => sailStates[id] ?? id.replaceAll('-', ' ');
