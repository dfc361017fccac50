/** Tables of unsigned numbers that stand one after another in a section, each beginning on a whole octet. */
import type { Problem } from '../../../result/index.ts';
import { readRun, WIDEST_BITS } from '../../bits.ts';
import { type MessagePlace, tooWide } from '../../problems.ts';
import type { Section } from '../../section.ts';
import { dataTooShort } from '../simple.ts';

/** One table. */
export interface TableSpec {
  readonly count: number;
  readonly widthBits: number;
  /** Where the file gives the width, for the problem that it is too wide. */
  readonly widthAt: { readonly section: Section; readonly octet: number };
}

/** Tables read. */
export interface Tables {
  readonly columns: readonly Float64Array[];
  /** Octet of the section at which each table begins, and last the octet after all of them. */
  readonly octets: readonly number[];
}

/** Reads tables of `section`, seen through `viewForRuns`, from `firstOctet` on. Nothing is allocated before the section is known to hold all of them. */
export function readTables(
  place: MessagePlace,
  from: { readonly section: Section; readonly view: DataView; readonly firstOctet: number },
  specs: readonly TableSpec[],
): Tables | Problem {
  const { section, view, firstOctet } = from;
  const wide = specs.find(({ widthBits }) => widthBits > WIDEST_BITS);
  if (wide !== undefined) return tooWide(place, wide.widthAt, wide.widthBits);
  const octets = [firstOctet];
  for (const { count, widthBits } of specs) octets.push((octets.at(-1) ?? 0) + Math.ceil((count * widthBits) / 8));
  const headOctets = (octets.at(-1) ?? 0) - 1;
  if (headOctets > section.lengthOctets) return dataTooShort(place, section, headOctets * 8);
  const columns = specs.map(({ count, widthBits }, i) => {
    const column = new Float64Array(count);
    const startBitIndex = ((octets[i] ?? 0) - 1) * 8;
    readRun({ view, startBitIndex, widthBits }, column, { fromIndex: 0, toIndex: count, addedCount: 0 });
    return column;
  });
  return { columns, octets };
}
