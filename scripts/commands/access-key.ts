import { open } from 'node:fs/promises';
import type { Problem } from '../../lib/result/index.ts';
import { drawAccessKey } from '../../server/access/index.ts';
import { command, reportProblems, takeApart, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { oneFile } from './message/write-plan.ts';

const HELP = `slatch access-key FILE

  Draws an access key and writes it into a new file that only you may read. Whoever opens the pages from another machine is
  asked for it. It is printed as well, to be written down; "cat FILE" shows it again.

  slatch access-key access-key.txt
  npm start -- --host 192.168.1.7 --access-key access-key.txt
`;

/** `slatch access-key`. */
export const accessKeyCommand = command({
  name: 'access-key',
  help: HELP,
  async run(args, io) {
    const given = takeApart(args, {});
    if (typeof given === 'string') throw new WrongUse(given);
    return printNewKey(oneFile(given, 'FILE'), io);
  },
});

async function printNewKey(path: string, io: CommandIo): Promise<number> {
  const key = drawAccessKey();
  const problem = await writeNewFile(path, `${key}\n`);
  if (problem !== null) {
    reportProblems(io, [problem]);
    return 1;
  }
  io.out(`${key}\n`);
  return 0;
}

/** On the disk when it returns. What stands there is never replaced: phones on board would be locked out. */
async function writeNewFile(path: string, text: string): Promise<Problem | null> {
  try {
    const file = await open(path, 'wx', 0o600);
    try {
      await file.writeFile(text);
      await file.sync();
    } finally {
      await file.close();
    }
    return null;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return code === 'EEXIST' ? isThere(path) : notWritten(path, code);
  }
}

const isThere = (where: string): Problem => ({
  code: 'access.key-there',
  where,
  what: 'There is a file of this name already; it was left as it is.',
  expected: 'the name of a new file',
  remedy: 'Use the key that is in it, name another file, or remove this one first.',
});

const notWritten = (where: string, code: string): Problem => ({
  code: 'file.not-written',
  where,
  what: `The file cannot be written (${code}).`,
  expected: 'a file in a folder that exists and may be written',
  remedy: 'Name another file.',
});
