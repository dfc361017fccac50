import type { Problem } from '../../lib/result/index.ts';

interface Trouble {
  readonly code: string;
  readonly what: string;
  readonly expected: string;
  readonly remedy: string;
}

const cannotWrite: Trouble = {
  code: 'store.cannot-write',
  what: 'The store cannot be opened or written here.',
  expected: 'a folder that may be read and written',
  remedy: 'Check the folder and its permissions, or name another one with --store.',
};

const damaged: Trouble = {
  code: 'store.damaged',
  what: 'The database of the store is damaged, or is not one of ours.',
  expected: 'a database written by this program',
  remedy: 'Move slatch.db out of the folder, restore a copy of it, and start again.',
};

const full: Trouble = {
  code: 'store.disk-full',
  what: 'The disk is full; nothing was written.',
  expected: 'free space on the disk of the store',
  remedy: 'Free some space, then do it again.',
};

const busy: Trouble = {
  code: 'store.busy',
  what: 'Another command kept the store locked; nothing was written.',
  expected: 'the store to be free within a few seconds',
  remedy: 'Wait until the other command has ended, then do it again.',
};

/** Failures of the disk and of SQLite, by the beginning of their error code. */
const troubles: readonly (readonly [codeStart: string, trouble: Trouble])[] = [
  ['SQLITE_BUSY', busy],
  ['SQLITE_LOCKED', busy],
  ['SQLITE_FULL', full],
  ['ENOSPC', full],
  ['EDQUOT', full],
  ['SQLITE_NOTADB', damaged],
  ['SQLITE_CORRUPT', damaged],
  ['SQLITE_READONLY', cannotWrite],
  ['SQLITE_CANTOPEN', cannotWrite],
  ['SQLITE_IOERR', cannotWrite],
  ['SQLITE_PERM', cannotWrite],
  ['EACCES', cannotWrite],
  ['EPERM', cannotWrite],
  ['EROFS', cannotWrite],
  ['ENOTDIR', cannotWrite],
  ['ENOENT', cannotWrite],
  ['EEXIST', cannotWrite],
  ['EIO', cannotWrite],
];

/** The problem behind a failure of the disk or the database; null when the failure is a mistake of ours. */
export function troubleOf(error: unknown, where: string): Problem | null {
  const code = codeOf(error);
  const [, trouble] = troubles.find(([codeStart]) => code.startsWith(codeStart)) ?? [];
  return trouble === undefined ? null : { ...trouble, what: `${trouble.what} (${code})`, where };
}

function codeOf(error: unknown): string {
  if (!(error instanceof Error)) return '';
  if ('code' in error && typeof error.code === 'string' && error.code !== '') return error.code;
  // libsql gives an empty code when the file cannot be opened at all.
  return error.message.startsWith('ConnectionFailed') ? 'SQLITE_CANTOPEN' : '';
}

export const newerStore = (where: string): Problem => ({
  code: 'store.newer',
  where,
  what: 'The store was written by a newer version of Slatch.',
  expected: 'a store of this version or an older one',
  remedy: 'Use the newer version, or name another folder with --store.',
});

/** @param who what the other server said of itself; empty: nothing */
export const serverRunning = (where: string, who: string): Problem => ({
  code: 'store.server-running',
  where,
  what: `Another Slatch server${who === '' ? '' : ` (${who})`} is already using this store.`,
  expected: 'one server for each store',
  remedy: 'Use the running one, stop it, or name another folder with --store.',
});

export const nameTaken = (name: string): Problem => ({
  code: 'store.name-taken',
  where: `store:${name}`,
  what: `There is already a passage called "${name}".`,
  expected: 'a name that no other passage has',
  remedy: 'Choose another name.',
});

export const noSuchPassage = (number: number): Problem => ({
  code: 'store.no-such-passage',
  where: `passage ${number}`,
  what: `There is no passage ${number}.`,
  expected: 'the number of a stored passage',
  remedy: 'Look at the list of passages.',
});

export const versionConflict = (number: number, versions: { expected: number; found: number }): Problem => ({
  code: 'store.version-conflict',
  where: `passage ${number}`,
  what: `The passage was changed meanwhile: it is at version ${versions.found}, the change was made to version ${versions.expected}.`,
  expected: `version ${versions.expected}`,
  remedy: 'Load it again and repeat the change.',
});

export const fileTooLarge = (fileName: string, mostOctets: number): Problem => ({
  code: 'store.file-too-large',
  where: fileName,
  what: 'The file is larger than the store takes.',
  expected: `at most ${mostOctets} octets`,
  remedy: 'Cut the forecast to the area and the hours you need.',
});
