import { failed, ok, type Result } from '../../../lib/result/index.ts';
import type { WantedMessage } from './source.ts';

/** One message as an index lists it. */
export interface IndexEntry {
  readonly startOctet: number;
  /** First octet after it; null: to the end of the file. */
  readonly endOctet: number | null;
  readonly keys: Readonly<Record<string, string>>;
}

/** Part of a file: octets from `startOctet` up to, not including, `endOctet`; null: to its end. */
export interface OctetRange {
  readonly startOctet: number;
  readonly endOctet: number | null;
}

export interface IndexRanges {
  /** In file order, without gaps or overlaps between neighbours that could be one. */
  readonly ranges: readonly OctetRange[];
  readonly messageCount: number;
  /** Messages wanted that the index does not list. */
  readonly missing: readonly WantedMessage[];
}

export interface IndexQuestion {
  readonly kind: 'lines' | 'json-lines';
  readonly wanted: readonly WantedMessage[];
  /** Members wanted, where the index tells members apart by a key; null: all that is listed. */
  readonly members: { readonly key: string; readonly numbers: readonly number[] } | null;
  /** Named in problems. */
  readonly where: string;
}

/**
 * Where in a file the messages wanted are, by its index.
 *
 * @returns `fetch.index-unreadable`, with the first line that is not understood
 */
export function indexRanges(text: string, question: IndexQuestion): Result<IndexRanges> {
  const entries = readIndex(text, question);
  if (!entries.ok) return entries;
  const isOfMembers = ({ keys }: IndexEntry): boolean => {
    const { members } = question;
    if (members === null) return true;
    return members.numbers.includes(Number(keys[members.key] ?? '0'));
  };
  const ofMembers = entries.value.filter(isOfMembers);
  const isWanted = (entry: IndexEntry, { keys }: WantedMessage): boolean =>
    Object.entries(keys).every(([key, value]) => entry.keys[key] === String(value));
  const found = ofMembers.filter((entry) => question.wanted.some((wanted) => isWanted(entry, wanted)));
  return ok({
    ranges: joined(found),
    messageCount: new Set(found.map(({ startOctet }) => startOctet)).size,
    missing: question.wanted.filter((wanted) => !ofMembers.some((entry) => isWanted(entry, wanted))),
  });
}

function readIndex(text: string, { kind, where }: IndexQuestion): Result<readonly IndexEntry[]> {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const entries: IndexEntry[] = [];
  for (const [number, line] of lines.entries()) {
    const entry = kind === 'lines' ? entryOfLine(line) : entryOfJson(line);
    if (entry === null) return failed(unreadable(line, `${where}, line ${number + 1}`, kind));
    entries.push(entry);
  }
  if (entries.length === 0) return failed(unreadable('', where, kind));
  return ok(kind === 'lines' ? withEnds(entries) : entries);
}

/** `586:423312699:d=2026083000:TMAX:2 m above ground:0-6 hour max fcst:ENS=+1` */
function entryOfLine(line: string): IndexEntry | null {
  const [number = '', offset = '', date = '', parameter, level, step, member] = line.split(':');
  if (!/^\d+(\.\d+)?$/.test(number) || !/^\d{1,15}$/.test(offset) || parameter === undefined || level === undefined)
    return null;
  const keys = { number, date: date.replace(/^d=/, ''), parameter, level };
  return {
    startOctet: Number(offset),
    endOctet: null,
    keys: { ...keys, ...(step === undefined ? {} : { step }), ...(member ? { member } : {}) },
  };
}

/** A message ends where the next begins; submessages (`3.1`, `3.2`) share one place. */
function withEnds(entries: readonly IndexEntry[]): readonly IndexEntry[] {
  const starts = [...new Set(entries.map(({ startOctet }) => startOctet))].toSorted((a, b) => a - b);
  const nextOf = new Map(starts.map((startOctet, index) => [startOctet, starts[index + 1] ?? null]));
  return entries.map((entry) => ({ ...entry, endOctet: nextOf.get(entry.startOctet) ?? null }));
}

function entryOfJson(line: string): IndexEntry | null {
  let raw: unknown;
  try {
    raw = JSON.parse(line);
  } catch {
    return null;
  }
  if (typeof raw !== 'object' || raw === null) return null;
  const all = new Map<string, unknown>(Object.entries(raw));
  const [offset, length] = [all.get('_offset'), all.get('_length')];
  if (!isOctetCount(offset) || !isOctetCount(length) || length === 0) return null;
  const keys = [...all].flatMap(([key, value]): [string, string][] =>
    typeof value === 'string' || typeof value === 'number' ? [[key, String(value)]] : [],
  );
  return { startOctet: offset, endOctet: offset + length, keys: Object.fromEntries(keys) };
}

const isOctetCount = (value: unknown): value is number => Number.isSafeInteger(value) && Number(value) >= 0;

/** Neighbours made one; the same place twice is one place. */
function joined(entries: readonly IndexEntry[]): readonly OctetRange[] {
  const ranges: { startOctet: number; endOctet: number | null }[] = [];
  for (const { startOctet, endOctet } of entries.toSorted((a, b) => a.startOctet - b.startOctet)) {
    const last = ranges.at(-1);
    if (last === undefined || (last.endOctet !== null && last.endOctet < startOctet)) {
      ranges.push({ startOctet, endOctet });
    } else if (last.endOctet !== null) {
      last.endOctet = endOctet === null ? null : Math.max(last.endOctet, endOctet);
    }
  }
  return ranges;
}

const unreadable = (line: string, where: string, kind: IndexQuestion['kind']) => ({
  code: 'fetch.index-unreadable',
  where,
  what: line === '' ? 'The index is empty.' : `"${line.slice(0, 60)}" is no line of an index.`,
  expected: kind === 'lines' ? 'number:offset:date:parameter:level:step:' : 'a JSON object with _offset and _length',
  remedy: 'Fetch again later, or take a source without an index.',
});
