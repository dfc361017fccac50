import type { Problem } from '../../lib/result/index.ts';
import type { FoundInText, KeptMessage } from '../keep-messages.ts';
import { NOTHING_WRITTEN, type WriteTexts } from '../message-forms/index.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import type { ContentShown } from './message-content.ts';
import { foundViews, type FoundViews } from './message-found.ts';
import type { CountView } from './message-count.ts';
import type { MessageKeyPage, MessagePage } from './message-page.ts';
import { type MessageRow, messageRows } from './message-rows.ts';
import { versionText } from './notices.ts';
import { timeTexts } from './time-texts.ts';

/** The messages, one of them, or the key to their fields. */
export type MessagesPages = MessagesPage | MessagePage | MessageKeyPage;

export interface MessagesPage {
  readonly kind: 'messages';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly formToken: string;
  readonly hasKey: boolean;
  readonly write: WriteView;
  readonly read: ReadView;
  readonly rows: readonly MessageRow[];
  readonly messageCount: number;
  readonly olderHref: string | null;
  readonly newerHref: string | null;
  /** What stands against the page itself, such as a list that cannot be read. */
  readonly problems: readonly Problem[];
}

export interface WriteView {
  readonly texts: WriteTexts;
  /** Of the form, each at its input by `where`. */
  readonly problems: readonly Problem[];
  /** `plan 4, made Thu 28 May 06:00`, or why there is none. */
  readonly planText: string;
  /** What it would fill, as the form stands; null: not counted. */
  readonly count: CountView | null;
}

/** What was pasted, and what it holds. */
export interface ReadView {
  readonly asked: ReadTexts;
  /** null: nothing was read. */
  readonly found: FoundViews | null;
  readonly problems: readonly Problem[];
}

export interface ReadTexts {
  readonly text: string;
  readonly takesUnsigned: boolean;
  readonly isCapitals: boolean;
}

export const NOTHING_READ: ReadTexts = { text: '', takesUnsigned: false, isCapitals: false };

export interface MessagesShown extends Omit<ContentShown, 'passage'> {
  readonly document: JobDocument;
  readonly messages: readonly KeptMessage[];
  readonly formToken: string;
  readonly hasKey: boolean;
  /** null: as the last message was written. */
  readonly written: WriteTexts | null;
  readonly writeProblems: readonly Problem[];
  readonly count: CountView | null;
  readonly read: ReadTexts;
  readonly found: FoundInText | null;
  readonly readProblems: readonly Problem[];
  readonly problems: readonly Problem[];
}

/** Messages on one page. */
const PAGE_COUNT = 40;

/** The messages, from the `firstIndex`th newest on. */
export function messagesPage(shown: MessagesShown, firstIndex: number): MessagesPage {
  const { document, messages, nowEpochMs, plan } = shown;
  const { passage } = document;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const rows = messageRows(messages, times);
  return {
    kind: 'messages',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    formToken: shown.formToken,
    hasKey: shown.hasKey,
    write: {
      texts: shown.written ?? asLastWritten(messages),
      problems: shown.writeProblems,
      count: shown.count,
      planText:
        plan === null
          ? 'there is none yet'
          : `${plan.planNumber === null ? 'the one shown' : `plan ${plan.planNumber}`}, made ${times.full(Date.parse(plan.madeAtUtc))}`,
    },
    read: {
      asked: shown.read,
      found: shown.found === null ? null : foundViews(shown.found, { ...shown, passage }),
      problems: shown.readProblems,
    },
    rows: rows.slice(firstIndex, firstIndex + PAGE_COUNT),
    messageCount: messages.length,
    olderHref: rows.length > firstIndex + PAGE_COUNT ? `/messages?from=${firstIndex + PAGE_COUNT}#list` : null,
    newerHref: firstIndex > 0 ? `/messages?from=${Math.max(0, firstIndex - PAGE_COUNT)}#list` : null,
    problems: shown.problems,
  };
}

/** The form as the last message was written: the same sender, in parts of the same length. */
function asLastWritten(messages: readonly KeptMessage[]): WriteTexts {
  const last = messages.findLast(({ direction }) => direction === 'sent');
  const limitCount = last?.of.limitCount ?? null;
  if (last === undefined || limitCount === null) return NOTHING_WRITTEN;
  const length = limitCount === 160 ? 'sms' : limitCount === 270 ? 'satellite' : 'other';
  return {
    ...NOTHING_WRITTEN,
    kind: last.kind,
    sender: last.sender,
    length,
    limit: length === 'other' ? String(limitCount) : '',
    ...(last.of.aheadH === null ? {} : { hours: String(last.of.aheadH) }),
  };
}
