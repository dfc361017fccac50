/** Finds the least value between two slots, both included, in the same time however far apart they are. */
export type RangeLeast = (fromSlot: number, toSlot: number) => number;

/**
 * Index of the least value of any range of a row, the first of equals: a table of the least of every run of 1, 2, 4 …
 * slots, two of which cover any range.
 *
 * @param values without NaN; Infinity where there is none
 */
export function rangeLeast(values: Float64Array): RangeLeast {
  const levels = [Int32Array.from(values.keys())];
  for (let runSlots = 2; runSlots <= values.length; runSlots *= 2) {
    const shorter = levels.at(-1);
    if (shorter === undefined) break;
    const level = new Int32Array(values.length - runSlots + 1);
    for (let i = 0; i < level.length; i++) {
      level[i] = lesser(values, shorter[i] ?? 0, shorter[i + runSlots / 2] ?? 0);
    }
    levels.push(level);
  }
  return (fromSlot, toSlot) => {
    const toLast = Math.min(toSlot, values.length - 1);
    const levelIndex = 31 - Math.clz32(toLast - fromSlot + 1);
    const level = levels[levelIndex];
    if (level === undefined) throw new Error(`no slots from ${fromSlot} to ${toSlot}`);
    return lesser(values, level[fromSlot] ?? 0, level[toLast - (1 << levelIndex) + 1] ?? 0);
  };
}

/** The slot of the lesser of two values; of equals the first given, which is the earlier. */
const lesser = (values: Float64Array, earlierSlot: number, laterSlot: number): number =>
  (values[laterSlot] ?? 0) < (values[earlierSlot] ?? 0) ? laterSlot : earlierSlot;
