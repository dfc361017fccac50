import { describe, expect, it } from 'vitest';
import type { ListedCommand } from '../../scripts/commands/command.ts';
import { dispatch } from '../../scripts/commands/dispatch.ts';

const sail: ListedCommand = {
  name: 'sail',
  summary: 'goes sailing',
  run: (args, io) => {
    io.out(args.join('+'));
    return Promise.resolve(args.length === 0 ? 1 : 0);
  },
};

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const code = await dispatch([sail], args, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    readFile: () => Promise.reject(new Error('no file is read')),
    nowEpochMs: () => 0,
  });
  return { code, ...said };
}

describe('dispatch', () => {
  it('a command: is run with the rest of the arguments, its exit code passed on', async () => {
    expect(await run('sail', 'a', '--b')).toEqual({ code: 0, out: 'a+--b', err: '' });
    expect((await run('sail')).code).toBe(1);
  });

  it('a misspelt command: the nearest one is suggested, exit code 2', async () => {
    const { code, err, out } = await run('sial');
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "sail"?');
    expect(out).toBe('');
  });

  it('no command: the list on standard error, exit code 2', async () => {
    const { code, err } = await run();
    expect(code).toBe(2);
    expect(err).toContain('sail  goes sailing');
  });

  it('--help: the list on standard output, exit code 0', async () => {
    const { code, out } = await run('--help');
    expect(code).toBe(0);
    expect(out).toContain('sail  goes sailing');
  });
});
