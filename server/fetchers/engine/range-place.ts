import type { OctetRange } from '../sources/index-ranges.ts';

/** Where fetching goes on. */
export interface RangePlace {
  /** Octets of the ranges before this one. */
  readonly beforeOctets: number;
  /** First octet of this range in the file at the source. */
  readonly startOctet: number;
  /** Octet to go on from. */
  readonly fromOctet: number;
  /** First octet after the range; null: its end is not known. */
  readonly endOctet: number | null;
}

/** All octets of the ranges; null while the end of the last is not known. */
export function promisedOctets(ranges: readonly OctetRange[]): number | null {
  let sumOctets = 0;
  for (const { startOctet, endOctet } of ranges) {
    if (endOctet === null) return null;
    sumOctets += endOctet - startOctet;
  }
  return sumOctets;
}

/** The place of the next octet when `gotOctets` of the ranges, one after the other, are there; null: all are. */
export function placeAfter(ranges: readonly OctetRange[], gotOctets: number): RangePlace | null {
  let beforeOctets = 0;
  for (const { startOctet, endOctet } of ranges) {
    const fromOctet = startOctet + gotOctets - beforeOctets;
    if (endOctet === null || fromOctet < endOctet) return { beforeOctets, startOctet, fromOctet, endOctet };
    beforeOctets += endOctet - startOctet;
  }
  return null;
}

/** The ranges with the end of the last one known. */
export const withLastEnd = (ranges: readonly OctetRange[], endOctet: number | null): OctetRange[] =>
  ranges.map((range, index) =>
    index === ranges.length - 1 && range.endOctet === null ? { ...range, endOctet } : { ...range },
  );
