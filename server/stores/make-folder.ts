import { mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { syncFolderSync } from './part-files.ts';

/**
 * Makes a folder, and those above it that are not there, for its user alone: 0700, as the XDG Base Directory
 * Specification 0.8 has it. The names are on the disk when it returns.
 */
export function makeFolder(folder: string): void {
  const absolute = resolve(folder);
  const first = mkdirSync(absolute, { recursive: true, mode: 0o700 });
  if (first === undefined) return;
  for (let made = absolute; made.length >= first.length; made = dirname(made)) syncFolderSync(dirname(made));
}
