import { isIPv6 } from 'node:net';
import { parseArgs } from 'node:util';
import { dataFolder, type Machine } from './stores/index.ts';
import { okUnless, type Problem, type Result } from '../lib/result/index.ts';

export const DEFAULT_PORT = 4137;
const LOOPBACK = '127.0.0.1';

export interface Config {
  /** As it was named: an address of this machine, or a name for one. */
  readonly host: string;
  readonly port: number;
  /** Passage to plan; null: the demo. */
  readonly passageFile: string | null;
  /** Where the passage is kept. */
  readonly storeFolder: string;
  /** File of the key that messages are signed and verified with; null: there is none. */
  readonly messageKeyFile: string | null;
  /** File of the key that is asked for before anything is shown; null: none is. */
  readonly accessKeyFile: string | null;
}

export const USAGE = `Use: npm start -- [--passage FILE] [--store DIR] [--message-key FILE] [--port N] [--host ADDRESS]
                         [--access-key FILE]
  --passage      a passage file; the demo unless told. It is taken over into the store and only ever read.
  --store        folder in which what you change is kept (or SLATCH_STORE); the platform's data folder unless told
  --message-key  file with the key shared with the shore (or SLATCH_MESSAGE_KEY): messages are signed and verified with it
  --port         ${DEFAULT_PORT} unless told (or SLATCH_PORT); 0 takes any free one
  --host         ${LOOPBACK} unless told: one address of this machine. Others on that network can then reach it: it takes an access key
  --access-key   file with the key that is asked for before anything is shown (or SLATCH_ACCESS_KEY); slatch access-key makes one`;

/**
 * What the server needs to know, from its arguments and environment; arguments win.
 *
 * @returns every problem found: `config.argument-unknown`, `config.port-out-of-range`, `config.store-empty`,
 *   `config.message-key-empty`, `config.access-key-empty`
 */
export function readConfig(input: {
  argv: readonly string[];
  env: Readonly<Record<string, string | undefined>>;
  machine: Omit<Machine, 'environment'>;
}): Result<Config> {
  const { values, unknown } = parsedArguments(input.argv);
  const problems: Problem[] = unknown.map(unknownArgument);
  const given = (name: (typeof NAMES)[number], variable: string): string | null =>
    values[name] ?? input.env[variable] ?? null;
  const portText = given('port', 'SLATCH_PORT') ?? String(DEFAULT_PORT);
  const port = /^\d{1,5}$/.test(portText) ? Number(portText) : Number.NaN;
  if (!(port >= 0 && port <= 65_535)) problems.push(badPort(portText));
  const host = values.host ?? LOOPBACK;
  const passageFile = values.passage ?? null;
  const storeFolder = given('store', 'SLATCH_STORE') ?? dataFolder({ ...input.machine, environment: input.env });
  const messageKeyFile = given('message-key', 'SLATCH_MESSAGE_KEY');
  const accessKeyFile = given('access-key', 'SLATCH_ACCESS_KEY');
  if (storeFolder.trim() === '') problems.push(emptyStore);
  if (messageKeyFile?.trim() === '') problems.push(emptyKey);
  if (accessKeyFile?.trim() === '') problems.push(emptyAccessKey);
  return okUnless(problems, () => ({ host, port, passageFile, storeFolder, messageKeyFile, accessKeyFile }));
}

/**
 * `Host` fields answered, on the port that is listened on; everything else is refused, so that no foreign name can be
 * pointed at this server.
 *
 * @param names addresses, and the name the server was given
 */
export function allowedHosts(names: readonly string[], port: number): string[] {
  const hosts = new Set(names.map(hostText));
  return [...hosts].flatMap((host) => (port === 80 ? [host, `${host}:80`] : [`${host}:${port}`]));
}

/** Names by which programs of this machine know it. */
export const LOOPBACK_NAMES: readonly string[] = [LOOPBACK, 'localhost', '::1'];

/** A name or address as browsers write it: IPv6 in brackets and at its shortest (RFC 5952). */
export function hostText(name: string): string {
  if (!isIPv6(name)) return name.toLowerCase();
  const written = `http://[${name}]`;
  return URL.canParse(written) ? new URL(written).hostname : `[${name}]`;
}

interface Parsed {
  readonly values: { readonly [Name in (typeof NAMES)[number]]?: string };
  readonly unknown: readonly string[];
}

const NAMES = ['port', 'host', 'passage', 'store', 'message-key', 'access-key'] as const;

function parsedArguments(argv: readonly string[]): Parsed {
  const { values, tokens } = parseArgs({
    args: [...argv],
    options: Object.fromEntries(NAMES.map((name) => [name, { type: 'string' as const }])),
    strict: false,
    tokens: true,
  });
  const unknown = tokens.flatMap((token) => {
    if (token.kind === 'positional') return [token.value];
    return token.kind === 'option' && !NAMES.some((name) => name === token.name) ? [token.rawName] : [];
  });
  const text = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
  return { unknown, values: Object.fromEntries(NAMES.flatMap((name) => pair(name, text(values[name])))) };
}

const pair = (name: string, value: string | undefined): [string, string][] =>
  value === undefined ? [] : [[name, value]];

const unknownArgument = (argument: string): Problem => ({
  code: 'config.argument-unknown',
  where: 'command line',
  what: `"${argument}" is not an argument of the server.`,
  expected: '--passage FILE, --store DIR, --message-key FILE, --port N, --host ADDRESS or --access-key FILE',
  remedy: 'Leave it out.',
});

const badPort = (text: string): Problem => ({
  code: 'config.port-out-of-range',
  where: '--port or SLATCH_PORT',
  what: `"${text}" is not a port.`,
  expected: 'a whole number from 0 to 65535',
  remedy: `Leave it out to use ${DEFAULT_PORT}.`,
});

const emptyStore: Problem = {
  code: 'config.store-empty',
  where: '--store or SLATCH_STORE',
  what: 'The folder of the store has no name.',
  expected: 'the name of a folder',
  remedy: "Leave it out to use the platform's data folder.",
};

const emptyKey: Problem = {
  code: 'config.message-key-empty',
  where: '--message-key or SLATCH_MESSAGE_KEY',
  what: 'The file of the message key has no name.',
  expected: 'the name of a file',
  remedy: 'Leave it out: messages are then neither signed nor verified.',
};

const emptyAccessKey: Problem = {
  code: 'config.access-key-empty',
  where: '--access-key or SLATCH_ACCESS_KEY',
  what: 'The file of the access key has no name.',
  expected: 'the name of a file',
  remedy: 'Name the file; on this machine alone it can be left out, and no key is asked for.',
};
