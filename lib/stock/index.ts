export {
  freeAmount,
  itemKey,
  LOCKER_ITEM_DEFAULTS,
  LOCKER_KINDS,
  LOCKER_LIMITS,
  PIECES,
  type Locker,
  type LockerItem,
  type LockerKind,
} from './locker/locker.ts';
export { lockerProblems, type LockerPlaces } from './locker/check-locker.ts';
export { barsOf, type LockerBar } from './locker/bars.ts';
export { readLockerCsv } from './locker/read-locker-csv.ts';
export { lockerCsv } from './locker/write-locker-csv.ts';
export { lockerChanges, type LockerChange } from './locker/locker-changes.ts';
export { lotsOf, takeFrom, type Lot, type MaterialShort, type Need, type Taking } from './lots.ts';
export { materialsShort } from './materials.ts';
export { battenLengthMm, type LengthRange, type LengthRule } from './battens/batten-length.ts';
export { joinLengthMm, sleeveBoreMm, type JoinKind, type JoinLength } from './battens/joins.ts';
export {
  bendingStiffnessNM2,
  leastBendRadiusM,
  massPerMetreG,
  PAIR_STIFFNESS_RATIO,
  sagMm,
  type BattenSection,
} from './battens/section.ts';
export { clothProblems, seamFigureProblems, type SeamFigure } from './sewing/check-seam.ts';
export { gPerM2FromSailmakersOunces, sailmakersOuncesFromGPerM2 } from './sewing/cloth-weight.ts';
export {
  minutesWithPaceLoss,
  PACE_LOSS,
  sewingTime,
  USUAL_RHYTHM,
  type SewingRhythm,
  type SewingTime,
} from './sewing/pace-loss.ts';
export {
  clothAreaM2,
  edgeM,
  edgeSeam,
  glueKg,
  PATCH_OVERLAP_MM,
  PATCH_STEP_M,
  patchAreaM2,
  patchCloths,
  patchStuff,
  usualEdgeRowCount,
  type Patch,
  type PatchCloth,
  type PatchStuff,
} from './sewing/patch.ts';
export { needleMinutes, ownStitchRate, SEAM_FINISH, SEAM_SET_UP, stitchRate, type Seam } from './sewing/seam.ts';
export { seamWork, type SeamPlan, type SeamWork } from './sewing/seam-work.ts';
export { STITCH_RATES, type StitchRate } from './sewing/stitch-rates.table.ts';
export {
  lockCount,
  needleCount,
  needlefulCount,
  piercesPerInchCount,
  stitchCount,
  threadRatio,
  twineM,
  USUAL_PITCH_MM,
  USUAL_STITCH,
  USUAL_WIDTH_MM,
  type StitchGeometry,
} from './sewing/stitches.ts';
export { rateMinutes, type MinutesEstimate, type RateWork } from './sewing/work-time.ts';
export type { CutRequest, StockLine, WantedPiece } from './cutting/cut-request.ts';
export { cuttingFile, type CuttingFile } from './cutting/cut-file.ts';
export { cutProblems } from './cutting/cut-problems.ts';
export { cutRequestOf, readCutFile } from './cutting/read-cut-file.ts';
export { cutPlan, type CutPlan, type PlannedBar, type PlannedCut } from './cutting/cut-plan.ts';
export { cutSheet, type SheetSection } from './cutting/cut-sheet.ts';
export { publishedCutPlan } from './cutting/published-cut-plan.ts';
