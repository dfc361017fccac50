import type { Request } from 'express';
import type { Plan } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { Deps } from '../deps.ts';
import type { FoundInText, KeptMessage } from '../keep-messages.ts';
import type { WriteTexts } from '../message-forms/index.ts';
import type { CountView } from '../presenters/message-count.ts';
import { type MessagePage, messagePage } from '../presenters/message-page.ts';
import { type MessagesPage, messagesPage, NOTHING_READ, type ReadTexts } from '../presenters/messages-page.ts';
import { type LogDocument, logDocument } from './log-asked.ts';
import { PageError } from './page-error.ts';

/** The passage that is shown, with its log, its plan and its messages. */
export interface MessageDocument extends LogDocument {
  /** null: there is none of this passage. */
  readonly plan: Plan | null;
}

export async function messageDocument(deps: Deps): Promise<MessageDocument> {
  const log = await logDocument(deps);
  const standing = deps.planStanding();
  const planned = deps.plannedDocument();
  const isOfIt = planned === null || planned.number === log.document.number;
  return { ...log, plan: standing.kind === 'ready' && isOfIt ? standing.view.plan : null };
}

/** What a form of the page sent, and what came of it. */
export interface Entered {
  readonly written?: WriteTexts;
  readonly writeProblems?: readonly Problem[];
  readonly count?: CountView;
  readonly read?: ReadTexts;
  readonly found?: FoundInText | null;
  readonly readProblems?: readonly Problem[];
  readonly formToken?: string;
}

/** The page of all messages, with what was entered. */
export function messagesPageWith(
  deps: Deps,
  { document, entries, nowEpochMs, plan }: MessageDocument,
  entered: Entered,
  firstIndex = 0,
): MessagesPage {
  const messages = deps.messages();
  return messagesPage(
    {
      document,
      entries,
      nowEpochMs,
      plan,
      messages: messages.ok ? messages.value : [],
      formToken: entered.formToken ?? deps.formToken(),
      hasKey: deps.hasMessageKey,
      written: entered.written ?? null,
      writeProblems: entered.writeProblems ?? [],
      count: entered.count ?? null,
      read: entered.read ?? NOTHING_READ,
      found: entered.found ?? null,
      readProblems: entered.readProblems ?? [],
      problems: messages.ok ? [] : messages.problems,
    },
    firstIndex,
  );
}

/** The message of an address; where there is none, a page that says so. */
export function messageAsked(deps: Deps, { params }: Request): KeptMessage {
  const text = params['number'];
  if (typeof text !== 'string' || !/^\d{1,9}$/.test(text))
    throw new PageError(404, 'No such message', 'This is no number of a message. Look at the list of messages.');
  const kept = deps.messageOfNumber(Number(text));
  if (kept.ok) return kept.value;
  const { what, remedy } = kept.problems[0];
  throw new PageError(404, 'No such message', `${what} ${remedy}`);
}

export const messagePageWith = (
  { document, entries, nowEpochMs, plan }: MessageDocument,
  kept: KeptMessage,
  problems: readonly Problem[],
): MessagePage => messagePage({ document, entries, nowEpochMs, plan, kept, problems });
