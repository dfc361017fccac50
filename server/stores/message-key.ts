import { closeSync, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { keyShort, LEAST_KEY_OCTETS_COUNT } from '../../lib/message/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';

/** A key file is a line of text; a longer file is something else [octets]. */
const MOST_FILE_OCTETS = 4096;
/** Permissions of anyone but the owner. */
const OF_OTHERS = 0o077;
const LINE_ENDS: readonly number[] = [0x0a, 0x0d];

/**
 * The shared key of messages from its file: the octets as they stand, without line ends behind them, which editors add
 * unasked (`slatch message --key` takes it the same way). No problem shows any of it.
 *
 * @param platform on Windows the permissions of a file say nothing
 * @returns at least 16 octets, or `message.key-file` (cannot be read, or is no file), `message.key-open` (others may read
 *   it), `message.key-short`
 */
export function readMessageKey(file: string, platform: NodeJS.Platform = process.platform): Result<Uint8Array> {
  const read = readLittle(file);
  if (!read.ok) return read;
  const { octets, isOpenToOthers } = read.value;
  if (isOpenToOthers && platform !== 'win32') return failed(openToOthers(file));
  const key = octets.slice(0, octets.findLastIndex((octet) => !LINE_ENDS.includes(octet)) + 1);
  return key.length >= LEAST_KEY_OCTETS_COUNT ? ok(key) : failed({ ...keyShort(key.length), where: file });
}

interface LittleFile {
  readonly octets: Uint8Array;
  readonly isOpenToOthers: boolean;
}

/** Content and permissions of the same file, whatever happens to its name meanwhile. */
function readLittle(file: string): Result<LittleFile> {
  try {
    // A pipe would wait for its writer.
    if (!statSync(file).isFile()) return failed(noKey(file, 'What is named for the message key is not a file.'));
    const opened = openSync(file, 'r');
    try {
      const octets = new Uint8Array(MOST_FILE_OCTETS + 1);
      const octetCount = readSync(opened, octets);
      if (octetCount > MOST_FILE_OCTETS)
        return failed(noKey(file, 'The file of the message key is too long to be one.'));
      return ok({ octets: octets.slice(0, octetCount), isOpenToOthers: (fstatSync(opened).mode & OF_OTHERS) !== 0 });
    } finally {
      closeSync(opened);
    }
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return failed(noKey(file, `The file of the message key cannot be read (${code}).`));
  }
}

const openToOthers = (where: string): Problem => ({
  code: 'message.key-open',
  where,
  what: 'Other users of this machine may read the file of the message key, and sign as you.',
  expected: 'a file that only its owner may read',
  remedy: `Take it away from them with: chmod 600 ${where}. Where the disk knows no permissions, keep the file in your home folder.`,
});

const noKey = (where: string, what: string): Problem => ({
  code: 'message.key-file',
  where,
  what,
  expected: `a file with one line, at least ${LEAST_KEY_OCTETS_COUNT} letters and digits drawn at random`,
  remedy: 'Check the name and the permissions, or leave the key out: messages are then neither signed nor verified.',
});
