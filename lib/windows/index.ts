export { FACTOR_IDS, type FactorId, type StepFactors } from './step-factors.ts';
export type { SparseTable } from './block-table.ts';
export type { BlockTable, BlockWork, LookoutSettings, SlotSpan, TableSettings } from './window-table.ts';
export { lookBackSlots, sparseTable, wholeBlockMin } from './block-table.ts';
export type { BlockWindow, JobWindows, WindowSearch } from './find-windows.ts';
export { blockMargins, blockSailStates, findWindows, totalWeight, workingSailState } from './find-windows.ts';
export type { LimitId, LimitRule, LimitValues, WorkedStep } from './limit-rule.ts';
export { LIMIT_IDS } from './limit-rule.ts';
export { limitRules } from './limit-rules.ts';
export { steepnessRows } from './limit-values.ts';
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
export { lookoutAt } from './slot-facts.ts';
export { scanStep } from './step-scan.ts';
