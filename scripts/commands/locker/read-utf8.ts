import { failed, ok, type Result } from '../../../lib/result/index.ts';
import type { CommandIo } from '../command.ts';

/** The text of a file in UTF-8; `file.unreadable`, or `file.not-utf-8` where it is written in something else. */
export async function readUtf8(file: string, io: CommandIo): Promise<Result<string>> {
  const octets = await io.readFile(file).catch((error: unknown) => error);
  if (!(octets instanceof Uint8Array))
    return failed({
      code: 'file.unreadable',
      where: file,
      what: `It cannot be read: ${octets instanceof Error ? octets.message : String(octets)}.`,
      expected: 'a file that can be read',
      remedy: 'Check the name and the folder.',
    });
  try {
    return ok(new TextDecoder('utf-8', { fatal: true }).decode(octets));
  } catch {
    return failed({
      code: 'file.not-utf-8',
      where: file,
      what: 'The file is not written in UTF-8.',
      expected: 'a text in UTF-8, with or without byte order mark',
      remedy: 'Save it again from the spreadsheet as CSV in UTF-8.',
    });
  }
}
