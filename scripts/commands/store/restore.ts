import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { restoreStore, type Restored } from '../../../server/stores/index.ts';
import { reportProblems } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { storeFolder } from '../store-folder.ts';
import { fileGiven, instantInName, storeArguments } from './arguments.ts';

export const RESTORE_HELP = `slatch store restore FILE [--store DIR] [--force] [--json]

  Brings a store back from a file of "slatch store backup". Every file in it is held against its SHA-256 first; nothing is
  half restored. Refused while a server uses the store.

  --store  folder the store is to be in (or SLATCH_STORE); the platform's data folder unless told. New or empty
  --force  also where there is something: it is kept beside the folder, under its name with -before-restore- and the time

  slatch store restore slatch-store-20260527T1800Z.tar --store ~/slatch
`;

/** `slatch store restore`. */
export async function restore(args: readonly string[], io: CommandIo): Promise<number> {
  const given = storeArguments(args, { force: 'flag' });
  const folder = resolve(storeFolder(given));
  const file = fileGiven(given, 'backup');
  const asideFolder = given.flags.has('force')
    ? freeName(`${folder}-before-restore-${instantInName(io.nowEpochMs())}`)
    : null;
  const restored = await restoreStore({ file, folder, asideFolder });
  if (!restored.ok) {
    reportProblems(io, restored.problems);
    return 1;
  }
  io.out(given.flags.has('json') ? `${JSON.stringify(restored.value, null, 2)}\n` : restoredText(restored.value));
  for (const remark of restored.value.remarks) io.err(`When the backup was made: ${remark}\n`);
  return 0;
}

/** Of a second one within the minute the name is another. */
function freeName(name: string): string {
  let count = 1;
  const nameOf = (): string => (count === 1 ? name : `${name}-${count}`);
  while (existsSync(nameOf())) count += 1;
  return nameOf();
}

function restoredText({ folder, asideFolder, fileCount, madeAtUtc }: Restored): string {
  const kept = asideFolder === null ? [] : [`What was there is kept in ${asideFolder}.`];
  return [
    `${folder}: the store as it was at ${madeAtUtc}, ${fileCount} ${fileCount === 1 ? 'file' : 'files'}.`,
    ...kept,
    '',
  ].join('\n');
}
