import type { OptionKinds, TakenApart } from '../arguments.ts';
import { takeApart, WrongUse } from '../arguments.ts';

/** Arguments of a subcommand that works on a store, with one file where it wants one. */
export function storeArguments(args: readonly string[], kinds: OptionKinds): TakenApart {
  const given = takeApart(args, { ...kinds, store: 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  return given;
}

/** The one file that is given. */
export function fileGiven({ files }: TakenApart, what: string): string {
  const [file, ...others] = files;
  if (file === undefined || file === '') throw new WrongUse(`no ${what} is given.`);
  if (others.length > 0) throw new WrongUse(`one ${what} at a time; "${others.join(' ')}" is too much.`);
  return file;
}

/** `20261126T1705Z`: an instant as part of a file name (ISO 8601, basic format). */
export const instantInName = (epochMs: number): string =>
  `${new Date(epochMs).toISOString().slice(0, 16).replaceAll(/[-:]/g, '')}Z`;
