/** How fast one row is sewn by hand, and with which needle. */
export interface StitchRate {
  readonly cloth: string;
  readonly name: string;
  readonly slowMPerH: number;
  readonly likelyMPerH: number;
  readonly fastMPerH: number;
  /** Diameter of the needle. Its number is no safe figure: makers count both ways. */
  readonly needleLeastMm: number;
  readonly needleMostMm: number;
  readonly provenance: string;
}

const PRACTICE = 'common practice, no source';

/** Metres of one herringbone row per hour, one person, by cloth; the first is the check value of a foot an hour. */
export const STITCH_RATES: readonly StitchRate[] = [
  {
    cloth: 'tough-laminate',
    name: 'Tough laminate or many layers',
    slowMPerH: 0.2,
    likelyMPerH: 0.3,
    fastMPerH: 0.45,
    needleLeastMm: 1.6,
    needleMostMm: 2,
    provenance: `${PRACTICE}: about a foot an hour, one stitch a minute at 5 mm`,
  },
  {
    cloth: 'drilled-laminate',
    name: 'Laminate with holes drilled first',
    slowMPerH: 0.3,
    likelyMPerH: 0.45,
    fastMPerH: 0.6,
    needleLeastMm: 1.4,
    needleMostMm: 1.8,
    provenance: PRACTICE,
  },
  {
    cloth: 'woven-heavy',
    name: 'Woven polyester 300-400 g/m², two layers',
    slowMPerH: 0.4,
    likelyMPerH: 0.6,
    fastMPerH: 0.9,
    needleLeastMm: 1.2,
    needleMostMm: 1.6,
    provenance: PRACTICE,
  },
  {
    cloth: 'woven-light',
    name: 'Woven polyester 170-260 g/m²',
    slowMPerH: 0.7,
    likelyMPerH: 1,
    fastMPerH: 1.5,
    needleLeastMm: 1,
    needleMostMm: 1.3,
    provenance: PRACTICE,
  },
  {
    cloth: 'spinnaker-nylon',
    name: 'Spinnaker nylon, taped first',
    slowMPerH: 1.2,
    likelyMPerH: 2,
    fastMPerH: 3,
    needleLeastMm: 0.8,
    needleMostMm: 1,
    provenance: PRACTICE,
  },
  {
    cloth: 'old-holes',
    name: 'A seam through its old needle holes',
    slowMPerH: 0.5,
    likelyMPerH: 0.8,
    fastMPerH: 1.2,
    needleLeastMm: 1.2,
    needleMostMm: 1.6,
    provenance: PRACTICE,
  },
  {
    cloth: 'webbing',
    name: 'Webbing through a corner patch',
    slowMPerH: 0.15,
    likelyMPerH: 0.25,
    fastMPerH: 0.4,
    needleLeastMm: 2,
    needleMostMm: 2,
    provenance: PRACTICE,
  },
];
