/** Splits a run of whole numbers into groups that are cheap to pack: neighbours of like size share a reference and a width. */
import { bitsNeeded } from './bit-writer.ts';

/** Numbers from `fromIndex` up to `toIndex`, exclusive. `reference` is the least of them, `spanCount` the distance from it to the greatest. */
export interface PackGroup {
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly reference: number;
  readonly spanCount: number;
}

/** Length of the pieces that are joined to groups. */
const PIECE_COUNT = 8;
/** Rough cost of a group's reference, width and length. */
const GROUP_HEAD_BITS = 22;

/**
 * Joins pieces from left to right as long as that saves bits: a new piece joins the group before it, which may then
 * join the one before that. Not the optimum, but within a few per cent and linear in time.
 */
export function splitGroups(numbers: Float64Array): PackGroup[] {
  const groups: PackGroup[] = [];
  for (let fromIndex = 0; fromIndex < numbers.length; fromIndex += PIECE_COUNT) {
    let group = piece(numbers, fromIndex);
    let before = groups.at(-1);
    while (before !== undefined && bitsOf(join(before, group)) <= bitsOf(before) + bitsOf(group)) {
      group = join(before, group);
      groups.pop();
      before = groups.at(-1);
    }
    groups.push(group);
  }
  return groups;
}

function piece(numbers: Float64Array, fromIndex: number): PackGroup {
  const toIndex = Math.min(fromIndex + PIECE_COUNT, numbers.length);
  let [least, greatest] = [Infinity, -Infinity];
  for (let i = fromIndex; i < toIndex; i++) {
    least = Math.min(least, numbers[i] ?? 0);
    greatest = Math.max(greatest, numbers[i] ?? 0);
  }
  return { fromIndex, toIndex, reference: least, spanCount: greatest - least };
}

function join(left: PackGroup, right: PackGroup): PackGroup {
  const reference = Math.min(left.reference, right.reference);
  const greatest = Math.max(left.reference + left.spanCount, right.reference + right.spanCount);
  return { fromIndex: left.fromIndex, toIndex: right.toIndex, reference, spanCount: greatest - reference };
}

/** Bits per number of a group. */
export const groupWidthBits = (group: PackGroup): number => bitsNeeded(group.spanCount);

const bitsOf = (group: PackGroup): number =>
  GROUP_HEAD_BITS + groupWidthBits(group) * (group.toIndex - group.fromIndex);
