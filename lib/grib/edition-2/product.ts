/** Section 4 of edition 2: what the field is. Templates 4.0, 4.1, 4.2, 4.8, 4.11 and 4.12 are understood. */
import { isProblem } from '../is-problem.ts';
import type { Problem } from '../../result/index.ts';
import { derivedName } from '../code-tables/derived.ts';
import { productName } from '../code-tables/template-names.ts';
import type { DerivedForecast, EnsembleMember, FixedSurface, Level, Validity } from '../field.ts';
import { readInterval, startOfValidity } from './product-time.ts';
import { type MessagePlace, tooShort, unsupported } from '../problems.ts';
import { unscaleDecimal } from '../scale.ts';
import { octet1, octet2, type Section, signed1, signed4 } from '../section.ts';

/** A product; `support` is null when its meaning is known. */
export interface Product {
  readonly templateNumber: number;
  readonly category: number;
  readonly number: number;
  readonly level: Level;
  readonly validity: Validity;
  readonly ensemble: EnsembleMember | null;
  readonly derived: DerivedForecast | null;
  readonly typeOfProcess: number | null;
  readonly support: Problem | null;
}

/** What follows octet 34 in a template, and where its interval block begins. */
interface TemplateShape {
  readonly lengthOctets: number;
  readonly follows: 'nothing' | 'member' | 'derived';
  /** First octet of the end of the overall interval; null for templates at a point in time. */
  readonly intervalOctet: number | null;
}

const SHAPES: ReadonlyMap<number, TemplateShape> = new Map([
  [0, { lengthOctets: 34, follows: 'nothing', intervalOctet: null }],
  [1, { lengthOctets: 37, follows: 'member', intervalOctet: null }],
  [2, { lengthOctets: 36, follows: 'derived', intervalOctet: null }],
  [8, { lengthOctets: 58, follows: 'nothing', intervalOctet: 35 }],
  [11, { lengthOctets: 61, follows: 'member', intervalOctet: 38 }],
  [12, { lengthOctets: 60, follows: 'derived', intervalOctet: 37 }],
]);

/** Reads Section 4; `referenceEpochMs` from Section 1. */
export function readProduct(place: MessagePlace, section: Section, referenceEpochMs: number): Product | Problem {
  const short = tooShort(place, section, 11);
  if (short !== null) return short;
  const templateNumber = octet2(section, 8);
  const shape = SHAPES.get(templateNumber);
  if (shape === undefined) return notUnderstood(section, unsupportedTemplate(place, section, templateNumber));
  return tooShort(place, section, shape.lengthOctets) ?? understood(place, section, { shape, referenceEpochMs });
}

function understood(
  place: MessagePlace,
  section: Section,
  from: { shape: TemplateShape; referenceEpochMs: number },
): Product | Problem {
  const start = startOfValidity(place, section, from.referenceEpochMs);
  const validity: Validity | Problem =
    isProblem(start) || from.shape.intervalOctet === null
      ? start
      : readInterval(place, section, { start, octet: from.shape.intervalOctet });
  return {
    ...notUnderstood(section, null),
    level: readLevel(section),
    validity: isProblem(validity) ? { kind: 'unknown' } : validity,
    ensemble: from.shape.follows === 'member' ? readMember(section) : null,
    derived: from.shape.follows === 'derived' ? readDerived(section) : null,
    typeOfProcess: octet1(section, 12),
    support: isProblem(validity) ? validity : null,
  };
}

/** Octets 10 and 11 are the parameter in every template. */
const notUnderstood = (section: Section, support: Problem | null): Product => ({
  templateNumber: octet2(section, 8),
  category: octet1(section, 10),
  number: octet1(section, 11),
  level: { first: null, second: null },
  validity: { kind: 'unknown' },
  ensemble: null,
  derived: null,
  typeOfProcess: null,
  support,
});

function readLevel(section: Section): Level {
  return { first: readSurface(section, 23), second: readSurface(section, 29) };
}

/** Type, scale factor and scaled value; type 255 is no surface; an all-ones factor or value is no number. */
function readSurface(section: Section, octet: number): FixedSurface | null {
  const typeCode = octet1(section, octet);
  if (typeCode === 255) return null;
  const isMissing = octet1(section, octet + 1) === 0xff || section.view.getUint32(octet + 1) === 0xffff_ffff;
  if (isMissing) return { typeCode, value: null };
  return { typeCode, value: unscaleDecimal(signed4(section, octet + 2), signed1(section, octet + 1)) };
}

/** Octets 35 to 37: code table 4.6, perturbation number, members. Types 0 and 1 are controls, and so is number 0 of any other. */
function readMember(section: Section): EnsembleMember {
  const typeCode = octet1(section, 35);
  const perturbationNumber = octet1(section, 36);
  const isControl = typeCode <= 1 || perturbationNumber === 0;
  return { kind: isControl ? 'control' : 'perturbed', typeCode, perturbationNumber, memberCount: octet1(section, 37) };
}

/** Octets 35 and 36: code table 4.7, members. */
function readDerived(section: Section): DerivedForecast {
  const code = octet1(section, 35);
  return { code, name: derivedName(code), memberCount: octet1(section, 36) };
}

function unsupportedTemplate(place: MessagePlace, section: Section, templateNumber: number): Problem {
  return unsupported(place, {
    code: 'grib.product-unsupported',
    section,
    octet: 8,
    table: 'GRIB2 code table 4.0 (product definition template)',
    value: templateNumber,
    name: productName(templateNumber),
    expected: 'one of 0, 1, 2, 8, 11, 12',
    remedy:
      'Its values can be listed, but their meaning is not known, so plans do not use them. Ask for the plain forecast of the quantity.',
  });
}
