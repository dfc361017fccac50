import { assertNever } from '../../result/index.ts';
import { digestText } from '../digest/index.ts';
import type { Message } from '../message.ts';
import { longTime } from './amounts.ts';
import { planWords } from './plan-words.ts';
import { reportWords } from './report-words.ts';

/** A message in plain words, nothing left out: one sentence a line, times in UTC with their weekday. */
export function messageText(message: Message): string[] {
  switch (message.kind) {
    case 'plan':
      return planWords(message);
    case 'report':
      return reportWords(message);
    case 'digest':
      return [`Digest of the weather, made ${longTime(message.madeEpochMs)}.`, ...digestText(message.digest)];
    default:
      return assertNever(message);
  }
}
