/** Section 5 of edition 2: how the values are packed. Templates not read are named. */
import type { Problem } from '../../result/index.ts';
import { WIDEST_BITS } from '../bits.ts';
import { packingName } from '../code-tables/template-names.ts';
import type { Packing, PackingMethod } from '../field.ts';
import { ccsdsObstacle } from './ccsds-coding.ts';
import { ieeeObstacle } from '../packing/ieee.ts';
import { secondOrderObstacleEdition2 } from '../packing/second-order/unpack.ts';
import { damaged, type MessagePlace, numberWords, tooManyPoints, tooShort, tooWide, unsupported } from '../problems.ts';
import { MOST_BINARY_FACTOR, MOST_DECIMAL_FACTOR } from '../scale.ts';
import { ieee4, octet1, octet2, octet4, type Section, signed2 } from '../section.ts';

/** A packing; `support` is null when its values can be unpacked. */
export interface Representation {
  readonly packing: Packing;
  readonly support: Problem | null;
}

/** A template read here. */
interface Template {
  readonly method: PackingMethod;
  /** Octets of Section 5. */
  readonly lengthOctets: number;
  /** What the template itself may hold that is not read. */
  readonly obstacle?: (place: MessagePlace, section: Section) => Problem | null;
}

/** Code table 5.0; 50001 and 50002 are local, of ECMWF and Météo-France. */
const TEMPLATES: ReadonlyMap<number, Template> = new Map<number, Template>([
  [0, { method: 'simple', lengthOctets: 21 }],
  [2, { method: 'complex', lengthOctets: 47, obstacle: complexObstacle }],
  [3, { method: 'complex', lengthOctets: 49, obstacle: complexObstacle }],
  [4, { method: 'ieee', lengthOctets: 12, obstacle: ieeeObstacle }],
  [40, { method: 'jpeg-2000', lengthOctets: 23 }],
  [41, { method: 'png', lengthOctets: 21 }],
  [42, { method: 'ccsds', lengthOctets: 25, obstacle: ccsdsObstacle }],
  [50_001, { method: 'second-order', lengthOctets: 20, obstacle: secondOrderObstacleEdition2 }],
  [50_002, { method: 'second-order', lengthOctets: 20, obstacle: secondOrderObstacleEdition2 }],
]);
/** Templates that begin with reference value, scale factors and bits, as 5.0 does. */
const BEGIN_LIKE_SIMPLE = [0, 2, 3, 40, 41, 42, 50_001, 50_002];

/** Reads Section 5. */
export function readRepresentation(place: MessagePlace, section: Section): Representation | Problem {
  const short = tooShort(place, section, 11);
  if (short !== null) return short;
  const packedCount = octet4(section, 6);
  const templateNumber = octet2(section, 10);
  const tooMany = tooManyPoints(place, { section, octet: 6 }, packedCount);
  if (tooMany !== null) return tooMany;
  const shortTemplate = tooShort(place, section, TEMPLATES.get(templateNumber)?.lengthOctets ?? 11);
  if (shortTemplate !== null) return shortTemplate;
  const packing = readPacking(section, { templateNumber, packedCount });
  return { packing, support: packingObstacle(place, section, packing) };
}

function readPacking(section: Section, read: { templateNumber: number; packedCount: number }): Packing {
  const isLikeSimple = BEGIN_LIKE_SIMPLE.includes(read.templateNumber) && section.lengthOctets >= 20;
  return {
    method: TEMPLATES.get(read.templateNumber)?.method ?? 'other',
    templateNumber: read.templateNumber,
    description: describe(section, read.templateNumber),
    bitsPerValue: isLikeSimple ? octet1(section, 20) : 0,
    decimalScaleFactor: isLikeSimple ? signed2(section, 18) : 0,
    binaryScaleFactor: isLikeSimple ? signed2(section, 16) : 0,
    referenceValue: isLikeSimple ? ieee4(section, 12) : 0,
    packedCount: read.packedCount,
  };
}

function describe(section: Section, templateNumber: number): string {
  const name = packingName(templateNumber);
  return templateNumber === 3 ? `${name}, order ${octet1(section, 48)}` : name;
}

function packingObstacle(place: MessagePlace, section: Section, packing: Packing): Problem | null {
  const templateNumber = octet2(section, 10);
  const template = TEMPLATES.get(templateNumber);
  if (template === undefined) return unsupportedTemplate(place, section, templateNumber);
  return scaleObstacle(place, section, packing) ?? template.obstacle?.(place, section) ?? null;
}

function unsupportedTemplate(place: MessagePlace, section: Section, templateNumber: number): Problem {
  return unsupported(place, {
    code: 'grib.packing-unsupported',
    section,
    octet: 10,
    table: 'GRIB2 code table 5.0 (data representation template)',
    value: templateNumber,
    name: packingName(templateNumber),
    expected: `one of the templates ${[...TEMPLATES.keys()].join(', ')}`,
    remedy:
      'Ask the source for simple packing, or convert the file: grib_set -r -s packingType=grid_simple in.grib2 out.grib2.',
  });
}

function scaleObstacle(place: MessagePlace, section: Section, packing: Packing): Problem | null {
  if (packing.bitsPerValue > WIDEST_BITS) return tooWide(place, { section, octet: 20 }, packing.bitsPerValue);
  const isSane =
    Number.isFinite(packing.referenceValue) &&
    Math.abs(packing.binaryScaleFactor) <= MOST_BINARY_FACTOR &&
    Math.abs(packing.decimalScaleFactor) <= MOST_DECIMAL_FACTOR;
  if (isSane) return null;
  const { referenceValue, binaryScaleFactor, decimalScaleFactor } = packing;
  return damaged(place, {
    code: 'grib.scale-impossible',
    section,
    octet: 12,
    what: `The reference value is ${numberWords(referenceValue)}, the binary factor ${binaryScaleFactor}, the decimal factor ${decimalScaleFactor}.`,
    expected: `a finite reference value, factors within ±${MOST_BINARY_FACTOR} and ±${MOST_DECIMAL_FACTOR}`,
  });
}

/** Codes of template 5.2 that this room reads: code tables 5.4 and 5.5. */
const COMPLEX_CODES = [
  { octet: 22, table: '5.4 (group splitting method)', accepted: [0, 1] },
  { octet: 23, table: '5.5 (missing value management)', accepted: [0, 1, 2] },
];

/** Code table 5.6 besides. Order 0, reserved in the table, is written by an encoder in use for data without differencing. */
const DIFFERENCED_CODES = [
  ...COMPLEX_CODES,
  { octet: 48, table: '5.6 (order of spatial differencing)', accepted: [0, 1, 2] },
  { octet: 49, table: 'Octets per extra descriptor', accepted: [0, 1, 2, 3, 4] },
];

/** `grib.packing-unsupported`: a reserved, local or missing code of templates 5.2 and 5.3. */
function complexObstacle(place: MessagePlace, section: Section): Problem | null {
  const checks = octet2(section, 10) === 3 ? DIFFERENCED_CODES : COMPLEX_CODES;
  const found = checks.find(({ octet, accepted }) => !accepted.includes(octet1(section, octet)));
  if (found === undefined) return null;
  return unsupported(place, {
    code: 'grib.packing-unsupported',
    section,
    octet: found.octet,
    table: found.table.startsWith('5') ? `GRIB2 code table ${found.table}` : found.table,
    value: octet1(section, found.octet),
    name: 'reserved, local or missing',
    expected: `one of ${found.accepted.join(', ')}`,
    remedy:
      'Ask the source for simple packing; if other programs read the file, it is a variant not met before: please report it.',
  });
}
