/** Fields to messages of edition 2: one for each, or several that share what they have in common. */
import { fieldSections, type FieldSections } from './field-sections.ts';
import { joined, sectionOctets, unsigned } from './octets.ts';
import type { GribMessageSpec } from './spec.ts';

/**
 * Writes one field as one message of edition 2 (template 3.0; 4.0, 4.1, 4.8 or 4.11; 5.0 or 5.3). The octets depend
 * on nothing but the arguments.
 *
 * @returns the message; messages are joined to a file by putting one after another
 * @throws Error when the description contradicts itself or does not fit the octets: a mistake of the caller
 * @see WMO-No. 306, Volume I.2, FM 92-XIV GRIB
 */
export function writeGrib2Message(spec: GribMessageSpec): Uint8Array {
  return messageOf(spec.parameter.discipline, [fieldSections(spec)]);
}

/**
 * Writes fields with as few headers as the standard allows: fields of one discipline and one Section 1 become one message
 * in which Sections 3 to 7 or 4 to 7 repeat (regulation 92.1.4), and a bitmap that is the one before it is not repeated
 * (code table 6.0: 254). Within a message fields keep their order, so that neighbours should share grid and bitmap.
 *
 * @returns a file; empty for no fields
 * @throws Error as `writeGrib2Message`
 */
export function writeGrib2File(specs: readonly GribMessageSpec[]): Uint8Array {
  const messages = new Map<string, { discipline: number; fields: FieldSections[] }>();
  for (const spec of specs) {
    const { discipline } = spec.parameter;
    const sections = fieldSections(spec);
    const key = `${discipline} ${sections.identification.join(' ')}`;
    const message = messages.get(key);
    if (message === undefined) messages.set(key, { discipline, fields: [sections] });
    else message.fields.push(sections);
  }
  return joined([...messages.values()].map(({ discipline, fields }) => messageOf(discipline, fields)));
}

/** Fields of one discipline with the same Section 1. */
function messageOf(discipline: number, fields: readonly FieldSections[]): Uint8Array {
  const parts: Uint8Array[] = [];
  let grid: Uint8Array | null = null;
  let bitmap: Uint8Array | null = null;
  for (const field of fields) {
    if (grid === null) parts.push(field.identification);
    if (grid === null || !isSame(grid, field.grid)) parts.push(field.grid);
    const repeatsBitmap = bitmap !== null && field.bitmap !== null && isSame(bitmap, field.bitmap);
    parts.push(field.product, field.representation, bitmapSection(field.bitmap, repeatsBitmap), field.data);
    grid = field.grid;
    bitmap = field.bitmap ?? bitmap;
  }
  const sections = joined(parts);
  const totalOctets = 16 + sections.length + 4;
  const indicator = [...letters('GRIB'), 0xff, 0xff, ...unsigned(discipline, 1), 2, ...unsigned(totalOctets, 8)];
  return joined([Uint8Array.from(indicator), sections, Uint8Array.from(letters('7777'))]);
}

const isSame = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((octet, i) => octet === b[i]);

const letters = (text: string): number[] => Array.from(text, (letter) => letter.charCodeAt(0));

/** Code table 6.0: 0 a bitmap follows, 254 the one before it, 255 none. */
function bitmapSection(bitmap: Uint8Array | null, repeatsBitmap: boolean): Uint8Array {
  if (bitmap === null) return sectionOctets(6, [255]);
  return repeatsBitmap ? sectionOctets(6, [254]) : sectionOctets(6, [0, ...bitmap]);
}
