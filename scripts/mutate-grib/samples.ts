/** Samples to damage: messages of the GRIB files of some folders, few large ones, the largest left out. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { scanGrib } from '../../lib/grib/index.ts';
import { gribFilesIn } from '../grib-files.ts';
import type { Sample } from './mutations.ts';

/** Larger messages make the run slow: one of each file, */
const LARGE_OCTETS = 100_000;
/** and none above this. */
const MOST_OCTETS = 800_000;
const MOST_MESSAGES_OF_FILE = 6;
/** Files up to this length are samples as a whole, too, with all that lies between their messages. */
const SHORT_FILE_OCTETS = 15_000;

/** In the order of folder and file names, so that a seed always means the same. */
export function readSamples(folders: readonly string[]): Sample[] {
  return folders.flatMap((folder) =>
    gribFilesIn(folder).flatMap((path) => samplesOf(relative(folder, path), new Uint8Array(readFileSync(path)))),
  );
}

/** Eight digits that change with the samples: the same seed and index mean the same input only while they do not. */
export function samplesMark(samples: readonly Sample[]): string {
  const hash = createHash('sha256');
  for (const { bytes } of samples) hash.update(bytes);
  return hash.digest('hex').slice(0, 8);
}

/** A few messages from all over the file. */
function samplesOf(name: string, bytes: Uint8Array): Sample[] {
  const lengths = new Map<number, number>();
  for (const field of scanGrib(bytes, name).fields) lengths.set(field.messageOffsetOctet, field.messageLengthOctets);
  if (lengths.size === 0) return bytes.length <= SHORT_FILE_OCTETS ? [{ name, bytes }] : [];
  const messages = [...lengths].filter(([, lengthOctets]) => lengthOctets <= LARGE_OCTETS);
  const large = [...lengths].filter(([, octets]) => octets > LARGE_OCTETS && octets <= MOST_OCTETS).slice(0, 1);
  const stepCount = Math.max(1, Math.ceil(messages.length / MOST_MESSAGES_OF_FILE));
  const chosen = [...messages.filter((_, i) => i % stepCount === 0), ...large].map(([start, lengthOctets]) => ({
    name: `${name} at octet ${start + 1}`,
    bytes: bytes.slice(start, start + lengthOctets),
  }));
  return bytes.length <= SHORT_FILE_OCTETS && messages.length > 1 ? [...chosen, { name, bytes }] : chosen;
}
