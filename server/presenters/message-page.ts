import { messageKeyText, counterName } from '../../lib/message/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { KeptMessage } from '../keep-messages.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { type ContentShown, type MessageContent, messageContent } from './message-content.ts';
import { backupView, type PartView, partViews } from './message-parts.ts';
import { ofText } from './message-rows.ts';
import { messageTitle, signatureWords } from './message-words.ts';
import { versionText } from './notices.ts';
import { timeTexts } from './time-texts.ts';
import { upperFirst } from './word-lines.ts';

/** One message that was written here or came in. */
export interface MessagePage {
  readonly kind: 'message';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly number: number;
  readonly title: string;
  readonly facts: readonly string[];
  readonly isSent: boolean;
  readonly parts: readonly PartView[];
  readonly backup: PartView;
  readonly content: MessageContent;
  readonly problems: readonly Problem[];
}

/** The printed key to the fields. */
export interface MessageKeyPage {
  readonly kind: 'message-key';
  readonly name: string;
  readonly clock: Clock;
  readonly text: string;
}

export interface MessageShown extends Omit<ContentShown, 'passage'> {
  readonly document: JobDocument;
  readonly kept: KeptMessage;
  readonly problems: readonly Problem[];
}

export function messagePage(shown: MessageShown): MessagePage {
  const { document, kept, nowEpochMs } = shown;
  const { passage } = document;
  const isSent = kept.direction === 'sent';
  const { message, fingerprint, text } = kept;
  const content = messageContent({ message, fingerprint, text, isKept: true }, { ...shown, passage });
  return {
    kind: 'message',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    number: kept.number,
    title: upperFirst(messageTitle(kept)),
    facts: factsOf(kept, passage),
    isSent,
    parts: partViews(text, kept.of.limitCount),
    backup: backupView(message),
    // What was written here says nothing that is not here already.
    content: isSent ? { ...content, compared: [], entries: [], entriesNote: '', refused: [], action: null } : content,
    problems: shown.problems,
  };
}

function factsOf(kept: KeptMessage, { settings }: Passage): readonly string[] {
  const times = timeTexts(settings.shipTimeOffsetMin);
  const of = ofText(kept);
  const name = `${counterName(kept)}.${kept.counterNumber}`;
  return [
    `Message ${kept.number}, ${kept.direction === 'sent' ? 'written here' : 'came in'}; its name in every part is ${name}.`,
    `Made ${times.full(kept.madeAtEpochMs)} (${times.utc(kept.madeAtEpochMs)})${of === '' ? '' : `, ${of}`}.`,
    signatureWords(kept),
  ];
}

export const messageKeyPage = ({ passage }: JobDocument, nowEpochMs: number): MessageKeyPage => ({
  kind: 'message-key',
  name: passage.name,
  clock: documentClock(passage, nowEpochMs),
  text: messageKeyText(),
});
