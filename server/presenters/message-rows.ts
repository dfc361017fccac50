import { backupLine } from '../../lib/message/index.ts';
import type { KeptMessage } from '../keep-messages.ts';
import { messageTitle } from './message-words.ts';
import type { TimeTexts } from './time-texts.ts';
import { upperFirst } from './word-lines.ts';

/** A message in the list. */
export interface MessageRow {
  readonly number: number;
  readonly href: string;
  readonly direction: string;
  readonly title: string;
  /** Weekday, date and hour on the ship's clock when it was made. */
  readonly when: string;
  readonly utc: string;
  readonly firstWords: string;
  readonly of: string;
}

/** The newest first. */
export const messageRows = (messages: readonly KeptMessage[], times: TimeTexts): readonly MessageRow[] =>
  messages.toReversed().map((kept) => ({
    number: kept.number,
    href: `/messages/${kept.number}`,
    direction: kept.direction === 'sent' ? 'written here' : 'came in',
    title: upperFirst(messageTitle(kept)),
    when: times.full(kept.madeAtEpochMs),
    utc: times.utc(kept.madeAtEpochMs),
    firstWords: backupLine(kept.message),
    of: ofText(kept),
  }));

/** `of plan 5`, `48 h ahead`; empty: nothing of the sort. */
export function ofText({ of: { planNumber, aheadH, logNumber } }: Pick<KeptMessage, 'of'>): string {
  if (planNumber !== null) return `of plan ${planNumber}`;
  if (aheadH !== null) return `${aheadH} h ahead`;
  return logNumber === null ? '' : `of the log up to entry ${logNumber}`;
}
