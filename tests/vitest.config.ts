import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';

/** Folders whose tests start processes, open sockets, patch globals (nock) or touch the disk. */
const SHELL_FOLDERS = [
  'server',
  'stores',
  'decoding',
  'fetchers',
  'pages',
  'scripts',
  'house',
  'process',
  'end-to-end',
];

const inFolders = (folders: readonly string[]): string[] =>
  folders.map((folder) => `tests/${folder}/**/*.test.{ts,tsx}`);

/**
 * Node's own modules, TypeScript by tsx, as the program runs: under vitest's module runner every imported name is a look-up,
 * and a search takes five times as long (13 s and 63 s measured).
 */
const asTheProgramRuns = {
  execArgv: ['--import', 'tsx'],
  experimental: { viteModuleRunner: false, nodeLoader: false },
};

export default defineConfig({
  root: resolve(import.meta.dirname, '..'),
  test: {
    ...asTheProgramRuns,
    // Both cores: left to itself vitest keeps one for the terminal.
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          // Pure rooms and views: nothing to isolate, and isolation costs five times the run (1,007 tests measured).
          name: 'pure',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: inFolders([...SHELL_FOLDERS, 'browser']),
          pool: 'forks',
          isolate: false,
          testTimeout: 20_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'shell',
          include: inFolders(SHELL_FOLDERS),
          pool: 'forks',
          isolate: false,
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: inFolders(['browser']),
          pool: 'forks',
          isolate: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
