import { z } from 'zod';
import {
  type DamagedPart,
  findParts,
  formatPart,
  type Message,
  type MessageId,
  type MessageKind,
  type ReadMessage,
  readMessages,
  replayCheck,
  type SeenCounters,
  counterName,
  type UnreadMessage,
  writeMessage,
} from '../lib/message/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import type { Documents } from './documents/index.ts';
import type { LastReceived, SealedMessage, StoredMessage } from './stores/messages.ts';
import type { Store } from './stores/index.ts';

const messageOf = z.object({
  /** Most characters of a part; null: it came from elsewhere. */
  limitCount: z.number().nullable(),
  planNumber: z.number().nullable(),
  aheadH: z.number().nullable(),
  /** Last entry of the log it was made of. */
  logNumber: z.number().nullable(),
});

/** What a message was made of; null: nothing of the sort. */
export type MessageOf = z.infer<typeof messageOf>;

const keptSchema = z.object({
  kind: z.enum(['plan', 'digest', 'report']),
  signature: z.enum(['signed', 'verified', 'signed-not-verified', 'unsigned']),
});

/** A message of the store. */
export interface KeptMessage
  extends Omit<StoredMessage, 'kind' | 'signature' | 'ofJson' | 'formToken'>, z.infer<typeof keptSchema> {
  readonly of: MessageOf;
  readonly message: Message;
}

/** A message to be written down with the next counter. */
export interface NewMessage {
  readonly passageNumber: number;
  readonly message: Message;
  readonly sender: string;
  readonly leastCounterNumber: number | null;
  readonly limitCount: number;
  readonly of: Omit<MessageOf, 'limitCount'>;
  readonly formToken: string;
}

/** A message found in a text. */
export interface FoundMessage extends ReadMessage {
  /** Its parts, one a line, without what stood around them. */
  readonly text: string;
  /** Whether it may be taken after those taken before. */
  readonly replay: Result<'new' | 'duplicate'>;
  /** The same message in the list of this passage; null: it is not there. */
  readonly keptNumber: number | null;
  /** It was written here, as that of the list. */
  readonly sentNumber: number | null;
}

export interface FoundInText {
  readonly found: readonly FoundMessage[];
  readonly unread: readonly UnreadMessage[];
  readonly damaged: readonly DamagedPart[];
}

export interface ReadingAsked {
  readonly text: string;
  /** Take messages without a signature too, although there is a key. */
  readonly takesUnsigned: boolean;
}

/** Messages of the passage that is shown. The key stays inside. */
export interface MessageKeeper {
  readonly hasMessageKey: boolean;
  /** In the order they were added. */
  readonly messages: () => Result<readonly KeptMessage[]>;
  /** @returns `message.no-such-number`, or a failure of the store */
  readonly messageOfNumber: (number: number) => Result<KeptMessage>;
  /** The message that came from a form; null: none did. */
  readonly messageOfForm: (formToken: string) => Result<KeptMessage | null>;
  /** The counter the next message of a kind and sender gets. */
  readonly nextCounter: (kind: MessageKind, sender: string) => Result<number>;
  /** Writes a message and keeps it; on the disk when it returns. What comes twice from one form is written once. */
  readonly keepSent: (message: NewMessage) => Result<KeptMessage>;
  /** What a text holds. Nothing is taken over by reading. */
  readonly readText: (asked: ReadingAsked) => Result<FoundInText>;
  /** Puts a message into the list; its counter counts from now on. */
  readonly keepReceived: (found: FoundMessage, passageNumber: number) => Result<KeptMessage>;
}

interface Options {
  readonly store: Pick<Store, 'messages'>;
  readonly documents: Pick<Documents, 'passageText'>;
  readonly keyOctets: Uint8Array | null;
  readonly nowEpochMs: () => number;
}

export function keepMessages({ store, documents, keyOctets, nowEpochMs }: Options): MessageKeeper {
  const shownNumber = (): Result<number> => {
    const text = documents.passageText();
    return text.ok ? ok(text.value.number) : text;
  };
  const ofShown = <T>(work: (passageNumber: number) => Result<T>): Result<T> => {
    const number = shownNumber();
    return number.ok ? work(number.value) : number;
  };
  const messages = (): Result<readonly KeptMessage[]> =>
    ofShown((passageNumber) => {
      const rows = store.messages.list(passageNumber);
      return rows.ok ? allOf(rows.value.map(keptOf)) : rows;
    });

  const found = (read: ReadMessage, text: string, kept: readonly KeptMessage[]): Result<FoundMessage> => {
    const last = store.messages.lastReceived(read.sender);
    if (!last.ok) return last;
    const replay = replayCheck(seenOf(last.value, read), read);
    const same = (direction: KeptMessage['direction']): number | null =>
      kept.find((one) => one.direction === direction && one.fingerprint === read.fingerprint)?.number ?? null;
    return ok({
      ...read,
      text: partsOf(text, read),
      replay: replay.ok ? ok(replay.value.verdict) : replay,
      keptNumber: same('received'),
      sentNumber: same('sent'),
    });
  };

  return {
    hasMessageKey: keyOctets !== null,
    messages,
    messageOfNumber: (number) =>
      ofShown((passageNumber) => {
        const row = store.messages.get(passageNumber, number);
        if (!row.ok) return row;
        return row.value === null ? failed(noSuchMessage(number)) : keptOf(row.value);
      }),
    messageOfForm: (formToken) =>
      ofShown((passageNumber) => {
        const row = store.messages.ofForm(passageNumber, formToken);
        if (!row.ok) return row;
        return row.value === null ? ok(null) : keptOf(row.value);
      }),
    nextCounter: (kind, sender) => {
      const last = store.messages.lastSentCounter(kind, sender);
      return last.ok ? ok(last.value + 1) : last;
    },
    keepSent: ({ passageNumber, message, sender, leastCounterNumber, limitCount, of, formToken }) => {
      const number = shownNumber();
      if (!number.ok) return number;
      if (number.value !== passageNumber) return failed(otherPassage(passageNumber, number.value));
      const row = store.messages.appendSent({
        passageNumber,
        kind: message.kind,
        sender,
        madeAtEpochMs: message.madeEpochMs,
        ofJson: JSON.stringify({ ...of, limitCount } satisfies MessageOf),
        writtenAtEpochMs: nowEpochMs(),
        formToken,
        ...(leastCounterNumber === null ? {} : { leastCounterNumber }),
        seal: (counterNumber) => sealed(message, { sender, counterNumber }, { limitCount, keyOctets }),
      });
      return row.ok ? keptOf(row.value) : row;
    },
    readText: ({ text, takesUnsigned }) => {
      const kept = messages();
      if (!kept.ok) return kept;
      const { read, unread, damaged } = readMessages(text, { where: 'the text', keyOctets, takesUnsigned });
      const all = allOf(read.map((one) => found(one, text, kept.value)));
      return all.ok ? ok({ found: all.value, unread, damaged }) : all;
    },
    keepReceived: (one, passageNumber) => {
      const { kind, sender, counterNumber, fingerprint, signature, baseEpochMs, text, replay } = one;
      if (!replay.ok) return replay;
      const number = shownNumber();
      if (!number.ok) return number;
      if (number.value !== passageNumber) return failed(otherPassage(passageNumber, number.value));
      const row = store.messages.appendReceived({
        passageNumber,
        kind,
        sender,
        counterNumber,
        fingerprint,
        signature,
        madeAtEpochMs: baseEpochMs,
        text,
        ofJson: JSON.stringify(FROM_ELSEWHERE),
        writtenAtEpochMs: nowEpochMs(),
      });
      return row.ok ? keptOf(row.value) : row;
    },
  };
}

/** A digest as the forecast file it is kept as: always the same octets for the same message. */
export const digestFileText = (text: string): string => `${text}\n`;

const FROM_ELSEWHERE: MessageOf = { limitCount: null, planNumber: null, aheadH: null, logNumber: null };

/** The parts of a new message, and what it is once it is read again: what cannot be read is our own mistake. */
function sealed(
  message: Message,
  mark: { readonly sender: string; readonly counterNumber: number },
  settings: { readonly limitCount: number; readonly keyOctets: Uint8Array | null },
): Result<SealedMessage> {
  const parts = writeMessage(message, mark, settings);
  if (!parts.ok) return parts;
  const text = parts.value.join('\n');
  const [read] = readMessages(text, { where: 'message', keyOctets: settings.keyOctets }).read;
  if (read === undefined) throw new Error('a message that was written could not be read');
  const signature = settings.keyOctets === null ? 'unsigned' : 'signed';
  return ok({ text, fingerprint: read.fingerprint, signature });
}

function keptOf({ kind, signature, ofJson, formToken: _form, ...row }: StoredMessage): Result<KeptMessage> {
  const of = messageOf.safeParse(JSON.parse(ofJson));
  const is = keptSchema.safeParse({ kind, signature });
  const [read] = readMessages(row.text, { where: `message ${row.number}`, keyOctets: null }).read;
  if (!of.success || !is.success || read === undefined) return failed(unknownShape(row));
  return ok({ ...row, ...is.data, of: of.data, message: read.message });
}

/**
 * Counters a message is held against. With a key, one that is not verified must not use up those of messages that are:
 * anybody can write a high number.
 */
function seenOf(last: readonly LastReceived[], message: ReadMessage): SeenCounters {
  const isVerified = message.signature === 'verified';
  const seen: Record<string, { counterNumber: number; fingerprint: string }> = {};
  for (const { kind, sender, counterNumber, fingerprint, signature } of last) {
    const known = keptSchema.shape.kind.safeParse(kind);
    if (!known.success || (isVerified && signature !== 'verified')) continue;
    const name = counterName({ kind: known.data, sender });
    if ((seen[name]?.counterNumber ?? 0) < counterNumber) seen[name] = { counterNumber, fingerprint };
  }
  return seen;
}

/** The parts of one message among those of a text, in order, each once. */
function partsOf(text: string, { kind, sender, counterNumber, partCount }: MessageId & { partCount: number }): string {
  const own = findParts(text, 'the text').parts.filter(
    (part) =>
      part.kind === kind &&
      part.sender === sender &&
      part.counterNumber === counterNumber &&
      part.partCount === partCount,
  );
  const byNumber = new Map(own.map((part) => [part.partNumber, formatPart(part)]));
  return [...byNumber.entries()]
    .toSorted(([one], [other]) => one - other)
    .map(([, part]) => part)
    .join('\n');
}

function allOf<T>(results: readonly Result<T>[]): Result<readonly T[]> {
  const [first, ...rest] = results.flatMap((one): readonly Problem[] => (one.ok ? [] : one.problems));
  if (first !== undefined) return failed(first, ...rest);
  return ok(results.flatMap((one) => (one.ok ? [one.value] : [])));
}

const noSuchMessage = (number: number): Problem => ({
  code: 'message.no-such-number',
  where: 'the messages of this passage',
  what: `There is no message ${number}.`,
  expected: 'the number of a message in the list',
  remedy: 'Look at the list of messages.',
});

const otherPassage = (expected: number, found: number): Problem => ({
  code: 'message.other-passage',
  where: 'the messages',
  what: `Another passage is shown meanwhile: passage ${found}; this was meant for passage ${expected}.`,
  expected: `passage ${expected}`,
  remedy: 'Show that passage again, or do it anew for the one that is shown.',
});

const unknownShape = ({ passageNumber, number }: Pick<StoredMessage, 'passageNumber' | 'number'>): Problem => ({
  code: 'message.unknown-shape',
  where: `passage ${passageNumber}, message ${number}`,
  what: 'It is not a message this version of the program knows.',
  expected: 'a message written by this version or an earlier one',
  remedy: 'Start the version that wrote it; the message stays as it is.',
});
