import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../..');

const run = (...args: readonly string[]): ReturnType<typeof spawnSync> & { stdout: string } =>
  spawnSync(process.execPath, ['--import', 'tsx', 'scripts/check-values.ts', ...args], { cwd: root, encoding: 'utf8' });

describe('scripts/check-values.ts', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'check-values-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('the published values of the repository: none fails', () => {
    const { stdout, status } = run('tests/golden/check-values/weather-and-navigation.json');
    expect(stdout).toMatch(/^191 passed, 0 failed, 19 of unknown topic$/m);
    expect(status).toBe(0);
  });

  it('a wrong value: printed with what was expected, exit code 1', () => {
    const file = join(folder, 'wrong.json');
    const item = {
      id: 'x.1',
      topic: 'steepness',
      inputs: { hs: 2, T: 6 },
      expected: { steepness: 0.5 },
      tolerance: 0.001,
    };
    writeFileSync(file, JSON.stringify({ items: [item] }));
    const { stdout, status } = run(file);
    expect(stdout).toMatch(/^x\.1 \(steepness\): steepness: expected 0\.5, got 0\.035/);
    expect(status).toBe(1);
  });

  it('two files: wrong use, exit code 2', () => {
    expect(run('one.json', 'two.json').status).toBe(2);
  });

  it('a file that is not there: said, exit code 1', () => {
    const { stderr, status } = run(join(folder, 'none.json'));
    expect(stderr).toContain('none.json');
    expect(status).toBe(1);
  });
});
