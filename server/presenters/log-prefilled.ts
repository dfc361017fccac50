import type { LogRow } from '../../lib/log/index.ts';
import { EVENTS, type LogKind } from '../log-forms/index.ts';
import { statementThatHolds } from './log-holds.ts';

/**
 * What a new form begins with: the kind of wind read last, which rarely changes; of a job the event that was asked for.
 */
export function prefilledTexts(
  kind: LogKind,
  rows: readonly LogRow[],
  event: string | null,
): ReadonlyMap<string, string> {
  if (kind === 'job') return new Map(EVENTS.some(({ value }) => value === event) ? [['event', event ?? '']] : []);
  if (kind !== 'observation') return new Map();
  const seen = rows.flatMap((row) => {
    const statement = statementThatHolds(row);
    return statement?.kind === 'observation' ? [statement] : [];
  });
  return new Map([['wind.kind', seen.findLast(({ wind }) => wind !== undefined)?.wind?.kind ?? 'true']]);
}
