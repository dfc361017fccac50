/** Section 4 of edition 2: what the field is. The templates of `product-shapes.ts` are understood. */
import { isProblem } from '../is-problem.ts';
import type { Problem } from '../../result/index.ts';
import { derivedName } from '../code-tables/product-names.ts';
import { productName } from '../code-tables/template-names.ts';
import type { Aspect, DerivedForecast, EnsembleMember, FixedSurface, Level, Validity } from '../field.ts';
import { readAspect, readScaled } from './product-aspect.ts';
import { TEMPLATE_SHAPES, type TemplateShape } from './product-shapes.ts';
import { readInterval, startOfValidity } from './product-time.ts';
import { type MessagePlace, tooShort, unsupported } from '../problems.ts';
import { octet1, octet2, octet4, type Section } from '../section.ts';

/** A product; `support` is null when its meaning is known. */
export interface Product {
  readonly templateNumber: number;
  readonly category: number;
  readonly number: number;
  readonly level: Level;
  readonly validity: Validity;
  readonly ensemble: EnsembleMember | null;
  readonly derived: DerivedForecast | null;
  readonly aspect: Aspect | null;
  readonly typeOfProcess: number | null;
  readonly support: Problem | null;
}

/** Reads Section 4; `referenceEpochMs` from Section 1. */
export function readProduct(place: MessagePlace, section: Section, referenceEpochMs: number): Product | Problem {
  const short = tooShort(place, section, 11);
  if (short !== null) return short;
  const templateNumber = octet2(section, 8);
  const shape = TEMPLATE_SHAPES.get(templateNumber);
  if (shape === undefined) return notUnderstood(section, unsupportedTemplate(place, section, templateNumber));
  return tooShort(place, section, shape.lengthOctets) ?? understood(place, section, { shape, referenceEpochMs });
}

function understood(
  place: MessagePlace,
  section: Section,
  from: { shape: TemplateShape; referenceEpochMs: number },
): Product | Problem {
  const { shape, referenceEpochMs } = from;
  const start = startOfValidity(place, section, { octet: 18 + shape.insertedOctets, referenceEpochMs });
  const validity: Validity | Problem =
    isProblem(start) || shape.intervalOctet === null
      ? start
      : readInterval(place, section, { start, octet: shape.intervalOctet });
  return {
    ...notUnderstood(section, null),
    level: readLevel(section, 23 + shape.insertedOctets),
    validity: isProblem(validity) ? { kind: 'unknown' } : validity,
    ensemble: shape.memberOctet === null ? null : readMember(section, shape.memberOctet, shape.memberNumberOctets),
    derived: shape.derivedOctet === null ? null : readDerived(section, shape.derivedOctet),
    aspect: shape.aspect === null ? null : readAspect(section, shape.aspect),
    typeOfProcess: octet1(section, 12 + shape.insertedOctets),
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
  aspect: null,
  typeOfProcess: null,
  support,
});

const readLevel = (section: Section, octet: number): Level => ({
  first: readSurface(section, octet),
  second: readSurface(section, octet + 6),
});

/** Type, scale factor and scaled value; type 255 is no surface. */
function readSurface(section: Section, octet: number): FixedSurface | null {
  const typeCode = octet1(section, octet);
  return typeCode === 255 ? null : { typeCode, value: readScaled(section, octet + 1) };
}

/**
 * Code table 4.6, perturbation number, members. Types 0 and 1 say control, 2 and 3 perturbed. All others say nothing
 * (reserved, local, missing): centres that write them number their control 0 and their members from 1.
 */
function readMember(section: Section, octet: number, widthOctets: 1 | 4): EnsembleMember {
  const typeCode = octet1(section, octet);
  const numberAt = widthOctets === 1 ? octet1 : octet4;
  const perturbationNumber = numberAt(section, octet + 1);
  const isControl = typeCode <= 1 || (typeCode > 3 && perturbationNumber === 0);
  const memberCount = numberAt(section, octet + 1 + widthOctets);
  return { kind: isControl ? 'control' : 'perturbed', typeCode, perturbationNumber, memberCount };
}

/** Code table 4.7, members. */
function readDerived(section: Section, octet: number): DerivedForecast {
  const code = octet1(section, octet);
  return { code, name: derivedName(code), memberCount: octet1(section, octet + 1) };
}

function unsupportedTemplate(place: MessagePlace, section: Section, templateNumber: number): Problem {
  return unsupported(place, {
    code: 'grib.product-unsupported',
    section,
    octet: 8,
    table: 'GRIB2 code table 4.0 (product definition template)',
    value: templateNumber,
    name: productName(templateNumber),
    expected: `one of ${[...TEMPLATE_SHAPES.keys()].join(', ')}`,
    remedy:
      'Its values can be listed, but their meaning is not known, so plans do not use them. Ask for the plain forecast of the quantity.',
  });
}
