import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { isStrongKey, keyDigest, type KeyDigest, LEAST_DIFFERENT_COUNT, LEAST_LETTERS_COUNT } from './access-key.ts';

/** A key file is a line of text; a longer file is something else [octets]. */
const MOST_FILE_OCTETS = 4096;
/** Permissions of anyone but the owner. */
const OF_OTHERS = 0o077;

/**
 * The access key from its file, hashed. No problem shows any of it.
 *
 * @param platform on Windows the permissions of a file say nothing
 * @returns `access.key-file` (cannot be read, or is no line of text), `access.key-open` (others may read it),
 *   `access.key-weak`
 */
export function readAccessKey(file: string, platform: NodeJS.Platform): Result<KeyDigest> {
  const read = readLittle(file);
  if (!read.ok) return read;
  const { text, isOpenToOthers } = read.value;
  if (isOpenToOthers && platform !== 'win32') return failed(openToOthers(file));
  if (text.trim().includes('\n')) return failed(noKey(file, 'The file of the access key holds more than one line.'));
  return isStrongKey(text) ? ok(keyDigest(text)) : failed(weak(file));
}

interface LittleFile {
  readonly text: string;
  readonly isOpenToOthers: boolean;
}

/** Content and permissions of the same file, whatever happens to its name meanwhile. */
function readLittle(file: string): Result<LittleFile> {
  try {
    const opened = openSync(file, 'r');
    try {
      const state = fstatSync(opened);
      if (!state.isFile()) return failed(noKey(file, 'What is named for the access key is not a file.'));
      const octets = Buffer.alloc(MOST_FILE_OCTETS + 1);
      const octetCount = readSync(opened, octets);
      if (octetCount > MOST_FILE_OCTETS)
        return failed(noKey(file, 'The file of the access key is too long to be one.'));
      const text = octets.toString('utf8', 0, octetCount);
      return ok({ text, isOpenToOthers: (state.mode & OF_OTHERS) !== 0 });
    } finally {
      closeSync(opened);
    }
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return failed(noKey(file, `The file of the access key cannot be read (${code}).`));
  }
}

const MAKE_ONE = 'npx --no-install slatch access-key FILE';

/** Nobody but the boat may read a passage: asked for wherever others can reach the server. */
export const keyMissing = (host: string): Problem => ({
  code: 'access.key-missing',
  where: '--access-key or SLATCH_ACCESS_KEY',
  what: `Others on the network can reach ${host}, and there is no access key to keep them out.`,
  expected: 'a file with the access key',
  remedy: `Make one with "${MAKE_ONE}", then start with: npm start -- --host ${host} --access-key FILE. Or leave --host out: then only this machine is answered.`,
});

const noKey = (where: string, what: string): Problem => ({
  code: 'access.key-file',
  where,
  what,
  expected: 'a file with the access key in one line',
  remedy: `Check its name, or make one with "${MAKE_ONE}".`,
});

const openToOthers = (where: string): Problem => ({
  code: 'access.key-open',
  where,
  what: 'Other users of this machine may read the file of the access key.',
  expected: 'a file that only its owner may read',
  remedy: `Take it away from them with: chmod 600 ${where}. Where the disk knows no permissions, keep the file in your home folder.`,
});

const weak = (where: string): Problem => ({
  code: 'access.key-weak',
  where,
  what: 'The access key is too easy to guess.',
  expected: `at least ${LEAST_LETTERS_COUNT} letters and figures (spaces and hyphens do not count), ${LEAST_DIFFERENT_COUNT} of them different`,
  remedy: `Let one be drawn: "${MAKE_ONE}" with the name of a new file.`,
});
