/** WMO code table 4.7, derived forecast (FM 92 GRIB edition 2). */

const DERIVED: ReadonlyMap<number, string> = new Map([
  [0, 'unweighted mean of all members'],
  [1, 'weighted mean of all members'],
  [2, 'standard deviation about the cluster mean'],
  [3, 'normalised standard deviation about the cluster mean'],
  [4, 'spread of all members'],
  [5, 'large anomaly index'],
  [6, 'unweighted mean of the cluster members'],
  [7, 'interquartile range'],
  [8, 'minimum of all members'],
  [9, 'maximum of all members'],
]);

/** Name of a number in code table 4.7. */
export const derivedName = (code: number): string => DERIVED.get(code) ?? 'reserved or local';
