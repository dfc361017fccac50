/**
 * Where the octets of Section 4 stand: WMO-No. 306, Volume I.2, product definition templates 4.0 to 4.118, those that are
 * understood. All begin like template 4.0; 4.103 and 4.104 put a band of wave periods before octet 12 of it.
 */
import type { Aspect } from '../field.ts';

/** Octets of a template; where a block is null the template has none. */
export interface TemplateShape {
  /** Octets with one time range. */
  readonly lengthOctets: number;
  /** Octets inserted after octet 11 of template 4.0. */
  readonly insertedOctets: number;
  /** First octet of type of ensemble, number and size. */
  readonly memberOctet: number | null;
  /** Octets that hold the number of a member, and as many the size of the ensemble. */
  readonly memberNumberOctets: 1 | 4;
  /** Octet of code table 4.7. */
  readonly derivedOctet: number | null;
  readonly aspect: { readonly kind: Aspect['kind']; readonly octet: number } | null;
  /** First octet of the end of the overall interval; null for templates at a point in time. */
  readonly intervalOctet: number | null;
}

const plain: Omit<TemplateShape, 'lengthOctets'> = {
  insertedOctets: 0,
  memberOctet: null,
  memberNumberOctets: 1,
  derivedOctet: null,
  aspect: null,
  intervalOctet: null,
};
const largeEnsemble = { ...plain, memberOctet: 35, memberNumberOctets: 4 } as const;
const wavePeriods = { ...plain, insertedOctets: 11, aspect: { kind: 'wave-periods', octet: 12 } } as const;

/** By template number. */
export const TEMPLATE_SHAPES: ReadonlyMap<number, TemplateShape> = new Map([
  [0, { ...plain, lengthOctets: 34 }],
  [1, { ...plain, lengthOctets: 37, memberOctet: 35 }],
  [2, { ...plain, lengthOctets: 36, derivedOctet: 35 }],
  [5, { ...plain, lengthOctets: 47, aspect: { kind: 'probability', octet: 35 } }],
  [6, { ...plain, lengthOctets: 35, aspect: { kind: 'percentile', octet: 35 } }],
  [7, { ...plain, lengthOctets: 34, aspect: { kind: 'error', octet: 12 } }],
  [8, { ...plain, lengthOctets: 58, intervalOctet: 35 }],
  [9, { ...plain, lengthOctets: 71, aspect: { kind: 'probability', octet: 35 }, intervalOctet: 48 }],
  [10, { ...plain, lengthOctets: 59, aspect: { kind: 'percentile', octet: 35 }, intervalOctet: 36 }],
  [11, { ...plain, lengthOctets: 61, memberOctet: 35, intervalOctet: 38 }],
  [12, { ...plain, lengthOctets: 60, derivedOctet: 35, intervalOctet: 37 }],
  [15, { ...plain, lengthOctets: 37, aspect: { kind: 'area', octet: 35 } }],
  [60, { ...plain, lengthOctets: 44, memberOctet: 35, aspect: { kind: 'reforecast', octet: 38 } }],
  [61, { ...plain, lengthOctets: 68, memberOctet: 35, aspect: { kind: 'reforecast', octet: 38 }, intervalOctet: 45 }],
  [103, { ...wavePeriods, lengthOctets: 45 }],
  [104, { ...wavePeriods, lengthOctets: 48, memberOctet: 46 }],
  [117, { ...largeEnsemble, lengthOctets: 43 }],
  [118, { ...largeEnsemble, lengthOctets: 67, intervalOctet: 44 }],
] as const);
