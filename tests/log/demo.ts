import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readLogEntry, type LogEntryFile, type NumberedEntry } from '../../lib/log/index.ts';
import { parsePassage, type Passage } from '../../lib/passage/index.ts';

const DEMO = fileURLToPath(new URL('../../sample-forecasts/demo-passage.json', import.meta.url));

/** The passage of a text; throws with its problems where it has any. */
export function passageOf(text: string): Passage {
  const passage = parsePassage(text, 'passage');
  if (!passage.ok) throw new Error(JSON.stringify(passage.problems));
  return passage.value;
}

/** The demo passage, with what is laid over it. */
export function demoPassage(over: Readonly<Record<string, unknown>> = {}): Passage {
  const file: unknown = JSON.parse(readFileSync(DEMO, 'utf8'));
  return passageOf(JSON.stringify(Object.assign({}, file, over)));
}

/** Entries numbered from 1, each read as any entry is. */
export function logOf(...raws: readonly object[]): NumberedEntry[] {
  return raws.map((raw, index) => ({ number: index + 1, entry: entryOf(raw) }));
}

export function entryOf(raw: object): LogEntryFile {
  const entry = readLogEntry(raw, 'entry');
  if (!entry.ok) throw new Error(JSON.stringify(entry.problems));
  return entry.value;
}

/** Epoch milliseconds of a day of May 2026 and a time, UTC: `at('27 18:30')`. */
export const at = (dayAndTime: string): number => Date.parse(utc(dayAndTime));
export const utc = (dayAndTime: string): string => `2026-05-${dayAndTime.replace(' ', 'T')}Z`;

/** An event of a job. */
export const event = (jobId: string, what: string, when: string, more: object = {}): object => ({
  kind: 'job',
  atUtc: utc(when),
  jobId,
  event: what,
  ...more,
});

export const seen = (when: string, values: object): object => ({ kind: 'observation', atUtc: utc(when), ...values });

export const slept = (from: string, to: string): object => ({ kind: 'sleep', atUtc: utc(from), endUtc: utc(to) });
