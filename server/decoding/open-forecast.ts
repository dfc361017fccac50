import { open, stat } from 'node:fs/promises';
import type { ForecastFile } from '../../lib/forecast/index.ts';
import { longFile } from './long-file.ts';
import { readShared } from './shared-bytes.ts';
import { refuseHead } from './whole-file.ts';

/** Longest file that is held whole [octets]; the messages of a longer one are read when they are decoded. */
const MOST_HELD_OCTETS = 256_000_000;

/**
 * A forecast file: held in shared memory, or left on the disk where it is long. Throws as `readWholeFile`, whose limit of
 * size does not hold here.
 */
export async function openForecast(path: string, name: string): Promise<ForecastFile> {
  const stats = await stat(path);
  if (!stats.isFile() || stats.size <= MOST_HELD_OCTETS) return { name, bytes: await readShared(path) };
  const file = await open(path, 'r');
  try {
    await refuseHead(file, stats.size);
  } finally {
    await file.close();
  }
  return longFile(path, name);
}
