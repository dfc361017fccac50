import { messageKeyText } from '../../../lib/message/index.ts';
import { takeApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';

export const KEY_HELP = `slatch message key [--json]

  The key to all fields of all messages, to be printed and kept on board and ashore.

  slatch message key
`;

/** `slatch message key`. */
export function printKey(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  if (given.files.length > 0) throw new WrongUse(`"${given.files.join(' ')}" is too much.`);
  const text = messageKeyText();
  io.out(given.flags.has('json') ? `${JSON.stringify({ lines: text.split('\n') }, null, 2)}\n` : `${text}\n`);
  return Promise.resolve(0);
}
