import { type Message, type MessageNames, messageText, type PlanMessage } from '../../lib/message/index.ts';
import { assertNever, type Problem } from '../../lib/result/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { instantOf, type LogEntryFile, type NumberedEntry } from '../../lib/log/index.ts';
import { reportEntries } from '../message-forms/index.ts';
import { digestFileText } from '../message-text.ts';
import { textHash } from '../stores/index.ts';
import { storedName } from '../stores/passage-files.ts';
import { comparedWithOwn } from './message-compared.ts';
import { type WordLine, wordLinesOf } from './message-words.ts';
import { statementWords } from './log-words.ts';
import { timeTexts } from './time-texts.ts';

/** What a message says, and what can be done with it. */
export interface MessageContent {
  readonly words: readonly WordLine[];
  /** Only of a plan: against the one that is shown. */
  readonly compared: readonly string[];
  /** Only of a report: what it has for the log. */
  readonly entries: readonly EntryLine[];
  readonly entriesNote: string;
  readonly refused: readonly { readonly words: string; readonly problems: readonly Problem[] }[];
  /** null: nothing is left to do. */
  readonly action: MessageAction | null;
}

export interface EntryLine {
  readonly when: string;
  readonly utc: string;
  readonly words: string;
}

export interface MessageAction {
  readonly act: 'log' | 'plan-with' | 'keep';
  readonly button: string;
  /** What pressing it does. */
  readonly hint: string;
}

/** Against what a message is held. */
export interface ContentShown {
  readonly passage: Passage;
  readonly entries: readonly NumberedEntry[];
  readonly plan: Plan | null;
  readonly nowEpochMs: number;
}

interface Contained {
  readonly message: Message;
  readonly fingerprint: string;
  /** Its parts. */
  readonly text: string;
  /** It is in the list of messages. */
  readonly isKept: boolean;
}

/** What this passage calls the ids of a message. */
const namesOf = ({ jobs, boat }: Passage): MessageNames => ({
  jobs: named(jobs),
  handlings: named(boat.handlings),
  sailStates: named(boat.sailStates),
});

const named = (things: readonly { readonly id: string; readonly name: string }[]): Readonly<Record<string, string>> =>
  Object.fromEntries(things.map(({ id, name }) => [id, name]));

export function messageContent(of: Contained, shown: ContentShown): MessageContent {
  const words = wordLinesOf(messageText(of.message, namesOf(shown.passage)));
  const nothing = { words, compared: [], entries: [], entriesNote: '', refused: [], action: null };
  switch (of.message.kind) {
    case 'plan':
      return { ...nothing, ...planContent(of.message, of, shown) };
    case 'digest':
      return { ...nothing, action: digestAction(of, shown) };
    case 'report':
      return { ...nothing, ...reportContent(of.message, of, shown) };
    default:
      return assertNever(of.message);
  }
}

const KEEP: MessageAction = {
  act: 'keep',
  button: 'Keep it in the list',
  hint: 'It is put into the list below, and an older one that comes late is then told.',
};

const planContent = (
  message: PlanMessage,
  { isKept }: Contained,
  { plan, passage }: ContentShown,
): Pick<MessageContent, 'compared' | 'action'> => ({
  compared: comparedWithOwn(message, plan, passage),
  action: isKept ? null : KEEP,
});

function digestAction({ text }: Contained, { passage }: ContentShown): MessageAction | null {
  const isUsed = passage.forecasts.includes(storedName(textHash(digestFileText(text))));
  if (isUsed && passage.forecasts.length === 1) return null;
  return {
    act: 'plan-with',
    button: 'Plan with this digest',
    hint: 'It becomes the forecast of the passage, alone. The files planned with until now stay where they are.',
  };
}

function reportContent(
  message: Message & { readonly kind: 'report' },
  { fingerprint, isKept }: Contained,
  { passage, entries, nowEpochMs }: ContentShown,
): Omit<MessageContent, 'words' | 'compared'> {
  const has = reportEntries(message, fingerprint, { passage, entries, nowEpochMs });
  if (!has.ok)
    return {
      entries: [],
      entriesNote: 'None of it can be written into the log.',
      refused: [{ words: 'The report', problems: has.problems }],
      action: null,
    };
  const { toWrite, knownCount, refused } = has.value;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const lineOf = (entry: LogEntryFile): EntryLine => ({
    when: times.full(instantOf(entry.atUtc)),
    utc: times.utc(instantOf(entry.atUtc)),
    words: entry.kind === 'correction' ? '' : statementWords(entry, passage),
  });
  return {
    entries: toWrite.map(({ entry }) => lineOf(entry)),
    entriesNote: entriesNote(toWrite.length, knownCount),
    refused: refused.map(({ entry, problems }) => ({ words: lineOf(entry).words, problems })),
    action: toWrite.length === 0 ? (isKept ? null : KEEP) : logAction(toWrite.length),
  };
}

const logAction = (count: number): MessageAction => ({
  act: 'log',
  button: count === 1 ? 'Write it into the log' : `Write ${count} entries into the log`,
  hint: 'What is written moves the plan. Nothing in the log is ever removed; an entry can be withdrawn.',
});

function entriesNote(newCount: number, knownCount: number): string {
  if (newCount + knownCount === 0) return 'It has nothing for the log.';
  if (newCount === 0)
    return knownCount === 1
      ? 'Its entry is in the log already.'
      : `All ${knownCount} of its entries are in the log already.`;
  if (knownCount === 0) return '';
  return `${knownCount === 1 ? 'One of its entries is' : `${knownCount} of its entries are`} in the log already, and will not be written again.`;
}
