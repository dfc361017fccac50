/** What a global field costs in each packing. */
import { decodeField, scanGrib } from '../../lib/grib/index.ts';
import type { BaseMessages, Packing } from './write-global.ts';

export interface FieldCost {
  readonly packing: Packing;
  /** Mean octets of a field, all quantities alike. */
  readonly sizeOctets: number;
  /** Of decoding one field whole: median of all messages, each the best of three. */
  readonly decodeMs: number;
}

const ROUND_COUNT = 3;

export function fieldCost(packing: Packing, base: BaseMessages): FieldCost {
  const messages = Object.values(base).flat();
  const tookMs = messages.map((bytes) => {
    const [field] = scanGrib(bytes, 'global').fields;
    if (field === undefined) throw new Error('a message was written');
    const rounds = Array.from({ length: ROUND_COUNT }, () => {
      const begunMs = performance.now();
      const decoded = decodeField(bytes, field);
      if (!decoded.ok) throw new Error(JSON.stringify(decoded.problems));
      return performance.now() - begunMs;
    });
    return Math.min(...rounds);
  });
  const sorted = tookMs.toSorted((a, b) => a - b);
  return {
    packing,
    sizeOctets: messages.reduce((sum, { length }) => sum + length, 0) / messages.length,
    decodeMs: sorted[Math.floor(sorted.length / 2)] ?? Number.NaN,
  };
}
