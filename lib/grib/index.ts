/** GRIB files of editions 1 and 2: octets to fields, and back for samples. */
export { decodeField, decodePacked } from './decode.ts';
export type {
  DerivedForecast,
  EnsembleMember,
  FieldLocation,
  FixedSurface,
  GribField,
  GribScan,
  Level,
  Obstacles,
  Packing,
  Parameter,
  ParameterEdition1,
  ParameterEdition2,
  Statistic,
  Validity,
} from './field.ts';
export type { FieldGrid, RegularLatLonGrid, UnsupportedGrid } from './grid.ts';
export { gridPositions, type GridPositions, type NorthUpGrid, toNorthUpGrid } from './north-up.ts';
export { scanGrib } from './scan.ts';
export type { GribMessageSpec, WrittenGrid, WrittenValidity } from './write/spec.ts';
export { writeGrib2Message } from './write/write-message.ts';
export {
  formatGrid,
  formatLevel,
  formatMember,
  formatPacking,
  formatParameter,
  formatParameterCode,
  formatProductTemplate,
  formatValidity,
  unitOfParameter,
} from './listing.ts';
