export { planText, solverText, type TextSettings } from './plan-text.ts';
export { readPlan } from './plan-file.ts';
export { planJsonSchema, windowsJsonSchema } from './published-schema.ts';
export { publishedWindows, type PublishedWindow, type PublishedWindows } from './windows-json.ts';
export { windowsText } from './windows-text.ts';
export { readOwnPlan } from './own-plan-file.ts';
export { publishedCheck } from './own-plan-json.ts';
export { ownPlanText } from './own-plan-text.ts';
export { planChanges, type ComparableJob, type ComparablePlan, type PlanChange } from './plan-changes.ts';
export { changeReasons, type ChangeReason } from './change-reasons.ts';
export { planCauses, planCausesText, type CausesWording, type KnownCauses, type PlanCause } from './plan-causes.ts';
export { readPlanToCompare } from './plan-changes-file.ts';
export {
  changeReasonText,
  comparedPlansText,
  jobNamesOf,
  planChangesText,
  type ChangesWording,
} from './plan-changes-text.ts';
export { differencesText, jobCardText, jobListText, proposalsText, totalMinutes } from './job-texts.ts';
export { exportNames, planCalendar, planCsv, planGpx, watchBillText, type ExportNames } from './export/index.ts';
export {
  deckSheet,
  type DeckSheet,
  deckSheetText,
  type NumberRow,
  type PartRow,
  type SheetFact,
  type SheetInput,
  type SheetRow,
} from './sheet/index.ts';
