/** GRIB files of a folder tree, by content: sources name them as they like. */
import { closeSync, openSync, readdirSync, readSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Octets looked at: bulletin headers and padding before the first message are shorter. */
const HEAD_OCTETS = 65_536;

/** The file itself, or all GRIB files below a folder, in the order of their names. Errors are those of the file system. */
export function gribFilesIn(path: string): string[] {
  if (statSync(path).isFile()) return [path];
  return readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter(hasMessage)
    .toSorted();
}

/** Whether the four letters stand near the beginning, with the number of an edition where it belongs. */
function hasMessage(path: string): boolean {
  const head = Buffer.alloc(HEAD_OCTETS);
  const file = openSync(path, 'r');
  const readOctets = readSync(file, head);
  closeSync(file);
  for (let at = head.indexOf('GRIB'); at >= 0 && at + 8 <= readOctets; at = head.indexOf('GRIB', at + 4)) {
    if (head[at + 7] === 1 || head[at + 7] === 2) return true;
  }
  return false;
}
