/** Packed bodies: as they should be, mislabelled, packed twice, and small ones that unpack to very much. */
import { brotliCompressSync, deflateSync, gzipSync } from 'node:zlib';
import type { Chance } from '../chance.ts';

const BOMB_OCTETS = 10_000_000;
const BOMBS = { gzip: gzipSync, deflate: deflateSync, br: brotliCompressSync } as const;
const made = new Map<string, Buffer>();

/** Ten megabytes of zeros packed a thousand times; made once. */
function bomb(encoding: keyof typeof BOMBS): Buffer {
  const kept = made.get(encoding) ?? BOMBS[encoding](Buffer.alloc(BOMB_OCTETS));
  made.set(encoding, kept);
  return kept;
}

export function encodedBody(body: Buffer, { pick }: Chance): { readonly encoding: string; readonly body: Buffer } {
  const encoding = pick(['gzip', 'deflate', 'br'] as const);
  const packed = BOMBS[encoding](body);
  return pick([
    { encoding, body: packed },
    { encoding, body },
    { encoding, body: packed.subarray(0, Math.floor(packed.length / 2)) },
    { encoding, body: bomb(encoding) },
    { encoding: `${encoding}, ${encoding}`, body: BOMBS[encoding](packed) },
    { encoding: 'gzip', body: gzipSync(bomb('gzip')) },
    { encoding: pick(['zstd', 'compress', 'identity', 'GZIP', 'x', '', 'gzip;q=0']), body },
  ]);
}
