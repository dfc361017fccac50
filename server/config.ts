import { parseArgs } from 'node:util';
import { dataFolder, type Machine } from './stores/index.ts';
import { okUnless, type Problem, type Result } from '../lib/result/index.ts';

export const DEFAULT_PORT = 4137;
const LOOPBACK = '127.0.0.1';

export interface Config {
  readonly host: string;
  readonly port: number;
  /** Passage to plan; null: the demo. */
  readonly passageFile: string | null;
  /** Where the passage is kept. */
  readonly storeFolder: string;
  /** File of the key that messages are signed and verified with; null: there is none. */
  readonly messageKeyFile: string | null;
  /** `Host` headers answered; everything else is refused, so that no foreign name can be pointed at this server. */
  readonly allowedHosts: readonly string[];
}

export const USAGE = `Use: npm start -- [--passage FILE] [--store DIR] [--message-key FILE] [--port N] [--host ADDRESS]
  --passage      a passage file; the demo unless told. It is taken over into the store and only ever read.
  --store        folder in which what you change is kept (or SLATCH_STORE); the platform's data folder unless told
  --message-key  file with the key shared with the shore (or SLATCH_MESSAGE_KEY): messages are signed and verified with it
  --port         ${DEFAULT_PORT} unless told (or SLATCH_PORT); 0 takes any free one
  --host         ${LOOPBACK} unless told: one address of this machine. Others on that network can then read the passage.`;

/**
 * What the server needs to know, from its arguments and environment; arguments win.
 *
 * @returns every problem found: `config.argument-unknown`, `config.port-out-of-range`, `config.host-any`,
 *   `config.store-empty`, `config.message-key-empty`
 */
export function readConfig(input: {
  argv: readonly string[];
  env: Readonly<Record<string, string | undefined>>;
  machine: Omit<Machine, 'environment'>;
}): Result<Config> {
  const { values, unknown } = parsedArguments(input.argv);
  const problems: Problem[] = unknown.map(unknownArgument);
  const portText = values.port ?? input.env['SLATCH_PORT'] ?? String(DEFAULT_PORT);
  const port = /^\d{1,5}$/.test(portText) ? Number(portText) : Number.NaN;
  if (!(port >= 0 && port <= 65_535)) problems.push(badPort(portText));
  const host = values.host ?? LOOPBACK;
  if (['0.0.0.0', '::', ''].includes(host)) problems.push(anyHost(host));
  const passageFile = values.passage ?? null;
  const storeFolder =
    values.store ?? input.env['SLATCH_STORE'] ?? dataFolder({ ...input.machine, environment: input.env });
  if (storeFolder.trim() === '') problems.push(emptyStore);
  const messageKeyFile = keyFileOf(values, input.env);
  if (messageKeyFile?.trim() === '') problems.push(emptyKey);
  return okUnless(problems, () => ({
    host,
    port,
    passageFile,
    storeFolder,
    messageKeyFile,
    allowedHosts: allowedHosts(host, port),
  }));
}

const keyFileOf = (values: Parsed['values'], env: Readonly<Record<string, string | undefined>>): string | null =>
  values['message-key'] ?? env['SLATCH_MESSAGE_KEY'] ?? null;

/** Names under which this server may be asked, on the port it listens on. */
export function allowedHosts(host: string, port: number): string[] {
  const isLoopback = [LOOPBACK, 'localhost', '::1'].includes(host);
  const names = isLoopback ? [LOOPBACK, 'localhost', '[::1]'] : [host.includes(':') ? `[${host}]` : host];
  return names.flatMap((name) => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`]));
}

interface Parsed {
  readonly values: { readonly [Name in (typeof NAMES)[number]]?: string };
  readonly unknown: readonly string[];
}

const NAMES = ['port', 'host', 'passage', 'store', 'message-key'] as const;

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
  expected: '--passage FILE, --store DIR, --message-key FILE, --port N or --host ADDRESS',
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

const anyHost = (host: string): Problem => ({
  code: 'config.host-any',
  where: '--host',
  what: `"${host}" would answer on every network of this machine.`,
  expected: 'one address of this machine',
  remedy: `Name the address, or leave it out to use ${LOOPBACK}.`,
});
