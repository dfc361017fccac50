import { describe, expect, it } from 'vitest';
import { DEFAULT_PORT, readConfig, type Config } from '../../server/config.ts';

const machine = { platform: 'linux', homeFolder: '/home/sailor' } as const;
const read = (argv: readonly string[], env: Record<string, string> = {}): Config => {
  const result = readConfig({ argv, env, machine });
  if (!result.ok) throw new Error(result.problems.map((problem) => problem.code).join());
  return result.value;
};
const codes = (argv: readonly string[], env: Record<string, string> = {}): string[] => {
  const result = readConfig({ argv, env, machine });
  return result.ok ? [] : result.problems.map((problem) => problem.code);
};

describe('readConfig', () => {
  it('nothing said: loopback and the usual port', () => {
    expect(read([])).toEqual({
      host: '127.0.0.1',
      port: DEFAULT_PORT,
      passageFile: null,
      storeFolder: '/home/sailor/.local/share/slatch',
      messageKeyFile: null,
      allowedHosts: [`127.0.0.1:${DEFAULT_PORT}`, `localhost:${DEFAULT_PORT}`, `[::1]:${DEFAULT_PORT}`],
    });
  });

  it('argument before environment', () => {
    expect(read(['--port', '5000'], { SLATCH_PORT: '6000' }).port).toBe(5000);
    expect(read([], { SLATCH_PORT: '6000' }).port).toBe(6000);
  });

  it('a passage file: that one', () => {
    expect(read(['--passage', 'mine.json']).passageFile).toBe('mine.json');
  });

  it('store: argument before environment before the data folder of the platform', () => {
    expect(read(['--store', 'here'], { SLATCH_STORE: '/there' }).storeFolder).toBe('here');
    expect(read([], { SLATCH_STORE: '/there', XDG_DATA_HOME: '/data' }).storeFolder).toBe('/there');
    expect(read([], { XDG_DATA_HOME: '/data' }).storeFolder).toBe('/data/slatch');
  });

  it('message key: argument before environment', () => {
    expect(read(['--message-key', 'key.txt'], { SLATCH_MESSAGE_KEY: '/other' }).messageKeyFile).toBe('key.txt');
    expect(read([], { SLATCH_MESSAGE_KEY: '/other' }).messageKeyFile).toBe('/other');
  });

  it('one address of the machine: only that name is answered', () => {
    expect(read(['--host', '192.0.2.7', '--port=80']).allowedHosts).toEqual(['192.0.2.7', '192.0.2.7:80']);
    expect(read(['--host=2001:db8::1', '--port=81']).allowedHosts).toEqual(['[2001:db8::1]:81']);
  });

  it.each([
    [['--port', 'x'], 'config.port-out-of-range'],
    [['--port', '65536'], 'config.port-out-of-range'],
    [['--port', ''], 'config.port-out-of-range'],
    [['--host', '0.0.0.0'], 'config.host-any'],
    [['--host', '::'], 'config.host-any'],
    [['--store', ''], 'config.store-empty'],
    [['--message-key', ''], 'config.message-key-empty'],
    [['--quiet'], 'config.argument-unknown'],
    [['file.json'], 'config.argument-unknown'],
  ])('%s: %s', (argv, code) => {
    expect(codes(argv)).toEqual([code]);
  });

  it('two things wrong: both named', () => {
    expect(codes(['--port', 'x', '--host', '::'])).toEqual(['config.port-out-of-range', 'config.host-any']);
  });
});
