/** The field of one message of edition 1. */
import type { Problem } from '../../result/index.ts';
import { walkEdition1, type Edition1Sections } from './sections.ts';
import { readGridEdition1 } from './grid.ts';
import { derivedEdition1, ensembleEdition1 } from './ensemble.ts';
import { levelEdition1, referenceTimeEdition1, validityEdition1 } from './product.ts';
import { readPackingEdition1 } from './packing.ts';
import type { GribField, ReadMessage } from '../field.ts';
import type { GridDefinition } from '../grid.ts';
import { isProblem } from '../is-problem.ts';
import type { MessagePlace } from '../problems.ts';
import { octet1, type SectionPlace } from '../section.ts';

/** Reads the headers of the message at `place`. */
export function readEdition1(bytes: Uint8Array, place: MessagePlace, fieldNumber: number): ReadMessage {
  const sections = walkEdition1(bytes, place);
  if (isProblem(sections)) return { fields: [], problems: [sections], nextIndex: place.messageOffsetOctet + 8 };
  const field = readField(place, sections, fieldNumber);
  const problems: Problem[] = sections.flaw === null ? [] : [sections.flaw];
  if (isProblem(field)) return { fields: [], problems: [field, ...problems], nextIndex: sections.nextIndex };
  return { fields: [field], problems, nextIndex: sections.nextIndex };
}

function readField(place: MessagePlace, sections: Edition1Sections, fieldNumber: number): GribField | Problem {
  const definition = readGridEdition1(place, sections.product, sections.grid);
  if (isProblem(definition)) return definition;
  const referenceEpochMs = referenceTimeEdition1(place, sections.product);
  if (typeof referenceEpochMs !== 'number') return referenceEpochMs;
  return assemble(place, sections, { definition, referenceEpochMs, fieldNumber });
}

function assemble(
  place: MessagePlace,
  sections: Edition1Sections,
  from: { definition: GridDefinition; referenceEpochMs: number; fieldNumber: number },
): GribField | Problem {
  const { product, bitmap, data } = sections;
  const { packing, support, pointCount } = readPackingEdition1(place, sections, from.definition.pointCount);
  const validity = validityEdition1(place, product, from.referenceEpochMs);
  const productObstacle = isProblem(validity) ? validity : null;
  const obstacles = { grid: from.definition.support, packing: support, product: productObstacle };
  const centre = octet1(product, 5);
  return {
    fileName: place.fileName,
    messageNumber: place.messageNumber,
    messageOffsetOctet: place.messageOffsetOctet,
    fieldNumber: from.fieldNumber,
    messageLengthOctets: sections.nextIndex - place.messageOffsetOctet,
    submessageNumber: 1,
    edition: 1,
    parameter: { edition: 1, centre, tableVersion: octet1(product, 4), number: octet1(product, 9) },
    centre,
    subcentre: octet1(product, 26),
    referenceEpochMs: from.referenceEpochMs,
    productTemplate: null,
    level: levelEdition1(product),
    validity: isProblem(validity) ? { kind: 'unknown' } : validity,
    ensemble: ensembleEdition1(product),
    derived: derivedEdition1(product),
    aspect: null,
    dataTypeCode: null,
    typeOfProcess: octet1(product, 6),
    packing,
    hasBitmap: bitmap !== null,
    grid: from.definition.grid,
    pointCount,
    support: obstacles.grid ?? obstacles.packing ?? obstacles.product,
    obstacles,
    location: {
      representation: placeOf(product),
      bitmap: bitmap === null ? null : placeOf(bitmap),
      data: placeOf(data),
    },
  };
}

const placeOf = ({ startIndex, lengthOctets }: SectionPlace): SectionPlace => ({ startIndex, lengthOctets });
