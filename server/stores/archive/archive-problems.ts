import type { Problem } from '../../../lib/result/index.ts';
import type { ArchiveKind } from './archive-kind.ts';

const WHOLE = 'an archive as Slatch wrote it';
const OTHER_COPY = 'Take another copy of it; this one was not copied whole, or the disk has spoiled it.';

/** @param at octet of the file at which it ends to make sense */
export const archiveCut = (where: string, at: number): Problem => ({
  code: 'archive.cut',
  where: `${where}, octet ${at}`,
  what: 'The archive ends in the middle.',
  expected: WHOLE,
  remedy: OTHER_COPY,
});

export const noArchive = (where: string, at: number): Problem => ({
  code: 'archive.damaged',
  where: `${where}, octet ${at}`,
  what: at === 0 ? 'This is no archive of ours.' : 'What stands here is no header of a tar archive.',
  expected: at === 0 ? 'a tar archive (POSIX ustar) written by Slatch' : WHOLE,
  remedy: at === 0 ? 'Check the name.' : OTHER_COPY,
});

export const unsafeName = (where: string, name: string): Problem => ({
  code: 'archive.name',
  where,
  what: `It holds a file called "${name}", which might be written outside its folder or over another.`,
  expected: 'plain names below one folder, each once',
  remedy: 'Slatch writes no such archive: do not use it.',
});

export const strangeEntry = (where: string, name: string): Problem => ({
  code: 'archive.entry',
  where,
  what: `"${name}" in it is a link, a device or an extension, and no plain file.`,
  expected: 'plain files',
  remedy: 'Use the archive as it was written; unpacked and packed again by another program it may hold more.',
});

export const tooMany = (where: string, most: number): Problem => ({
  code: 'archive.too-many',
  where,
  what: `It holds more than ${most} files.`,
  expected: `at most ${most} files`,
  remedy: 'Slatch writes no such archive: do not use it.',
});

export const manifestMissing = (where: string): Problem => ({
  code: 'archive.manifest-missing',
  where,
  what: 'It does not end with its list of contents (MANIFEST.json).',
  expected: WHOLE,
  remedy: OTHER_COPY,
});

export const manifestUnreadable = (where: string): Problem => ({
  code: 'archive.manifest',
  where: `${where}, MANIFEST.json`,
  what: 'The list of its contents cannot be read.',
  expected: WHOLE,
  remedy: OTHER_COPY,
});

const COMMANDS: Readonly<Record<ArchiveKind, string>> = {
  store: '"slatch store restore"',
  passage: '"slatch passage import"',
};

export const wrongArchive = (
  where: string,
  { wanted, slatch, format, program }: { wanted: ArchiveKind; slatch: ArchiveKind; format: number; program: string },
): Problem =>
  slatch === wanted
    ? {
        code: 'archive.newer',
        where,
        what: `It was written by Slatch ${program} in format ${format}, which this version does not know.`,
        expected: 'format 1',
        remedy: 'Use the newer version.',
      }
    : {
        code: 'archive.kind',
        where,
        what: `It holds a ${slatch}, not a ${wanted}.`,
        expected: `an archive of a ${wanted}`,
        remedy: `Bring it in with ${COMMANDS[slatch]}.`,
      };

/** @param difference what is wrong with a file against the list */
export const notAsListed = (where: string, name: string, difference: string): Problem => ({
  code: 'archive.not-as-listed',
  where: `${where}, ${name}`,
  what: difference,
  expected: 'every file as the list in the archive has it',
  remedy: OTHER_COPY,
});

/** @param why the folder takes no file */
export const noPlace = (where: string, why: string): Problem => ({
  code: 'file.not-written',
  where,
  what: `No file can be written there: ${why}.`,
  expected: 'a file in a folder that exists and may be written',
  remedy: 'Name another file.',
});

export const targetThere = (where: string): Problem => ({
  code: 'file.exists',
  where,
  what: 'There is something of this name already; it was left as it is.',
  expected: 'a name that is free',
  remedy: 'Name another file, or use --force to replace it.',
});

export const fileUnreadable = (where: string, what: string): Problem => ({
  code: 'file.unreadable',
  where,
  what,
  expected: 'an archive that can be read',
  remedy: 'Check the name and the folder.',
});

/** @param why it is missing from the archive */
export const cannotPack = (where: string, why: string): Problem => ({
  code: 'archive.not-packed',
  where,
  what: `${why} No archive was written.`,
  expected: 'files that stay as they are',
  remedy: 'Do it again when nobody changes them.',
});
