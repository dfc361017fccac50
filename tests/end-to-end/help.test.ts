/** Help, and the way to the program that a user types. */
import { describe, expect, it } from 'vitest';
import { runProgram, slatch } from './run-slatch.ts';

const npx = process.platform === 'win32' ? 'npx.cmd' : 'npx';

describe('npx --no-install slatch', () => {
  it('--help: from the project’s folder, all commands; each with a help of its own and an example', async () => {
    const { code, out, err } = await runProgram(npx, ['--no-install', 'slatch', '--help']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const names = [...out.matchAll(/^ {2}(\w+) {2}/gm)].map(([, name = '']) => name);
    expect(names).toEqual(expect.arrayContaining(['plan', 'windows', 'forecast', 'alertness']));
    const helps = await Promise.all(names.map((name) => slatch(name, '--help')));
    for (const [index, help] of helps.entries()) {
      const name = names[index] ?? '';
      expect({ code: help.code, err: help.err }).toEqual({ code: 0, err: '' });
      // How it is called in capitals, and called with something real.
      const calls = help.out.split('\n').filter((line) => line.trim().startsWith(`slatch ${name} `));
      expect(
        calls.filter((line) => /\.\w+|\d{4}-|\d/.test(line) && !line.includes('[')),
        name,
      ).not.toEqual([]);
    }
  });
});
