import { describe, expect, it } from 'vitest';
import { allowedHosts, DEFAULT_PORT, hostText, LOOPBACK_NAMES, readConfig, type Config } from '../../server/config.ts';

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
      accessKeyFile: null,
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

  it('access key: argument before environment', () => {
    expect(read(['--access-key', 'key.txt'], { SLATCH_ACCESS_KEY: '/other' }).accessKeyFile).toBe('key.txt');
    expect(read([], { SLATCH_ACCESS_KEY: '/other' }).accessKeyFile).toBe('/other');
  });

  it.each([
    [['--port', 'x'], 'config.port-out-of-range'],
    [['--port', '65536'], 'config.port-out-of-range'],
    [['--port', ''], 'config.port-out-of-range'],
    [['--store', ''], 'config.store-empty'],
    [['--message-key', ''], 'config.message-key-empty'],
    [['--access-key', ' '], 'config.access-key-empty'],
    [['--quiet'], 'config.argument-unknown'],
    [['file.json'], 'config.argument-unknown'],
  ])('%s: %s', (argv, code) => {
    expect(codes(argv)).toEqual([code]);
  });

  it('two things wrong: both named', () => {
    expect(codes(['--port', 'x', '--store', ''])).toEqual(['config.port-out-of-range', 'config.store-empty']);
  });
});

describe('allowedHosts', () => {
  it('on the loopback: its three names, on the port alone', () => {
    expect(allowedHosts(LOOPBACK_NAMES, 4137)).toEqual(['127.0.0.1:4137', 'localhost:4137', '[::1]:4137']);
  });

  it('port 80, which browsers leave out: with and without', () => {
    expect(allowedHosts(['192.0.2.7', '192.0.2.7'], 80)).toEqual(['192.0.2.7', '192.0.2.7:80']);
  });

  it('a name and its address: both', () => {
    expect(allowedHosts(['Boat.local', '192.0.2.7'], 81)).toEqual(['boat.local:81', '192.0.2.7:81']);
  });
});

/** RFC 5952 §4 (small letters, no leading zeros, the longest run shortened), in the brackets of RFC 3986 §3.2.2. */
describe('hostText', () => {
  it.each([
    ['2001:DB8:0:0:0:0:0:0001', '[2001:db8::1]'],
    ['::1', '[::1]'],
    ['fe80::1%eth0', '[fe80::1%eth0]'],
    ['192.0.2.7', '192.0.2.7'],
    ['Boat.LOCAL', 'boat.local'],
  ])('%s: %s', (name, text) => {
    expect(hostText(name)).toBe(text);
  });
});
