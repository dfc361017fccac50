import { keyShort, LEAST_KEY_OCTETS_COUNT } from '../../../lib/message/index.ts';
import { failed, ok, type Result } from '../../../lib/result/index.ts';
import type { TakenApart } from '../arguments.ts';
import type { CommandIo } from '../command.ts';

/**
 * The key of --key: the octets of the file as they stand, without line ends behind them; hexadecimal digits are taken as
 * letters. Null: no key is given.
 */
export async function keyGiven(given: TakenApart, io: CommandIo): Promise<Result<Uint8Array | null>> {
  const file = given.texts.get('key');
  if (file === undefined) return ok(null);
  const octets = await io.readFile(file).catch((error: unknown) => error);
  if (!(octets instanceof Uint8Array))
    return failed({
      code: 'file.unreadable',
      where: file,
      what: `It cannot be read: ${octets instanceof Error ? octets.message : String(octets)}.`,
      expected: 'a file with the key',
      remedy: 'Check the name and the folder.',
    });
  let end = octets.length;
  while (end > 0 && (octets[end - 1] === 0x0a || octets[end - 1] === 0x0d)) end--;
  return end < LEAST_KEY_OCTETS_COUNT ? failed({ ...keyShort(end), where: file }) : ok(octets.subarray(0, end));
}
