/** GRIB files of editions 1 and 2: octets to fields, and back for samples. */
export { countMissing } from './count-missing.ts';
export { decodeField, decodePacked } from './decode.ts';
export { decodePart } from './decode-part.ts';
export type {
  Aspect,
  DerivedForecast,
  EnsembleMember,
  FieldLocation,
  FixedSurface,
  GribField,
  GribScan,
  Level,
  Limits,
  Obstacles,
  Packing,
  PackingMethod,
  Parameter,
  ParameterEdition1,
  ParameterEdition2,
  Statistic,
  TimeRange,
  Validity,
} from './field.ts';
export type { FieldGrid, LatLon, PlacedGrid, RegularLatLonGrid, UnsupportedGrid } from './grid.ts';
export {
  eastAngleDeg,
  EDGE_TOLERANCE_RATIO,
  type FrameIndex,
  type GaussianFrame,
  type GridFrame,
  indexOfPlace,
  type LatLonFrame,
  type MercatorFrame,
  positionAt,
  toIndex,
} from './grids/frame.ts';
export { type FramePart, partOfFrame } from './grids/frame-part.ts';
export { frameOfGrid } from './grids/frame-of-grid.ts';
export { gridPositions, type GridPositions } from './grids/grid-positions.ts';
export { type NorthUpGrid, toNorthUpGrid } from './grids/north-up.ts';
export { scanGrib } from './scan.ts';
export { headerReader } from './write/copied-headers.ts';
export type { CopiedHeaders, GribMessageSpec, WrittenGrid, WrittenValidity } from './write/spec.ts';
export { writeGrib2File, writeGrib2Message } from './write/write-message.ts';
export {
  formatGrid,
  formatLevel,
  formatMember,
  formatPacking,
  formatParameter,
  formatParameterCode,
  formatProcess,
  formatProductTemplate,
  formatValidity,
  unitOfParameter,
} from './listing.ts';
