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

export default defineConfig({
  root: resolve(import.meta.dirname, '..'),
  test: {
    projects: [
      {
        extends: true,
        test: {
          // Pure rooms and views: nothing to isolate, and isolation costs five times the run (1,007 tests measured).
          name: 'pure',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: inFolders([...SHELL_FOLDERS, 'browser']),
          pool: 'threads',
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
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
