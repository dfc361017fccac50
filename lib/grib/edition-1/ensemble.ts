/** Ensemble member of edition 1. Section 1 has no octets for it; two centres describe theirs in its local part. */
import type { DerivedForecast, EnsembleMember } from '../field.ts';
import { octet1, type Section } from '../section.ts';

const ECMWF = 98;
/** Local use of centre 98: MARS labelling of ensemble forecasts, 52 octets. */
const MARS_LABELLING = 1;
const MARS_LENGTH_OCTETS = 52;
/** MARS type 10: control forecast. */
const MARS_CONTROL = 10;

const NCEP = 7;
/** Local use of centre 7: ensemble, octets 41 to 45. */
const NCEP_ENSEMBLE = 1;
const NCEP_LENGTH_OCTETS = 45;
/** Octet 42: an unperturbed control (1), one of a pair (2 negative, 3 positive); 4 and 5 are clusters and the whole. */
const NCEP_CONTROL = 1;
const NCEP_PERTURBED: readonly number[] = [2, 3];
/** Octet 44: the forecast itself; other numbers are means and deviations. */
const NCEP_FULL_FIELD = 1;

/**
 * Member of an ensemble, or null. Centre 98 writes number and total into octets 50 and 51 of its local use, definition 1;
 * a total of 0 is no ensemble. Centre 7 writes type and number into octets 42 and 43; the type is given as in code table
 * 4.6, and the size of the ensemble is not coded (0). Octets as in definitions/grib1/local.98.1.def and local.7.1.def of
 * ecCodes 2.28.
 */
export function ensembleEdition1(section: Section): EnsembleMember | null {
  if (isNcepEnsemble(section)) return isNcepDerived(section) ? null : ncepMember(section);
  const isLabelled =
    octet1(section, 5) === ECMWF &&
    section.lengthOctets >= MARS_LENGTH_OCTETS &&
    octet1(section, 41) === MARS_LABELLING;
  if (!isLabelled || octet1(section, 51) === 0) return null;
  const typeCode = octet1(section, 43);
  const perturbationNumber = octet1(section, 50);
  const isControl = typeCode === MARS_CONTROL || perturbationNumber === 0;
  return { kind: isControl ? 'control' : 'perturbed', typeCode, perturbationNumber, memberCount: octet1(section, 51) };
}

/** A field of centre 7 computed from all members or a cluster: its mean, deviation or probability. */
export function derivedEdition1(section: Section): DerivedForecast | null {
  if (!isNcepEnsemble(section) || !isNcepDerived(section)) return null;
  return { code: octet1(section, 44), name: 'computed from several members (local)', memberCount: 0 };
}

const isNcepEnsemble = (section: Section): boolean =>
  octet1(section, 5) === NCEP && section.lengthOctets >= NCEP_LENGTH_OCTETS && octet1(section, 41) === NCEP_ENSEMBLE;

const isNcepDerived = (section: Section): boolean =>
  ![NCEP_CONTROL, ...NCEP_PERTURBED].includes(octet1(section, 42)) || octet1(section, 44) !== NCEP_FULL_FIELD;

function ncepMember(section: Section): EnsembleMember {
  const type = octet1(section, 42);
  const perturbationNumber = octet1(section, 43);
  if (type !== NCEP_CONTROL) return { kind: 'perturbed', typeCode: type, perturbationNumber, memberCount: 0 };
  // Controls are numbered 1 (high resolution) and 2 (low), table 4.6 numbers them 0 and 1.
  return { kind: 'control', typeCode: perturbationNumber - 1, perturbationNumber, memberCount: 0 };
}
