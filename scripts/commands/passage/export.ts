import { failed, ok, type Result } from '../../../lib/result/index.ts';
import { exportPassage } from '../../../server/stores/passage-archive.ts';
import { type PassageText, readPassageText } from '../../../server/stores/passage-files.ts';
import { storedPassage } from '../../../server/stores/stored-passage.ts';
import { reportProblems, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { sizeText } from '../../../lib/units/index.ts';
import { programVersion } from '../../../server/program-version.ts';
import { fileGiven, storeArguments } from '../store/arguments.ts';
import { storeFolder } from '../store-folder.ts';

export const EXPORT_HELP = `slatch passage export PASSAGE --out FILE [--log LOG.jsonl] [--store DIR] [--force] [--json]

  Writes a passage and all it needs to one file, for another machine: its track, its forecasts, and its log. The plan made
  there with the same --now and --seed is the same to the letter. The file is a tar archive (POSIX ustar) with
  passage.json and MANIFEST.json, which lists the SHA-256 of each file.

  PASSAGE  a passage file, or store:NAME for one of the store; that one's log goes with it
  --log    the log of a passage file (slatch log)
  --store  folder of the store (or SLATCH_STORE); the platform's data folder unless told
  --force  replaces a file of that name, once the new one is whole

  slatch passage export sample-forecasts/demo-passage.json --out demo.tar
  slatch passage export "store:Across the bay" --out bay.tar
`;

/** `slatch passage export`. */
export async function exportToFile(args: readonly string[], io: CommandIo): Promise<number> {
  const given = storeArguments(args, { out: 'text', log: 'text', force: 'flag' });
  const named = fileGiven(given, 'passage');
  const [out, logFile] = [given.texts.get('out') ?? '', given.texts.get('log') ?? null];
  if (out === '') throw new WrongUse('--out FILE is missing.');
  const storedName = /^store:(.+)$/s.exec(named)?.[1];
  if (storedName !== undefined && logFile !== null)
    throw new WrongUse('--log goes with a passage file; the log of a passage of the store goes with it by itself.');
  const found =
    storedName === undefined
      ? await passageOfFile({ file: named, logFile, storeFolder: storeFolder(given) }, io)
      : storedPassage(storeFolder(given), storedName);
  const written = found.ok
    ? await exportPassage({
        ...found.value,
        target: { file: out, isReplacing: given.flags.has('force') },
        program: programVersion(),
        atEpochMs: io.nowEpochMs(),
      })
    : found;
  if (!written.ok) {
    reportProblems(io, written.problems);
    return 1;
  }
  const { file, sizeOctets, manifest } = written.value;
  const names = manifest.files.map(({ name, sizeOctets: octets }) => `  ${name}  ${sizeText(octets)}`);
  io.out(
    given.flags.has('json')
      ? `${JSON.stringify(written.value, null, 2)}\n`
      : `${[`${file}: ${sizeText(sizeOctets)}`, ...names, `Bring it in with: slatch passage import ${file} --to FOLDER`].join('\n')}\n`,
  );
  return 0;
}

interface PassageWithLog {
  readonly passage: PassageText;
  readonly log: Uint8Array | null;
}

async function passageOfFile(
  of: { file: string; logFile: string | null; storeFolder: string },
  io: CommandIo,
): Promise<Result<PassageWithLog>> {
  const passage = await readPassageText(of.file, of.storeFolder);
  if (!passage.ok) return passage;
  const log = of.logFile === null ? ok(null) : await octetsOf(of.logFile, io);
  return log.ok ? ok({ passage: passage.value, log: log.value }) : log;
}

async function octetsOf(file: string, io: CommandIo): Promise<Result<Uint8Array>> {
  try {
    return ok(await io.readFile(file));
  } catch (error) {
    return failed({
      code: 'file.unreadable',
      where: file,
      what: `It cannot be read: ${error instanceof Error ? error.message : String(error)}.`,
      expected: 'a log file',
      remedy: 'Check the name and the folder.',
    });
  }
}
