import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { extname, join, resolve } from 'node:path';

const root = resolve(import.meta.dirname, '..');
/** Everything a view of a plan is made and read by. */
const FOLDERS = ['lib', 'server'] as const;
const CODE = ['.ts', '.mjs'];

let kept: string | null = null;

/** Changes with any line of the program: what one program wrote for itself no other reads. 64 hexadecimal digits. */
export function programPrint(): string {
  kept ??= printOf(FOLDERS.flatMap((folder) => codeFilesIn(join(root, folder))));
  return kept;
}

function printOf(files: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of files.toSorted()) hash.update(file.slice(root.length)).update('\0').update(readFileSync(file));
  return hash.digest('hex');
}

const codeFilesIn = (folder: string): readonly string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && CODE.includes(extname(entry.name)))
    .map((entry) => join(entry.parentPath, entry.name));
