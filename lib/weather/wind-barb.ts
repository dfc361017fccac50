export interface WindBarb {
  readonly pennantCount: number;
  readonly fullCount: number;
  readonly halfCount: number;
  /** Drawn as a circle: less than 2.5 kn. */
  readonly calm: boolean;
}

/**
 * What a wind barb carries: pennants of 50, full feathers of 10 and half of 5 kn, rounded to the nearest 5 kn.
 *
 * WMO plotting convention, from memory.
 */
export function windBarb(windKn: number): WindBarb {
  const roundedKn = Math.round(windKn / 5) * 5;
  return {
    pennantCount: Math.floor(roundedKn / 50),
    fullCount: Math.floor((roundedKn % 50) / 10),
    halfCount: Math.floor((roundedKn % 10) / 5),
    calm: roundedKn === 0,
  };
}

/**
 * Side of the shaft that carries the feathers, seen by an observer with his back to the wind: the side of the lower
 * pressure (Buys Ballot), left in the northern hemisphere, right in the southern. The equator counts as northern.
 */
export function barbSide(latDeg: number): 'left' | 'right' {
  return latDeg >= 0 ? 'left' : 'right';
}
