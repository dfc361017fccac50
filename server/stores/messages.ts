import { z } from 'zod';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import type { Connection } from './database.ts';
import { nextNumber } from './log.ts';
import { noSuchPassage } from './store-problems.ts';

/** A message that was written here, or taken over from elsewhere; numbered within its passage, and never changed. */
export interface StoredMessage {
  readonly passageNumber: number;
  readonly number: number;
  readonly direction: 'sent' | 'received';
  readonly kind: string;
  readonly sender: string;
  readonly counterNumber: number;
  /** What tells it from another of the same counter. */
  readonly fingerprint: string;
  /** Whether it is signed, and what came of looking, as its writer has it. */
  readonly signature: string;
  /** Base time of the message. */
  readonly madeAtEpochMs: number;
  /** Its parts, one a line. */
  readonly text: string;
  /** What it was made of, as JSON of its writer. */
  readonly ofJson: string;
  readonly writtenAtEpochMs: number;
  /** Of the form it came from, its own within the passage; null: it came from none. */
  readonly formToken: string | null;
}

/** What a message is once its counter is known. */
export type SealedMessage = Pick<StoredMessage, 'text' | 'fingerprint' | 'signature'>;

export interface NewSentMessage extends Pick<
  StoredMessage,
  'passageNumber' | 'kind' | 'sender' | 'madeAtEpochMs' | 'ofJson' | 'writtenAtEpochMs'
> {
  readonly formToken: string;
  /** The counter is at least this; else one more than the last of kind and sender. */
  readonly leastCounterNumber?: number;
  /** Writes it with its counter; what it refuses costs none. */
  readonly seal: (counterNumber: number) => Result<SealedMessage>;
}

export type NewReceivedMessage = Omit<StoredMessage, 'number' | 'direction' | 'formToken'>;

/** Which messages of a sender were taken over last. */
export type LastReceived = Pick<StoredMessage, 'kind' | 'sender' | 'counterNumber' | 'fingerprint' | 'signature'>;

export interface MessageStore {
  /**
   * Adds one with the next counter of its kind and sender, whatever the passage; one of the same form is there already:
   * that one is the answer.
   *
   * @returns the problems of `seal`, `message.counter-used`, `store.no-such-passage`, or a failure of the store
   */
  appendSent(message: NewSentMessage): Result<StoredMessage>;
  /** Adds one unless the passage has it with the same signature: then that one is the answer. */
  appendReceived(message: NewReceivedMessage): Result<StoredMessage>;
  /** In the order they were added. */
  list(passageNumber: number): Result<readonly StoredMessage[]>;
  get(passageNumber: number, number: number): Result<StoredMessage | null>;
  /** The message that came from a form; null: none did. */
  ofForm(passageNumber: number, formToken: string): Result<StoredMessage | null>;
  /** Of all passages; 0: none was sent. */
  lastSentCounter(kind: string, sender: string): Result<number>;
  /** Of all passages, every message of a sender that has the highest counter of its kind and signature. */
  lastReceived(sender: string): Result<readonly LastReceived[]>;
}

const columns =
  'passage_number AS passageNumber, number, direction, kind, sender, counter_number AS counterNumber, fingerprint, ' +
  'signature, made_at_epoch_ms AS madeAtEpochMs, text, of_json AS ofJson, written_at_epoch_ms AS writtenAtEpochMs, ' +
  'form_token AS formToken';
const lastShape = {
  kind: z.string(),
  sender: z.string(),
  counterNumber: z.number(),
  fingerprint: z.string(),
  signature: z.string(),
};
const lastSchema = z.object(lastShape);
const messageSchema = z.object({
  ...lastShape,
  passageNumber: z.number(),
  number: z.number(),
  direction: z.enum(['sent', 'received']),
  madeAtEpochMs: z.number(),
  text: z.string(),
  ofJson: z.string(),
  writtenAtEpochMs: z.number(),
  formToken: z.string().nullable(),
});
const counterSchema = z.object({ last: z.number() });

export function messageStore(connection: Connection): MessageStore {
  const firstOf = (where: string, values: Record<string, string | number>): StoredMessage | null =>
    connection.first(messageSchema, `SELECT ${columns} FROM message WHERE ${where}`, values);
  const ofForm = (passageNumber: number, formToken: string): StoredMessage | null =>
    firstOf('passage_number = :passageNumber AND form_token = :formToken', { passageNumber, formToken });
  const lastSentCounter = (kind: string, sender: string): number =>
    connection.first(
      counterSchema,
      "SELECT coalesce(max(counter_number), 0) AS last FROM message WHERE direction = 'sent' AND kind = :kind AND sender = :sender",
      { kind, sender },
    )?.last ?? 0;

  const added = (row: Omit<StoredMessage, 'number'>): Result<StoredMessage> => {
    const number = nextNumber(connection, 'message', row.passageNumber);
    if (number === null) return failed(noSuchPassage(row.passageNumber));
    const whole = { ...row, number };
    connection.run(
      'INSERT INTO message (passage_number, number, direction, kind, sender, counter_number, fingerprint, signature, ' +
        'made_at_epoch_ms, text, of_json, written_at_epoch_ms, form_token) ' +
        'VALUES (:passageNumber, :number, :direction, :kind, :sender, :counterNumber, :fingerprint, :signature, ' +
        ':madeAtEpochMs, :text, :ofJson, :writtenAtEpochMs, :formToken)',
      whole,
    );
    return ok(whole);
  };

  return {
    appendSent: ({ seal, leastCounterNumber, ...message }) =>
      connection.write(() => {
        const { passageNumber, kind, sender, formToken } = message;
        const earlier = ofForm(passageNumber, formToken);
        if (earlier !== null) return ok(earlier);
        const last = lastSentCounter(kind, sender);
        const counterNumber = leastCounterNumber ?? last + 1;
        if (counterNumber <= last) return failed(counterUsed(counterNumber, last));
        const sealed = seal(counterNumber);
        return sealed.ok ? added({ ...message, ...sealed.value, counterNumber, direction: 'sent' }) : sealed;
      }),

    appendReceived: (message) =>
      connection.write(() => {
        const { passageNumber, fingerprint, signature } = message;
        const earlier = firstOf(
          "passage_number = :passageNumber AND fingerprint = :fingerprint AND signature = :signature AND direction = 'received'",
          { passageNumber, fingerprint, signature },
        );
        return earlier === null ? added({ ...message, direction: 'received', formToken: null }) : ok(earlier);
      }),

    list: (passageNumber) =>
      connection.read(() =>
        connection.all(
          messageSchema,
          `SELECT ${columns} FROM message WHERE passage_number = :passageNumber ORDER BY number`,
          { passageNumber },
        ),
      ),
    get: (passageNumber, number) =>
      connection.read(() => firstOf('passage_number = :passageNumber AND number = :number', { passageNumber, number })),
    ofForm: (passageNumber, formToken) => connection.read(() => ofForm(passageNumber, formToken)),
    lastSentCounter: (kind, sender) => connection.read(() => lastSentCounter(kind, sender)),
    lastReceived: (sender) =>
      connection.read(() =>
        connection.all(
          lastSchema,
          'SELECT kind, sender, max(counter_number) AS counterNumber, fingerprint, signature FROM message ' +
            "WHERE direction = 'received' AND sender = :sender GROUP BY kind, signature",
          { sender },
        ),
      ),
  };
}

const counterUsed = (counterNumber: number, lastNumber: number): Problem => ({
  code: 'message.counter-used',
  where: 'counter',
  what: `Counter ${counterNumber} is used up: the last message of this kind and sender has ${lastNumber}.`,
  expected: `more than ${lastNumber}, or nothing for the next one`,
  remedy: 'Leave it empty, unless the other side has had higher ones from another machine.',
});
