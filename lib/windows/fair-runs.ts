import type { BlockTable } from './window-table.ts';

/** Start slots that follow one another, both ends included. */
export interface Run {
  readonly firstSlot: number;
  readonly lastSlot: number;
}

/**
 * Runs of start slots whose scenarios weigh at least `neededWeight`, and not nothing.
 *
 * @param joins whether a fair slot belongs to the run of the fair slot before it; every one does unless told otherwise
 */
export function fairRuns(
  table: BlockTable,
  wanted: { readonly neededWeight: number; readonly fromSlot: number },
  joins: (i: number) => boolean = () => true,
): Run[] {
  const runs: Run[] = [];
  for (let i = wanted.fromSlot; i < table.weight.length; i++) {
    if (!isFair(table, wanted.neededWeight, i)) continue;
    const last = runs.at(-1);
    if (last?.lastSlot === i - 1 && joins(i)) runs[runs.length - 1] = { firstSlot: last.firstSlot, lastSlot: i };
    else runs.push({ firstSlot: i, lastSlot: i });
  }
  return runs;
}

function isFair(table: BlockTable, neededWeight: number, i: number): boolean {
  const weight = table.weight[i] ?? 0;
  return (table.referenceSlots[i] ?? 0) > 0 && weight > 0 && weight >= neededWeight - 1e-6;
}
