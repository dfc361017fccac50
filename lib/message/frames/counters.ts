import { z } from 'zod';
import { failed, type Result } from '../../result/index.ts';
import { parseJsonText, readShape } from '../../shape/index.ts';
import { MOST_COUNTER_NUMBER } from './part.ts';

const counterNumber = z.int().min(1).max(MOST_COUNTER_NUMBER);
const name = z.string().regex(/^[PDR]\.[A-Z0-9]{1,4}$/, 'kind and sender, such as P.LW');

const countersFile = z.strictObject({
  /** The last message taken of each kind and sender. */
  seen: z.record(name, z.strictObject({ counterNumber, fingerprint: z.string().max(40) })),
  /** The last counter used of each kind and sender of our own. */
  sent: z.record(name, counterNumber),
});

/** What is remembered of messages between two runs. */
export type Counters = z.infer<typeof countersFile>;

export const NO_COUNTERS: Counters = { seen: {}, sent: {} };

/** Reads a counters file; `message.counters-not-json`, and the problems of its shape. */
export function parseCounters(text: string, where: string): Result<Counters> {
  const json = parseJsonText(text, {
    where,
    codeWord: 'message',
    most: { characterCount: MOST_CHARACTERS, remedy: REMEDY },
  });
  if (json.ok) return readShape(countersFile, json.value, { where, path: [], codeWord: 'message' });
  return failed({
    ...json.problems[0],
    code: 'message.counters-not-json',
    expected: 'the file as this program wrote it',
    remedy: REMEDY,
  });
}

/** Longest file of counters read [characters]: some thousands of senders. */
const MOST_CHARACTERS = 1_000_000;
const REMEDY = 'Take it from a copy. Without it, old messages sent again are taken for new ones.';

export const formatCounters = (counters: Counters): string => `${JSON.stringify(counters, null, 2)}\n`;
