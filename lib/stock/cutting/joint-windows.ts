/** Where the end of a joint may lie on a piece, both ends included. */
export interface JointWindow {
  readonly leastQuanta: number;
  readonly mostQuanta: number;
}

/**
 * Windows of a joint's end: a joint that ends at c lies on [c - overlap, c] and may touch a zone's edge, not enter it.
 *
 * @param zones from … to, in any order, may overlap one another; one without length forbids nothing but being spanned
 * @returns windows in order, apart from one another
 */
export function jointWindows(
  lengthQuanta: number,
  overlapQuanta: number,
  zones: readonly (readonly [fromQuanta: number, toQuanta: number])[],
): readonly JointWindow[] {
  const windows: JointWindow[] = [];
  let leastQuanta = overlapQuanta;
  for (const [fromQuanta, toQuanta] of zones.toSorted((a, b) => a[0] - b[0])) {
    // A joint that ends in (from, to + overlap) would lie in the zone.
    if (fromQuanta >= leastQuanta) windows.push({ leastQuanta, mostQuanta: Math.min(fromQuanta, lengthQuanta) });
    leastQuanta = Math.max(leastQuanta, toQuanta + overlapQuanta);
  }
  windows.push({ leastQuanta, mostQuanta: lengthQuanta });
  return windows.filter((window) => window.leastQuanta <= window.mostQuanta);
}
