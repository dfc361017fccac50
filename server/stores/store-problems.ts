import { accessSync, constants, existsSync, statfsSync } from 'node:fs';
import { dirname } from 'node:path';
import { failed, type Problem, type Result } from '../../lib/result/index.ts';
import { sizeText } from '../../lib/units/index.ts';

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

const readOnly: Trouble = {
  code: 'store.cannot-write',
  what: 'The store can only be read here; nothing was written.',
  expected: 'a disk and a folder that may be written',
  remedy:
    'What it holds is safe: save it elsewhere with "slatch store backup", and look why the disk or the folder cannot be written.',
};

const damaged: Trouble = {
  code: 'store.damaged',
  what: 'The database of the store is damaged, or is not one of ours.',
  expected: 'a database written by this program',
  remedy: 'Bring a backup back with "slatch store restore FILE --force", which keeps this one beside it.',
};

const full: Trouble = {
  code: 'store.disk-full',
  what: 'The disk is full; nothing was written.',
  expected: 'free space on the disk of the store',
  remedy: 'Remove old forecasts or other files, then do it again; the store goes on without a new start.',
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
  // The largest file the system lets this process write.
  ['EFBIG', full],
  ['SQLITE_NOTADB', damaged],
  ['SQLITE_CORRUPT', damaged],
  ['SQLITE_READONLY', readOnly],
  ['SQLITE_CANTOPEN', cannotWrite],
  ['SQLITE_IOERR', cannotWrite],
  ['SQLITE_PERM', cannotWrite],
  ['EACCES', cannotWrite],
  ['EPERM', cannotWrite],
  ['EROFS', readOnly],
  ['ENOTDIR', cannotWrite],
  ['EISDIR', cannotWrite],
  ['ENOENT', cannotWrite],
  ['EEXIST', cannotWrite],
  ['EIO', cannotWrite],
  ['EBUSY', cannotWrite],
  ['EXDEV', cannotWrite],
  ['ENOTEMPTY', cannotWrite],
  ['ENAMETOOLONG', cannotWrite],
  ['ELOOP', cannotWrite],
];

/** The problem behind a failure of the disk or the database; null when the failure is a mistake of ours. */
export function troubleOf(error: unknown, where: string): Problem | null {
  const code = codeOf(error);
  const [, found] = troubles.find(([codeStart]) => code.startsWith(codeStart)) ?? [];
  if (found === undefined) return null;
  const trouble = found === cannotWrite && isOnReadOnlyDisk(where) ? readOnly : found;
  const amounts = trouble === full ? freeText(where) : '';
  return { ...trouble, what: `${trouble.what} (${code})${amounts}`, where };
}

/** SQLite itself only says that it cannot open. */
function isOnReadOnlyDisk(path: string): boolean {
  try {
    accessSync(existsSync(path) ? path : dirname(path), constants.W_OK);
    return false;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EROFS';
  }
}

/** What is left on the disk that holds a path; empty where the system does not say. */
const freeText = (path: string): string => {
  const freeOctets = freeOctetsOn(path);
  return freeOctets === null ? '' : ` ${sizeText(freeOctets)} are free on it.`;
};

/** Free for this user on the disk that holds a file, a folder, or one yet to be made [octets]; null: the system does not say. */
export function freeOctetsOn(path: string): number | null {
  try {
    const { bavail, bsize } = statfsSync(path);
    return bavail * bsize;
  } catch {
    return dirname(path) === path ? null : freeOctetsOn(dirname(path));
  }
}

/** Known before anything is written: what is wanted does not fit. */
export const noRoomFor = (where: string, amounts: { neededOctets: number; freeOctets: number }): Problem => ({
  code: full.code,
  where,
  what: `The disk is too full: ${sizeText(amounts.neededOctets)} are needed, ${sizeText(amounts.freeOctets)} are free on it; nothing was written.`,
  expected: `${sizeText(amounts.neededOctets)} of free space`,
  remedy: 'Remove old files there, or name a place on another disk.',
});

/** Work that takes its time, with failures of disk and database as problems. */
export async function attemptLater<T>(where: string, work: () => Promise<Result<T>>): Promise<Result<T>> {
  try {
    return await work();
  } catch (error) {
    const problem = troubleOf(error, where);
    if (problem === null) throw error;
    return failed(problem);
  }
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

/** @param why what the database said */
export const notMigrated = (where: string, why: string): Problem => ({
  code: 'store.not-migrated',
  where,
  what: `The store is of an older version and could not be brought up to date: ${why}. It is as it was.`,
  expected: 'a store that the earlier version wrote',
  remedy: 'Use the earlier version for now, and look at the store with "slatch store check".',
});

/** @param faults what SQLite says of it */
export const notWhole = (where: string, faults: readonly string[]): Problem => ({
  ...damaged,
  where,
  what: `The database of the store is not whole: ${faults.slice(0, 3).join('; ')}${faults.length > 3 ? ` and ${faults.length - 3} more` : ''}.`,
});

export const notOurs = (where: string): Problem => ({ ...damaged, where });

export const noStore = (where: string): Problem => ({
  code: 'store.none',
  where,
  what: 'There is no store here: the folder has no slatch.db.',
  expected: 'the folder of a store',
  remedy: 'Name its folder with --store.',
});

export const storeThere = (where: string): Problem => ({
  code: 'store.not-empty',
  where,
  what: 'There is something in this folder already; nothing was changed.',
  expected: 'a folder that is new or empty',
  remedy: 'Name another folder with --store, or use --force: what is there is then kept beside it under another name.',
});

export const forecastGone = (fileName: string): Problem => ({
  code: 'store.forecast-gone',
  where: fileName,
  what: 'The same forecast was being removed from the store while it was added.',
  expected: 'one after the other',
  remedy: 'Add it again.',
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
