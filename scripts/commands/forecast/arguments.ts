import { parseArgs } from 'node:util';

/** Options a subcommand knows: `flag` stands alone, `text` takes a value. */
export type OptionKinds = Readonly<Record<string, 'flag' | 'text'>>;

/** Arguments taken apart. */
export interface TakenApart {
  readonly files: readonly string[];
  readonly flags: ReadonlySet<string>;
  readonly texts: ReadonlyMap<string, string>;
}

/** Files and options, or one sentence that says what is wrong with the command. */
export function takeApart(args: readonly string[], kinds: OptionKinds): TakenApart | string {
  const options = Object.fromEntries(
    Object.entries(kinds).map(([name, kind]) => [
      name,
      { type: kind === 'flag' ? ('boolean' as const) : ('string' as const) },
    ]),
  );
  try {
    const { values, positionals } = parseArgs({
      args: joinNegatives(args),
      options,
      allowPositionals: true,
      strict: true,
    });
    const entries = Object.entries(values);
    return {
      files: positionals,
      flags: new Set(entries.filter(([, value]) => value === true).map(([name]) => name)),
      texts: new Map(entries.flatMap(([name, value]) => (typeof value === 'string' ? [[name, value] as const] : []))),
    };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** `--lat -34.2` as `--lat=-34.2`: a southern latitude is no option. */
function joinNegatives(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const before = joined.at(-1);
    if (before !== undefined && /^--[a-z-]+$/.test(before) && /^-[\d.]/.test(arg))
      joined[joined.length - 1] = `${before}=${arg}`;
    else joined.push(arg);
  }
  return joined;
}

/** What ends a subcommand before its work: a sentence for standard error and exit code 2. */
export class WrongUse extends Error {}

/** A number given as text; `range` includes its ends. */
export function numberOption(
  given: TakenApart,
  name: string,
  range: { readonly least: number; readonly most: number },
): number | null {
  const text = given.texts.get(name);
  if (text === undefined) return null;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!(value >= range.least && value <= range.most))
    throw new WrongUse(`--${name} ${text}: expected a number from ${range.least} to ${range.most}.`);
  return value;
}
