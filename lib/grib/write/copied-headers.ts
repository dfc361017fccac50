/** Headers of a field of edition 2 as they stand in its file, for fields that are cut and written again. */
import { walkEdition2, type Walk } from '../edition-2/walk.ts';
import type { GribField } from '../field.ts';
import type { SectionPlace } from '../section.ts';
import type { CopiedHeaders } from './spec.ts';

/** Octets 15 to 30 of Section 3. */
const EARTH = { fromIndex: 14, toIndex: 30 } as const;

/**
 * A reader of headers, which walks each message once.
 *
 * @returns Sections 1 and 4 and the shape of the earth of a field found in `bytes`; null for edition 1
 */
export function headerReader(): (bytes: Uint8Array, field: GribField) => CopiedHeaders | null {
  // What is read message by message goes with its octets.
  const walks = new WeakMap<Uint8Array, Map<number, Walk>>();
  return (bytes, field) => {
    if (field.edition === 1) return null;
    const inFile = walks.get(bytes) ?? new Map<number, Walk>();
    walks.set(bytes, inFile);
    const walk = inFile.get(field.messageOffsetOctet) ?? walkEdition2(bytes, field);
    inFile.set(field.messageOffsetOctet, walk);
    const found = walk.submessages[field.submessageNumber - 1];
    if (found === undefined) throw new Error(`message ${field.messageNumber} is not in these octets`);
    const copy = ({ startIndex, lengthOctets }: SectionPlace): Uint8Array =>
      bytes.slice(startIndex, startIndex + lengthOctets);
    return {
      identification: copy(found.identification),
      product: copy(found.product),
      earth: copy(found.grid).slice(EARTH.fromIndex, EARTH.toIndex),
    };
  };
}
