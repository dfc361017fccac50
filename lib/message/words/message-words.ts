import { assertNever } from '../../result/index.ts';
import { digestText } from '../digest/index.ts';
import type { Message } from '../message.ts';
import { longTime, type MessageNames, NO_NAMES } from './amounts.ts';
import { planWords } from './plan-words.ts';
import { reportWords } from './report-words.ts';

/**
 * A message in plain words, nothing left out: one sentence a line, times in UTC with their weekday.
 *
 * @param names what the reader calls its jobs, handlings and sails; they stand behind the ids
 */
export function messageText(message: Message, names: MessageNames = NO_NAMES): string[] {
  switch (message.kind) {
    case 'plan':
      return planWords(message, names);
    case 'report':
      return reportWords(message, names);
    case 'digest':
      return [`Digest of the weather, made ${longTime(message.madeEpochMs)}.`, ...digestText(message.digest)];
    default:
      return assertNever(message);
  }
}
