/** Loaded beside a program: writes the most memory it has held [MiB] to the file named by SLATCH_PEAK_FILE when it ends. */
import { writeFileSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

const path = process.env.SLATCH_PEAK_FILE;
if (path !== undefined && isMainThread)
  process.once('exit', () => writeFileSync(path, String(process.resourceUsage().maxRSS / 1024)));
