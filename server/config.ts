import { parseArgs } from 'node:util';
import { okUnless, type Problem, type Result } from '../lib/result/index.ts';

export const DEFAULT_PORT = 4137;
const LOOPBACK = '127.0.0.1';

export interface Config {
  readonly host: string;
  readonly port: number;
  /** Passage to plan; null: the demo. */
  readonly passageFile: string | null;
  /** `Host` headers answered; everything else is refused, so that no foreign name can be pointed at this server. */
  readonly allowedHosts: readonly string[];
}

export const USAGE = `Use: npm start -- [--passage FILE] [--port N] [--host ADDRESS]
  --passage  a passage file; the demo unless told
  --port   ${DEFAULT_PORT} unless told (or SLATCH_PORT); 0 takes any free one
  --host   ${LOOPBACK} unless told: one address of this machine. Others on that network can then read the passage.`;

/**
 * What the server needs to know, from its arguments and environment; arguments win.
 *
 * @returns every problem found: `config.argument-unknown`, `config.port-out-of-range`, `config.host-any`
 */
export function readConfig(input: {
  argv: readonly string[];
  env: Readonly<Record<string, string | undefined>>;
}): Result<Config> {
  const { values, unknown } = parsedArguments(input.argv);
  const problems: Problem[] = unknown.map(unknownArgument);
  const portText = values.port ?? input.env['SLATCH_PORT'] ?? String(DEFAULT_PORT);
  const port = /^\d{1,5}$/.test(portText) ? Number(portText) : Number.NaN;
  if (!(port >= 0 && port <= 65_535)) problems.push(badPort(portText));
  const host = values.host ?? LOOPBACK;
  if (['0.0.0.0', '::', ''].includes(host)) problems.push(anyHost(host));
  const passageFile = values.passage ?? null;
  return okUnless(problems, () => ({ host, port, passageFile, allowedHosts: allowedHosts(host, port) }));
}

/** Names under which this server may be asked, on the port it listens on. */
export function allowedHosts(host: string, port: number): string[] {
  const isLoopback = [LOOPBACK, 'localhost', '::1'].includes(host);
  const names = isLoopback ? [LOOPBACK, 'localhost', '[::1]'] : [host.includes(':') ? `[${host}]` : host];
  return names.flatMap((name) => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`]));
}

interface Parsed {
  readonly values: { readonly port?: string; readonly host?: string; readonly passage?: string };
  readonly unknown: readonly string[];
}

function parsedArguments(argv: readonly string[]): Parsed {
  const { values, tokens } = parseArgs({
    args: [...argv],
    options: { port: { type: 'string' }, host: { type: 'string' }, passage: { type: 'string' } },
    strict: false,
    tokens: true,
  });
  const unknown = tokens.flatMap((token) => {
    if (token.kind === 'positional') return [token.value];
    return token.kind === 'option' && !['port', 'host', 'passage'].includes(token.name) ? [token.rawName] : [];
  });
  const text = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
  const given = { port: text(values['port']), host: text(values['host']), passage: text(values['passage']) };
  return { unknown, values: Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) };
}

const unknownArgument = (argument: string): Problem => ({
  code: 'config.argument-unknown',
  where: 'command line',
  what: `"${argument}" is not an argument of the server.`,
  expected: '--passage FILE, --port N or --host ADDRESS',
  remedy: 'Leave it out.',
});

const badPort = (text: string): Problem => ({
  code: 'config.port-out-of-range',
  where: '--port or SLATCH_PORT',
  what: `"${text}" is not a port.`,
  expected: 'a whole number from 0 to 65535',
  remedy: `Leave it out to use ${DEFAULT_PORT}.`,
});

const anyHost = (host: string): Problem => ({
  code: 'config.host-any',
  where: '--host',
  what: `"${host}" would answer on every network of this machine.`,
  expected: 'one address of this machine',
  remedy: `Name the address, or leave it out to use ${LOOPBACK}.`,
});
