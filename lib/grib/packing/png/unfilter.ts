/** Filters of PNG rows (ISO/IEC 15948, clause 9): each octet was predicted from the one before, the one above, or both. */

import { READ_AHEAD_OCTETS } from '../../bits.ts';

/** Octets of a row without its filter octet, and of a point (at least 1). */
export interface RowShape {
  readonly rowOctets: number;
  readonly pointOctets: number;
}

/**
 * Rows without filters, one after another, with room to read ahead; null when a filter is unknown. `filtered` holds whole
 * rows, and is used up: rows move forward in its own memory, over the filters of those before them.
 */
export function unfilter(filtered: Uint8Array, shape: RowShape): Uint8Array | null {
  const rowCount = filtered.length / (shape.rowOctets + 1);
  const rows = withRoomToReadAhead(filtered, rowCount);
  for (let row = 0; row < rowCount; row++) {
    const fromIndex = row * (shape.rowOctets + 1);
    const toIndex = row * shape.rowOctets;
    const filter = rows[fromIndex] ?? 0;
    if (filter > 4) return null;
    rows.copyWithin(toIndex, fromIndex + 1, fromIndex + 1 + shape.rowOctets);
    // Above the first row lie zeros: up changes nothing, average is half of the left, and Paeth is the left.
    if (filter === 1 || (filter === 4 && row === 0)) addLeft(rows, toIndex, shape);
    else if (filter === 2 && row > 0) addUp(rows, toIndex, shape);
    else if (filter === 3) addAverage(rows, toIndex, { ...shape, hasRowAbove: row > 0 });
    else if (filter === 4) addPaeth(rows, toIndex, shape);
  }
  return rows;
}

/** The filters of a few rows leave room enough behind the rows. */
function withRoomToReadAhead(filtered: Uint8Array, rowCount: number): Uint8Array {
  if (rowCount >= READ_AHEAD_OCTETS) return filtered;
  const longer = new Uint8Array(filtered.length + READ_AHEAD_OCTETS);
  longer.set(filtered);
  return longer;
}

function addLeft(rows: Uint8Array, startIndex: number, { rowOctets, pointOctets }: RowShape): void {
  const endIndex = startIndex + rowOctets;
  for (let i = startIndex + pointOctets; i < endIndex; i++) rows[i] = (rows[i] ?? 0) + (rows[i - pointOctets] ?? 0);
}

function addUp(rows: Uint8Array, startIndex: number, { rowOctets }: RowShape): void {
  const endIndex = startIndex + rowOctets;
  for (let i = startIndex; i < endIndex; i++) rows[i] = (rows[i] ?? 0) + (rows[i - rowOctets] ?? 0);
}

function addAverage(rows: Uint8Array, startIndex: number, shape: RowShape & { readonly hasRowAbove: boolean }): void {
  const { rowOctets, pointOctets, hasRowAbove } = shape;
  const endIndex = startIndex + rowOctets;
  for (let i = startIndex; i < endIndex; i++) {
    const left = i - pointOctets < startIndex ? 0 : (rows[i - pointOctets] ?? 0);
    const up = hasRowAbove ? (rows[i - rowOctets] ?? 0) : 0;
    rows[i] = (rows[i] ?? 0) + ((left + up) >> 1);
  }
}

/** Clause 9.4: of left, up and up-left the one nearest to left + up − up-left; ties go to the first. */
function addPaeth(rows: Uint8Array, startIndex: number, { rowOctets, pointOctets }: RowShape): void {
  const firstEnd = Math.min(startIndex + pointOctets, startIndex + rowOctets);
  // Left of the row lie zeros, so that the prediction is the octet above.
  for (let i = startIndex; i < firstEnd; i++) rows[i] = (rows[i] ?? 0) + (rows[i - rowOctets] ?? 0);
  const endIndex = startIndex + rowOctets;
  for (let i = firstEnd; i < endIndex; i++) {
    const left = rows[i - pointOctets] ?? 0;
    const up = rows[i - rowOctets] ?? 0;
    const upLeft = rows[i - rowOctets - pointOctets] ?? 0;
    const fromLeft = up > upLeft ? up - upLeft : upLeft - up;
    const fromUp = left > upLeft ? left - upLeft : upLeft - left;
    const both = left + up - 2 * upLeft;
    const fromUpLeft = both < 0 ? -both : both;
    const predicted = fromLeft <= fromUp && fromLeft <= fromUpLeft ? left : fromUp <= fromUpLeft ? up : upLeft;
    rows[i] = (rows[i] ?? 0) + predicted;
  }
}
