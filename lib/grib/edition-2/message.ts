/** Fields of one message of edition 2. */
import type { Problem } from '../../result/index.ts';
import type { GribField, ReadMessage } from '../field.ts';
import type { GridDefinition } from '../grid.ts';
import { readGridDefinition } from './grid.ts';
import { type Identification, readIdentification } from './identification.ts';
import { isProblem } from '../is-problem.ts';
import { damaged, type MessagePlace, tooShort, unsupported } from '../problems.ts';
import { type Product, readProduct } from './product.ts';
import { readRepresentation, type Representation } from './representation.ts';
import { octet1, type SectionPlace, viewSection } from '../section.ts';
import { type Submessage, walkEdition2 } from './walk.ts';

/** Reads the headers of the message at `place`; a field whose headers are damaged becomes a problem, the others stand. */
export function readEdition2(bytes: Uint8Array, place: MessagePlace, firstFieldNumber: number): ReadMessage {
  const walk = walkEdition2(bytes, place);
  const fields: GribField[] = [];
  const problems: Problem[] = [];
  for (const [index, submessage] of walk.submessages.entries()) {
    const field = readField(bytes, place, {
      submessage,
      fieldNumber: firstFieldNumber + fields.length,
      submessageNumber: index + 1,
      nextIndex: walk.nextIndex,
    });
    if (isProblem(field)) problems.push(field);
    else fields.push(field);
  }
  return { fields, problems: [...problems, ...walk.problems], nextIndex: walk.nextIndex };
}

interface Numbered {
  readonly nextIndex: number;
  readonly submessage: Submessage;
  readonly fieldNumber: number;
  readonly submessageNumber: number;
}

function readField(bytes: Uint8Array, place: MessagePlace, numbered: Numbered): GribField | Problem {
  const { submessage } = numbered;
  const identification = readIdentification(place, viewSection(bytes, 1, submessage.identification));
  if (isProblem(identification)) return identification;
  const definition = readGridDefinition(place, viewSection(bytes, 3, submessage.grid));
  if (isProblem(definition)) return definition;
  const product = readProduct(place, viewSection(bytes, 4, submessage.product), identification.referenceEpochMs);
  if (isProblem(product)) return product;
  const representation = readRepresentation(place, viewSection(bytes, 5, submessage.representation));
  if (isProblem(representation)) return representation;
  const bitmap = findBitmap(bytes, place, submessage);
  if (bitmap !== null && isProblem(bitmap)) return bitmap;
  const parts = { identification, definition, product, representation, bitmap };
  return countMismatch(bytes, place, { parts, submessage }) ?? assemble(bytes, place, { numbered, parts });
}

interface Parts {
  readonly identification: Identification;
  readonly definition: GridDefinition;
  readonly product: Product;
  readonly representation: Representation;
  readonly bitmap: SectionPlace | null;
}

function assemble(bytes: Uint8Array, place: MessagePlace, from: { numbered: Numbered; parts: Parts }): GribField {
  const { identification, definition, product, representation, bitmap } = from.parts;
  const { fieldNumber, submessageNumber, submessage, nextIndex } = from.numbered;
  const obstacles = { grid: definition.support, packing: representation.support, product: product.support };
  const discipline = bytes[place.messageOffsetOctet + 6] ?? 255;
  // Written out, since V8 makes a large object of spread ones at ten times the memory; a file has thousands of fields.
  return {
    fileName: place.fileName,
    messageNumber: place.messageNumber,
    messageOffsetOctet: place.messageOffsetOctet,
    fieldNumber,
    messageLengthOctets: nextIndex - place.messageOffsetOctet,
    submessageNumber,
    edition: 2,
    parameter: { edition: 2, discipline, category: product.category, number: product.number },
    centre: identification.centre,
    subcentre: identification.subcentre,
    referenceEpochMs: identification.referenceEpochMs,
    dataTypeCode: identification.dataTypeCode,
    productTemplate: product.templateNumber,
    level: product.level,
    validity: product.validity,
    ensemble: product.ensemble,
    derived: product.derived,
    aspect: product.aspect,
    typeOfProcess: product.typeOfProcess,
    packing: representation.packing,
    hasBitmap: bitmap !== null,
    grid: definition.grid,
    pointCount: definition.pointCount,
    support: obstacles.grid ?? obstacles.packing ?? obstacles.product,
    obstacles,
    location: { representation: submessage.representation, bitmap, data: submessage.data },
  };
}

/** Bitmap that applies: indicator 0 is here, 254 the last one of this message, 255 none (code table 6.0). */
function findBitmap(bytes: Uint8Array, place: MessagePlace, submessage: Submessage): SectionPlace | Problem | null {
  const section = viewSection(bytes, 6, submessage.bitmapSection);
  const short = tooShort(place, section, 6);
  if (short !== null) return short;
  const indicator = octet1(section, 6);
  if (indicator === 255) return null;
  if (indicator === 0) return submessage.bitmapSection;
  if (indicator === 254 && submessage.definedBitmap !== null) return submessage.definedBitmap;
  if (indicator === 254) {
    return damaged(place, {
      code: 'grib.bitmap-missing',
      section,
      octet: 6,
      what: 'The bitmap of an earlier field of this message is to be used again, and there is none.',
      expected: 'an earlier bitmap, or indicator 0 or 255',
    });
  }
  return unsupported(place, {
    code: 'grib.bitmap-unsupported',
    section,
    octet: 6,
    table: 'GRIB2 code table 6.0 (bit map indicator)',
    value: indicator,
    name: 'a bitmap known only to the originating centre',
    expected: '0 (bitmap follows), 254 (as before) or 255 (none)',
    remedy: 'Ask the source for the field with its bitmap in the message.',
  });
}

/** Without a bitmap every grid point has a packed value. */
function countMismatch(
  bytes: Uint8Array,
  place: MessagePlace,
  from: { parts: Parts; submessage: Submessage },
): Problem | null {
  const { packedCount } = from.parts.representation.packing;
  const { pointCount } = from.parts.definition;
  const agrees = from.parts.bitmap === null ? packedCount === pointCount : packedCount <= pointCount;
  if (agrees || from.parts.representation.support !== null) return null;
  return damaged(place, {
    code: 'grib.count-mismatch',
    section: viewSection(bytes, 5, from.submessage.representation),
    octet: 6,
    what: `${packedCount} values are packed for ${pointCount} grid points.`,
    expected: from.parts.bitmap === null ? 'one value for each grid point' : 'no more values than grid points',
  });
}
