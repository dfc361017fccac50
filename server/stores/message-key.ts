import { readFileSync } from 'node:fs';
import { keyShort, LEAST_KEY_OCTETS_COUNT } from '../../lib/message/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';

/** A key file is a line of text; a longer file is something else [octets]. */
const MOST_FILE_OCTETS = 4096;
const LINE_ENDS: readonly number[] = [0x0a, 0x0d];

/**
 * The shared key of messages from its file: the octets as they stand, without line ends behind them, which editors add
 * unasked (`slatch message --key` takes it the same way). No problem shows any of it.
 *
 * @returns at least 16 octets, or `message.key-file`, `message.key-short`
 */
export function readMessageKey(file: string): Result<Uint8Array> {
  let octets: Uint8Array;
  try {
    octets = new Uint8Array(readFileSync(file));
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return failed(noKey(file, `The file of the message key cannot be read (${code}).`));
  }
  if (octets.length > MOST_FILE_OCTETS)
    return failed(noKey(file, 'The file of the message key is too long to be one.'));
  const key = octets.slice(0, octets.findLastIndex((octet) => !LINE_ENDS.includes(octet)) + 1);
  return key.length >= LEAST_KEY_OCTETS_COUNT ? ok(key) : failed({ ...keyShort(key.length), where: file });
}

const noKey = (where: string, what: string): Problem => ({
  code: 'message.key-file',
  where,
  what,
  expected: `a file with one line, at least ${LEAST_KEY_OCTETS_COUNT} letters and digits drawn at random`,
  remedy: 'Check the name and the permissions, or leave the key out: messages are then neither signed nor verified.',
});
