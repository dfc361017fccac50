/** What the three kinds share when they are written: sender, counter, key, limit, and how parts are shown. */
import {
  backupLine,
  counterName,
  type Counters,
  LEAST_LIMIT_COUNT,
  type Message,
  type MessageKind,
  PART_LIMITS,
  type SenderMark,
  smsLength,
  writeMessage,
} from '../../../lib/message/index.ts';
import { ok, type Result } from '../../../lib/result/index.ts';
import { numberOption, reportProblems, type TakenApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { countersGiven, keepCounters } from './counters-file.ts';
import { keyGiven } from './key-file.ts';

export const SENDING_OPTIONS = ['limit', 'sender', 'counter', 'counters', 'key'] as const;

const MOST_LIMIT_COUNT = 100_000;
const MOST_COUNTER_NUMBER = 999_999;
/** Who sends what, unless told: plans and digests come from the shore, reports from the boat. */
const DEFAULT_SENDERS: Readonly<Record<MessageKind, string>> = { plan: 'SH', digest: 'SH', report: 'BT' };

export interface Sending {
  readonly mark: SenderMark;
  readonly limitCount: number;
  readonly keyOctets: Uint8Array | null;
  /** Null: no file of counters is given. */
  readonly counters: { readonly file: string; readonly held: Counters } | null;
}

/** What of a command says how to send. */
export async function sendingGiven(given: TakenApart, kind: MessageKind, io: CommandIo): Promise<Result<Sending>> {
  const limitCount = limitGiven(given.texts.get('limit') ?? 'sms');
  const sender = given.texts.get('sender') ?? DEFAULT_SENDERS[kind];
  if (!/^[A-Z0-9]{1,4}$/.test(sender))
    throw new WrongUse(`--sender ${sender}: expected 1 to 4 capital letters and digits.`);
  const file = given.texts.get('counters');
  const keyOctets = await keyGiven(given, io);
  if (!keyOctets.ok) return keyOctets;
  const held = await countersGiven(file, io);
  if (!held.ok) return held;
  const counterNumber = counterGiven(given, held.value?.sent[counterName({ kind, sender })] ?? 0);
  if (file === undefined && !given.texts.has('counter'))
    io.err('Counter 1: without --counter or --counters a second message is taken for the first sent again.\n');
  const counters = file === undefined || held.value === null ? null : { file, held: held.value };
  return ok({ mark: { sender, counterNumber }, limitCount, keyOctets: keyOctets.value, counters });
}

/** --counter, which must be above the last one sent, else the one after it. */
function counterGiven(given: TakenApart, lastNumber: number): number {
  const counter = numberOption(given, 'counter', { least: 1, most: MOST_COUNTER_NUMBER });
  if (counter === null) return lastNumber + 1;
  if (!Number.isInteger(counter)) throw new WrongUse(`--counter ${counter}: expected a whole number.`);
  if (counter <= lastNumber)
    throw new WrongUse(`--counter ${counter}: ${lastNumber} was sent already, expected a higher one.`);
  return counter;
}

function limitGiven(text: string): number {
  if (text === 'sms' || text === 'satellite') return PART_LIMITS[text];
  const count = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (count >= LEAST_LIMIT_COUNT && count <= MOST_LIMIT_COUNT) return count;
  throw new WrongUse(
    `--limit ${text}: expected sms (${PART_LIMITS.sms} septets), satellite (${PART_LIMITS.satellite} octets) or a number from ${LEAST_LIMIT_COUNT}.`,
  );
}

/** Prints the parts, one a line, and on standard error how long they are and the line for a lost key; then keeps the counter. */
export async function send(message: Message, sending: Sending, given: TakenApart, io: CommandIo): Promise<number> {
  const { mark, counters } = sending;
  const parts = writeMessage(message, mark, sending);
  if (!parts.ok) {
    reportProblems(io, parts.problems);
    return 1;
  }
  if (counters !== null) {
    const name = counterName({ kind: message.kind, sender: mark.sender });
    // Before anything is printed: a message that was sent must not find its number free again.
    const unkept = await keepCounters(counters.file, {
      ...counters.held,
      sent: { ...counters.held.sent, [name]: mark.counterNumber },
    });
    if (unkept.length > 0) {
      reportProblems(io, unkept);
      return 1;
    }
  }
  const measured = parts.value.map((text) => ({ text, ...measure(text) }));
  const backup = backupLine(message);
  if (given.flags.has('json')) {
    const { sender, counterNumber } = mark;
    const { kind } = message;
    const isSigned = sending.keyOctets !== null;
    io.out(`${JSON.stringify({ kind, sender, counterNumber, isSigned, parts: measured, backup, message }, null, 2)}\n`);
    return 0;
  }
  for (const { text } of measured) io.out(`${text}\n`);
  for (const [index, { septetCount, octetCount, segmentCount }] of measured.entries())
    io.err(
      `part ${index + 1} of ${measured.length}: ${septetCount} septets, ${octetCount} octets, ${segmentCount === 1 ? 'one SMS' : `${segmentCount} SMS`}\n`,
    );
  io.err(sending.keyOctets === null ? 'Not signed: anybody could have written it.\n' : 'Signed with the key.\n');
  io.err(`If the key to the fields is lost, send: ${backup}\n`);
  return 0;
}

function measure(text: string): { septetCount: number; octetCount: number; segmentCount: number } {
  const { unitCount, segmentCount } = smsLength(text);
  return { septetCount: unitCount, octetCount: new TextEncoder().encode(text).length, segmentCount };
}
