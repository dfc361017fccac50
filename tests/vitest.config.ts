import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';

/**
 * Node's own modules, TypeScript by tsx, as the program runs: under vitest's module runner every imported name is a look-up,
 * and a search takes five times as long (13 s and 63 s measured).
 */
const asTheProgramRuns = {
  // Short-lived code: compiled soon and simply, with room for what is thrown away at once (a sixth of the time measured).
  execArgv: ['--always-sparkplug', '--max-semi-space-size=64', '--import', 'tsx'],
  experimental: { viteModuleRunner: false, nodeLoader: false },
};

export default defineConfig({
  root: resolve(import.meta.dirname, '..'),
  test: {
    ...asTheProgramRuns,
    // Both cores: left to itself vitest keeps one for the terminal.
    maxWorkers: 2,
    include: ['tests/**/*.test.{ts,tsx}'],
    // One set of processes for all files: what they import is loaded once in each. Isolation would cost five times the run.
    pool: 'forks',
    isolate: false,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
