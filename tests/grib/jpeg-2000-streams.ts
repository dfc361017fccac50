/** The committed code-streams of tests/golden/jpeg-2000 and their samples. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

interface Stream {
  readonly file: string;
  readonly columnCount: number;
  readonly rowCount: number;
  readonly depthBits: number;
  /** `bowl`, `steps` or a file of 32-bit numbers. */
  readonly samples: string;
  readonly tolerance: number;
  readonly encoder: string;
}

const folder = join(import.meta.dirname, '..', 'golden', 'jpeg-2000');

export const { cases: streams } = JSON.parse(readFileSync(join(folder, 'streams.json'), 'utf8')) as {
  readonly cases: readonly Stream[];
};

export const octetsOf = (file: string): Uint8Array => new Uint8Array(readFileSync(join(folder, 'files', file)));

export const filesOfFolder = (): readonly string[] => readdirSync(join(folder, 'files')).toSorted();

/** Samples row by row; the formulas are those of the folder's README. */
export function samplesOf({ columnCount, rowCount, depthBits, samples }: Stream): readonly number[] {
  const count = columnCount * rowCount;
  if (samples !== 'bowl' && samples !== 'steps') {
    const octets = octetsOf(samples);
    const view = new DataView(octets.buffer, octets.byteOffset, octets.byteLength);
    return Array.from({ length: count }, (_, i) => view.getUint32(4 * i, true));
  }
  return Array.from({ length: count }, (_, i) => {
    if (samples === 'steps') return Math.floor(i / 1000);
    const x = i % columnCount;
    const y = Math.floor(i / columnCount);
    const base = 5 * x * x + 3 * y * y + 2 * x * y + ((31 * x + 17 * y) % 7);
    return Math.floor((base * 2 ** depthBits) / 16_384) % 2 ** depthBits;
  });
}
