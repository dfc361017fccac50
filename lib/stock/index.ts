export type { Locker, LockerItem } from './locker.ts';
export { materialsShort, type MaterialShort, type Need } from './materials.ts';
export { STITCH_RATES, type StitchRate } from './stitch-rates.table.ts';
export {
  needleCount,
  needlefulCount,
  needleMinutes,
  patchAreaM2,
  stitchCount,
  stitchRate,
  twineM,
  type Seam,
  type StitchGeometry,
} from './stitching.ts';
