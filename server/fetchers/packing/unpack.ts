import { gunzipSync } from 'node:zlib';
import { failed, ok, type Result } from '../../../lib/result/index.ts';
import { bunzip2, Bzip2Damage, TooMuchUnpacked } from './bunzip2.ts';

const startsWith = (octets: Uint8Array, start: readonly number[]): boolean =>
  start.every((octet, index) => octets[index] === octet);

/** How a file is packed, by its first octets: RFC 1952 §2.3.1, and `BZh`. */
export function packingOf(octets: Uint8Array): 'gzip' | 'bzip2' | null {
  if (startsWith(octets, [0x1f, 0x8b])) return 'gzip';
  return startsWith(octets, [0x42, 0x5a, 0x68]) ? 'bzip2' : null;
}

/**
 * A file without its packing; one that is not packed as it is.
 *
 * @returns `fetch.packing-damaged` | `fetch.unpacked-too-large`
 */
export function unpack(octets: Uint8Array, where: string, mostOctets: number): Result<Uint8Array> {
  const packing = packingOf(octets);
  if (packing === null) return ok(octets);
  try {
    return ok(packing === 'gzip' ? gunzipSync(octets, { maxOutputLength: mostOctets }) : bunzip2(octets, mostOctets));
  } catch (error) {
    if (error instanceof TooMuchUnpacked || (error instanceof RangeError && packing === 'gzip')) {
      return failed({
        code: 'fetch.unpacked-too-large',
        where,
        what: `Unpacked (${packing}) it is larger than is allowed.`,
        expected: `at most ${Math.round(mostOctets / 1e6)} MB`,
        remedy: 'Take fewer steps, quantities or members, or allow more with --most-mb.',
      });
    }
    const isDamage = error instanceof Bzip2Damage || (error instanceof Error && 'code' in error);
    if (!isDamage) throw error;
    return failed({
      code: 'fetch.packing-damaged',
      where,
      what: `It cannot be unpacked (${packing}): ${error.message}.`,
      expected: `a whole ${packing} file`,
      remedy: 'Fetch again; nothing of it was kept.',
    });
  }
}
