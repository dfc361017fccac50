import { importPassage, type Imported } from '../../../server/stores/passage-archive.ts';
import { reportProblems, takeApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { fileGiven } from '../store/arguments.ts';

export const IMPORT_HELP = `slatch passage import FILE --to DIR [--json]

  Brings in a passage from a file of "slatch passage export": everything is held against its SHA-256 and checked first, and
  is there whole or not at all. DIR is new or empty.

  slatch passage import demo.tar --to demo
  slatch plan demo/passage.json
`;

/** `slatch passage import`. */
export async function importFromFile(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { to: 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const folder = given.texts.get('to') ?? '';
  if (folder === '') throw new WrongUse('--to DIR is missing.');
  const imported = await importPassage({ file: fileGiven(given, 'file of a passage'), folder });
  if (!imported.ok) {
    reportProblems(io, imported.problems);
    return 1;
  }
  io.out(given.flags.has('json') ? `${JSON.stringify(imported.value, null, 2)}\n` : importedText(imported.value));
  return 0;
}

function importedText({ passage, name, log, fileCount, madeAtUtc }: Imported): string {
  return [
    `${passage}: ${name}, as it was at ${madeAtUtc}, ${fileCount} ${fileCount === 1 ? 'file' : 'files'}.`,
    `Plan it with: slatch plan ${passage}${log === null ? '' : ` --log ${log}`}`,
    '',
  ].join('\n');
}
