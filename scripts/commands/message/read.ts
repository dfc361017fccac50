import { formatLogEntry, type NumberedEntry } from '../../../lib/log/index.ts';
import {
  type Counters,
  entriesOfReport,
  messageName,
  messageText,
  type ReadMessage,
  readMessages,
  type ReadMessages,
  replayCheck,
} from '../../../lib/message/index.ts';
import { formatProblem, ok, type Problem, type Result } from '../../../lib/result/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { reportProblems, takeApart, type TakenApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { readUtf8 } from '../locker/read-utf8.ts';
import { readLogFile, reportLog } from '../log/log-file.ts';
import { readStandardInput } from '../log/standard-input.ts';
import { countersGiven, keepCounters } from './counters-file.ts';
import { keyGiven } from './key-file.ts';

export const READ_HELP = `slatch message read [TEXT ... | --file FILE] [--key FILE [--unsigned]] [--counters FILE] [--capitals]
                    [--entries [--log FILE.jsonl]] [--json]

  Reads messages out of any text, such as a pasted mail: parts in any order, twice, with words around; without TEXT and
  --file, from standard input. Everything is said in plain words. What is missing, damaged, contradictory, not signed or
  old is refused with the reason and what to ask for, and nothing of it is used.
    --key       the key both sides hold: only what is signed with it is taken; --unsigned takes what is not signed too
    --counters  remembers the last message taken of each kind and sender: an older one, sent again, is refused
    --capitals  all letters are capitals: for plans and reports whose letters were made small on the way
    --entries   of reports, the entries for a log, one a line; with --log those it does not hold yet

  slatch message read --file mail.txt --key key.txt --counters counters.json
`;

/** `slatch message read`. */
export async function printRead(args: readonly string[], io: CommandIo): Promise<number> {
  const given = readArguments(args);
  const around = await aroundGiven(given, io);
  if (!around.ok) return refuse(io, around.problems);
  const { text, keyOctets, counters, log } = around.value;
  const read = readMessages(given.flags.has('capitals') ? text.toUpperCase() : text, {
    where: given.texts.get('file') ?? 'text',
    keyOctets,
    takesUnsigned: given.flags.has('unsigned'),
  });
  const taken = takenOf(read, counters);
  const entries = given.flags.has('entries') ? entriesOf(taken.messages, log) : ok(null);
  if (!entries.ok) return refuse(io, entries.problems);
  print(taken, { entries: entries.value, isJson: given.flags.has('json') }, io);
  const countersFile = given.texts.get('counters');
  const { counters: after } = taken;
  const unkept = countersFile === undefined || after === null ? [] : await keepCounters(countersFile, after);
  if (unkept.length > 0) return refuse(io, unkept);
  return taken.refused.length === 0 && taken.damaged.length === 0 && taken.messages.length > 0 ? 0 : 1;
}

function refuse(io: CommandIo, problems: readonly Problem[]): number {
  reportProblems(io, problems);
  return 1;
}

/** The text, and what it is read by. */
interface Around {
  readonly text: string;
  readonly keyOctets: Uint8Array | null;
  readonly counters: Counters | null;
  readonly log: readonly NumberedEntry[];
}

async function aroundGiven(given: TakenApart, io: CommandIo): Promise<Result<Around>> {
  const keyOctets = await keyGiven(given, io);
  if (!keyOctets.ok) return keyOctets;
  const counters = await countersGiven(given.texts.get('counters'), io);
  if (!counters.ok) return counters;
  const log = await logGiven(given, io);
  if (!log.ok) return log;
  const text = await textGiven(given, io);
  return text.ok
    ? ok({ text: text.value, keyOctets: keyOctets.value, counters: counters.value, log: log.value })
    : text;
}

function readArguments(args: readonly string[]): TakenApart {
  const given = takeApart(args, {
    file: 'text',
    key: 'text',
    unsigned: 'flag',
    counters: 'text',
    capitals: 'flag',
    entries: 'flag',
    log: 'text',
    json: 'flag',
  });
  if (typeof given === 'string') throw new WrongUse(given);
  if (given.files.length > 0 && given.texts.has('file')) throw new WrongUse('a text or --file, not both.');
  if (given.texts.has('log') && !given.flags.has('entries')) throw new WrongUse('--log goes with --entries.');
  return given;
}

async function textGiven(given: TakenApart, io: CommandIo): Promise<Result<string>> {
  const file = given.texts.get('file');
  if (file !== undefined) return readUtf8(file, io);
  return ok(given.files.length > 0 ? given.files.join('\n') : await readStandardInput());
}

async function logGiven(given: TakenApart, io: CommandIo): Promise<Result<readonly NumberedEntry[]>> {
  const file = given.texts.get('log');
  if (file === undefined) return ok([]);
  const log = await readLogFile(file, io);
  if (!log.ok) return log;
  reportLog(log.value, io);
  return ok(log.value.entries);
}

interface TakenMessage extends ReadMessage {
  /** Null: no counters are kept. */
  readonly verdict: 'new' | 'duplicate' | null;
}

interface Refused {
  readonly name: string;
  readonly missingNumbers: readonly number[];
  readonly problems: readonly Problem[];
}

interface Taken {
  readonly messages: readonly TakenMessage[];
  readonly refused: readonly Refused[];
  readonly damaged: readonly Problem[];
  readonly counters: Counters | null;
}

/** Messages by their counters, each checked against those before; what is damaged and came whole besides does not matter. */
function takenOf(read: ReadMessages, counters: Counters | null): Taken {
  const messages: TakenMessage[] = [];
  const refused: Refused[] = read.unread.map((of) => ({
    name: messageName(of),
    missingNumbers: of.missingNumbers,
    problems: of.problems,
  }));
  let held = counters;
  for (const message of read.read.toSorted((a, b) => a.counterNumber - b.counterNumber)) {
    const checked = held === null ? null : replayCheck(held.seen, message);
    if (checked === null) messages.push({ ...message, verdict: null });
    else if (checked.ok) {
      messages.push({ ...message, verdict: checked.value.verdict });
      if (held !== null) held = { ...held, seen: checked.value.seen };
    } else refused.push({ name: messageName(message), missingNumbers: [], problems: checked.problems });
  }
  const whole = new Set(read.read.map(messageName));
  const damaged = read.damaged.filter(({ claims }) => claims === null || !whole.has(messageName(claims)));
  return { messages, refused, damaged: damaged.map(({ problem }) => problem), counters: held };
}

/** Entries of all reports, the later ones without what the earlier hold. */
function entriesOf(messages: readonly TakenMessage[], log: readonly NumberedEntry[]): Result<readonly string[]> {
  const known = [...log];
  const lines: string[] = [];
  for (const { message } of messages) {
    if (message.kind !== 'report') continue;
    const entries = entriesOfReport(message, known);
    if (!entries.ok) return entries;
    for (const entry of entries.value) {
      known.push({ number: known.length + 1, entry });
      lines.push(formatLogEntry(entry));
    }
  }
  return ok(lines);
}

interface Printing {
  readonly entries: readonly string[] | null;
  readonly isJson: boolean;
}

function print(taken: Taken, { entries, isJson }: Printing, io: CommandIo): void {
  if (isJson) {
    io.out(`${JSON.stringify(published(taken, entries), null, 2)}\n`);
    return;
  }
  for (const { problems } of taken.refused) reportProblems(io, problems);
  for (const problem of taken.damaged) io.err(`${formatProblem(problem)}\n`);
  if (entries !== null) {
    for (const line of entries) io.out(`${line}\n`);
    return;
  }
  io.out(
    taken.messages.map((message) => `${headLine(message)}\n${messageText(message.message).join('\n')}\n`).join('\n'),
  );
}

const SIGNATURE_WORDS: Readonly<Record<ReadMessage['signature'], string>> = {
  verified: 'signed with your key',
  'signed-not-verified': 'signed, not verified: no key is given',
  unsigned: 'not signed: anybody may have written it',
};

function headLine(of: TakenMessage): string {
  const parts = of.partCount === 1 ? '1 part' : `${of.partCount} parts`;
  const twice = of.repeatedCount === 0 ? '' : `, ${of.repeatedCount} more than once`;
  const again = of.verdict === 'duplicate' ? '; the same as was taken before' : '';
  return `${messageName(of)}: whole, ${parts}${twice}; ${SIGNATURE_WORDS[of.signature]}${again}`;
}

function published(taken: Taken, entries: readonly string[] | null): unknown {
  return {
    messages: taken.messages.map((of) => ({
      kind: of.kind,
      sender: of.sender,
      counterNumber: of.counterNumber,
      baseTimeUtc: formatUtc(of.baseEpochMs),
      signature: of.signature,
      verdict: of.verdict,
      partCount: of.partCount,
      repeatedCount: of.repeatedCount,
      text: messageText(of.message),
      message: of.message,
    })),
    refused: taken.refused,
    damaged: taken.damaged,
    ...(entries === null ? {} : { entries: entries.map((line): unknown => JSON.parse(line)) }),
  };
}
