import { statSync } from 'node:fs';
import { join } from 'node:path';
import { backUpStore, type WrittenArchive } from '../../../server/stores/index.ts';
import { reportProblems } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { sizeText } from '../../../lib/units/index.ts';
import { programVersion } from '../../../server/program-version.ts';
import { storeFolder } from '../store-folder.ts';
import { fileGiven, instantInName, storeArguments } from './arguments.ts';

export const BACKUP_HELP = `slatch store backup FILE-or-DIR [--store DIR] [--force] [--json]

  Writes the whole store to one file, also while the server runs: passages with every version, logs, plans, messages and
  forecast files, as they are at one instant. The file is a tar archive (POSIX ustar): slatch.db (SQLite), grib/, and
  MANIFEST.json with the SHA-256 of each. In a folder it is named after the time. The store is not changed.

  --store  folder of the store (or SLATCH_STORE); the platform's data folder unless told
  --force  replaces a file of that name, once the new one is whole
  Exit code 1 also when something had to be left out: it is named, and the rest is in the file.

  slatch store backup /media/stick
  slatch store backup before-the-passage.tar --store ~/slatch
`;

/** `slatch store backup`. */
export async function backUp(args: readonly string[], io: CommandIo): Promise<number> {
  const given = storeArguments(args, { force: 'flag' });
  const folder = storeFolder(given);
  const atEpochMs = io.nowEpochMs();
  const target = {
    file: targetFile(fileGiven(given, 'file or folder to write to'), atEpochMs),
    isReplacing: given.flags.has('force'),
  };
  const written = await backUpStore({ folder, target, program: programVersion(), atEpochMs });
  if (!written.ok) {
    reportProblems(io, written.problems);
    return 1;
  }
  io.out(given.flags.has('json') ? `${JSON.stringify(written.value, null, 2)}\n` : writtenText(folder, written.value));
  for (const remark of written.value.manifest.remarks) io.err(`${remark}\n`);
  return written.value.manifest.remarks.length === 0 ? 0 : 1;
}

/** A name of its own in a folder. */
function targetFile(named: string, atEpochMs: number): string {
  const isFolder = /[/\\]$/.test(named) || statSync(named, { throwIfNoEntry: false })?.isDirectory() === true;
  return isFolder ? join(named, `slatch-store-${instantInName(atEpochMs)}.tar`) : named;
}

function writtenText(folder: string, { file, sizeOctets, manifest }: WrittenArchive): string {
  const forecastCount = manifest.files.length - 1;
  return [
    `${file}: ${sizeText(sizeOctets)}, the store ${folder} with ${forecastCount} forecast file${forecastCount === 1 ? '' : 's'}.`,
    `Back with: slatch store restore ${file}`,
    '',
  ].join('\n');
}
