import {
  type DamagedPart,
  type Message,
  type MessageKind,
  type ReadMessage,
  readMessages,
  replayCheck,
  type UnreadMessage,
} from '../lib/message/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import type { Documents } from './documents/index.ts';
import { type KeptMessage, keptOf, type MessageOf } from './kept-message.ts';
import { partsOf, sealed, seenOf } from './message-text.ts';
import type { Store } from './stores/index.ts';

export type { KeptMessage, MessageOf } from './kept-message.ts';

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
  /** The parts a message would have with that counter, one a line. Nothing is kept, and no counter is used up. */
  readonly partsOfMessage: (
    message: Pick<NewMessage, 'message' | 'sender' | 'limitCount'> & { readonly counterNumber: number },
  ) => Result<string>;
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
    partsOfMessage: ({ message, sender, limitCount, counterNumber }) => {
      const made = sealed(message, { sender, counterNumber }, { limitCount, keyOctets });
      return made.ok ? ok(made.value.text) : made;
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

const FROM_ELSEWHERE: MessageOf = { limitCount: null, planNumber: null, aheadH: null, logNumber: null };

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
