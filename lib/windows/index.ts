export type { BlockTable, BlockWork, SlotSpan, SparseTable, TableSettings } from './block-table.ts';
export { sparseTable, wholeBlockMin } from './block-table.ts';
export type { BlockWindow, JobWindows, WindowSearch } from './find-windows.ts';
export { blockMargins, blockSailStates, findWindows, totalWeight, workingSailState } from './find-windows.ts';
export type { LimitId, LimitRule, WorkedStep } from './limit-rules.ts';
export { LIMIT_IDS } from './limit-rules.ts';
export type { LimitMargin } from './margins.ts';
export {
  fullMask,
  hasBit,
  intersect,
  isSubset,
  maskWordCount,
  setOfTable,
  weightOf,
  weightOfBoth,
} from './scenario-mask.ts';
export { quantileAt, scenarioMedians, scenarioQuantiles } from './scenario-medians.ts';
