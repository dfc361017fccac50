import { z } from 'zod';
import { failed, type Result } from '../../result/index.ts';
import { readShape } from '../../shape/index.ts';
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
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return failed({
      code: 'message.counters-not-json',
      where,
      what: 'The file of counters is not JSON.',
      expected: 'the file as this program wrote it',
      remedy: 'Take it from a copy. Without it, old messages sent again are taken for new ones.',
    });
  }
  return readShape(countersFile, raw, { where, path: [], codeWord: 'message' });
}

export const formatCounters = (counters: Counters): string => `${JSON.stringify(counters, null, 2)}\n`;
