import type { Problem } from '../../lib/result/index.ts';
import { counterName } from '../../lib/message/index.ts';
import type { FoundInText, FoundMessage } from '../keep-messages.ts';
import { type ContentShown, type MessageContent, messageContent } from './message-content.ts';
import { messageTitle, onPage, signatureWords } from './message-words.ts';
import { type TimeTexts, timeTexts } from './time-texts.ts';
import { upperFirst } from './word-lines.ts';

/** A message found in a text. */
export interface FoundView {
  readonly title: string;
  readonly facts: readonly string[];
  readonly content: MessageContent;
  /** Why it may not be taken; null: it may. */
  readonly refusal: Problem | null;
  /** Hidden fields of its form. */
  readonly text: string;
  readonly fingerprint: string;
}

/** A message that is not whole, or may not be used, with the reasons. */
export interface UnreadView {
  readonly title: string;
  readonly problems: readonly Problem[];
}

export interface FoundViews {
  readonly found: readonly FoundView[];
  readonly unread: readonly UnreadView[];
  /** Pieces that could not be told to belong to a message. */
  readonly damaged: readonly Problem[];
  /** `1 message read, 1 that is not whole.` */
  readonly summary: string;
}

export function foundViews({ found, unread, damaged }: FoundInText, shown: ContentShown): FoundViews {
  const times = timeTexts(shown.passage.settings.shipTimeOffsetMin);
  return {
    found: found.map((one) => foundView(one, shown, times)),
    unread: unread.map((one) => ({
      title: `${upperFirst(messageTitle(one))} (${counterName(one)}.${one.counterNumber}): it is not used`,
      problems: one.problems.map(onPage),
    })),
    damaged: damaged.map(({ problem }) => onPage(problem)),
    summary: summaryOf(found.length, unread.length, damaged.length),
  };
}

function summaryOf(readCount: number, unreadCount: number, damagedCount: number): string {
  const told = [
    ...(readCount > 0 ? [`${readCount === 1 ? 'one message' : `${readCount} messages`} read`] : []),
    ...(unreadCount > 0 ? [`${unreadCount === 1 ? 'one' : String(unreadCount)} that cannot be used`] : []),
    ...(damagedCount > 0 ? [`${damagedCount === 1 ? 'one piece' : `${damagedCount} pieces`} damaged`] : []),
  ];
  return `${upperFirst(told.join(', '))}. Nothing of it is taken over yet.`;
}

function foundView(one: FoundMessage, shown: ContentShown, times: TimeTexts): FoundView {
  const { message, fingerprint, keptNumber, replay, text } = one;
  const content = messageContent({ message, fingerprint, text, isKept: keptNumber !== null }, shown);
  return {
    title: upperFirst(messageTitle(one)),
    facts: [
      `Made ${times.full(one.baseEpochMs)} (${times.utc(one.baseEpochMs)}). ${partsText(one)}`,
      signatureWords({ signature: one.signature, direction: 'received' }),
      ...(one.sentNumber === null ? [] : [`It was written here: it is message ${one.sentNumber} of the list.`]),
      ...(keptNumber === null ? [] : [`It was taken before: it is message ${keptNumber} of the list.`]),
    ],
    content: replay.ok ? content : { ...content, action: null },
    refusal: replay.ok ? null : replay.problems[0],
    text,
    fingerprint,
  };
}

function partsText({ partCount, repeatedCount }: FoundMessage): string {
  const parts = partCount === 1 ? 'It is whole, in one part.' : `It is whole: all ${partCount} parts are here.`;
  if (repeatedCount === 0) return parts;
  return `${parts} ${repeatedCount === 1 ? 'One part' : `${repeatedCount} parts`} came more than once.`;
}
