import { createHash } from 'node:crypto';
import { sizeOctetsOf } from '../lib/forecast/index.ts';
import type { LoadedPassage } from './stores/passage-files.ts';

/**
 * What was read from the disk to plan a passage: its track, and the octets of its forecasts (of one too long to hold, its
 * size). 64 hexadecimal digits; the same for the same octets.
 */
export function printOf({ passage, files }: Pick<LoadedPassage, 'passage' | 'files'>): string {
  const hash = createHash('sha256').update(JSON.stringify(passage.track));
  for (const file of files) {
    hash.update(`\0${file.name}\0${sizeOctetsOf(file)}\0`);
    if ('bytes' in file) hash.update(file.bytes);
  }
  return hash.digest('hex');
}
