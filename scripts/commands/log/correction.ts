import { effectiveEntries, type NumberedEntry, type StatementFile } from '../../../lib/log/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { WrongUse } from '../arguments.ts';
import type { GivenStatement } from './entry-options.ts';

/** What the command line says of a correction. */
export interface Correcting {
  /** Number of the entry. */
  readonly corrects: number;
  readonly statement: GivenStatement | null;
  /** When it really was; null: the time stays. */
  readonly atEpochMs: number | null;
  readonly isWithdrawn: boolean;
  readonly nowUtc: string;
}

/** A correction: what holds for the entry now, with what is given in its place. A note alone tells why. */
export function correctionOf(of: Correcting, entries: readonly NumberedEntry[]): object {
  const { corrects, statement, nowUtc } = of;
  const before = effectiveEntries(entries).find(({ number }) => number === corrects)?.statement ?? null;
  const isWhy = statement?.kind === 'note' && (of.isWithdrawn || before?.kind !== 'note');
  const correction = { kind: 'correction', atUtc: nowUtc, corrects, ...(isWhy ? { note: statement['note'] } : {}) };
  const right = isWhy ? null : statement;
  return { ...correction, by: of.isWithdrawn ? withdrawn(of, right) : rightStatement(of, right, before) };
}

function withdrawn({ atEpochMs }: Correcting, right: GivenStatement | null): null {
  if (right !== null || atEpochMs !== null)
    throw new WrongUse('--withdraw takes the entry back as a whole; only --note goes with it.');
  return null;
}

/** An entry of the same kind keeps what is not given anew; its time too, unless it is given. */
function rightStatement(
  { atEpochMs, nowUtc }: Correcting,
  right: GivenStatement | null,
  before: StatementFile | null,
): object {
  if (right === null && atEpochMs === null) throw new WrongUse('--corrects needs what is right, or --withdraw.');
  const isSameKind = right === null || right.kind === before?.kind;
  const atUtc = atEpochMs === null ? (before?.atUtc ?? nowUtc) : formatUtc(atEpochMs);
  return { ...(isSameKind ? before : {}), atUtc, ...right };
}
