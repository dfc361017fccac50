/**
 * Names of grid, packing and product templates, for messages about those not read. Edition 2: WMO Manual on Codes,
 * No. 306, Volume I.2, code tables 3.1, 4.0, 5.0; edition 1: FM 92-VIII code table 6. Shortened.
 */

const GRIDS_EDITION_2: ReadonlyMap<number, string> = new Map([
  [0, 'latitude/longitude'],
  [1, 'rotated latitude/longitude'],
  [2, 'stretched latitude/longitude'],
  [3, 'stretched and rotated latitude/longitude'],
  [4, 'variable-resolution latitude/longitude'],
  [5, 'variable-resolution rotated latitude/longitude'],
  [10, 'Mercator'],
  [12, 'transverse Mercator'],
  [20, 'polar stereographic'],
  [30, 'Lambert conformal'],
  [31, 'Albers equal-area'],
  [40, 'Gaussian latitude/longitude'],
  [41, 'rotated Gaussian latitude/longitude'],
  [50, 'spherical harmonic coefficients'],
  [90, 'space view'],
  [100, 'triangular, based on an icosahedron'],
  [101, 'unstructured'],
  [140, 'Lambert azimuthal equal-area'],
  [150, 'HEALPix'],
  [204, 'curvilinear orthogonal'],
  [32768, 'rotated Arakawa staggered (local, NCEP)'],
]);

const GRIDS_EDITION_1: ReadonlyMap<number, string> = new Map([
  [0, 'latitude/longitude'],
  [1, 'Mercator'],
  [2, 'gnomonic'],
  [3, 'Lambert conformal'],
  [4, 'Gaussian latitude/longitude'],
  [5, 'polar stereographic'],
  [10, 'rotated latitude/longitude'],
  [14, 'rotated Gaussian latitude/longitude'],
  [20, 'stretched latitude/longitude'],
  [30, 'stretched and rotated latitude/longitude'],
  [50, 'spherical harmonic coefficients'],
  [90, 'space view'],
]);

const PACKINGS: ReadonlyMap<number, string> = new Map([
  [0, 'simple'],
  [1, 'matrix of values, simple'],
  [2, 'complex'],
  [3, 'complex with spatial differencing'],
  [4, 'IEEE floating point'],
  [40, 'JPEG 2000'],
  [41, 'PNG'],
  [42, 'CCSDS lossless compression'],
  [50, 'spectral, simple'],
  [51, 'spectral, complex'],
  [53, 'spectral for limited areas, complex'],
  [61, 'simple with logarithm pre-processing'],
  [200, 'run length'],
  [40000, 'JPEG 2000 (old number)'],
  [40010, 'PNG (old number)'],
  [50001, 'second order with rows (local)'],
  [50002, 'second order (local)'],
]);

const PRODUCTS: ReadonlyMap<number, string> = new Map([
  [0, 'analysis or forecast at a point in time'],
  [1, 'individual ensemble forecast at a point in time'],
  [2, 'derived from all members, at a point in time'],
  [3, 'derived from a cluster over a rectangle, at a point in time'],
  [4, 'derived from a cluster over a circle, at a point in time'],
  [5, 'probability at a point in time'],
  [6, 'percentile at a point in time'],
  [7, 'analysis or forecast error'],
  [8, 'statistically processed over an interval'],
  [9, 'probability over an interval'],
  [10, 'percentile over an interval'],
  [11, 'individual ensemble forecast over an interval'],
  [12, 'derived from all members, over an interval'],
  [15, 'spatially processed, at a point in time'],
  [20, 'radar'],
  [30, 'satellite'],
  [31, 'satellite'],
  [32, 'simulated satellite'],
  [40, 'atmospheric chemical constituent'],
  [46, 'aerosol over an interval'],
  [48, 'optical properties of aerosol'],
  [60, 'individual ensemble reforecast at a point in time'],
  [61, 'individual ensemble reforecast over an interval'],
  [99, 'wave spectrum from frequencies and directions'],
  [103, 'waves selected by period range'],
  [104, 'waves selected by period range, individual ensemble forecast'],
]);

const nameIn = (names: ReadonlyMap<number, string>, code: number): string =>
  names.get(code) ?? 'unknown to this program';

/** Name of a grid: code table 3.1 (edition 2) or 6 (edition 1). */
export const gridName = (edition: 1 | 2, code: number): string =>
  nameIn(edition === 2 ? GRIDS_EDITION_2 : GRIDS_EDITION_1, code);

/** Name of a packing: code table 5.0. */
export const packingName = (code: number): string => nameIn(PACKINGS, code);

/** Name of a product definition template: code table 4.0. */
export const productName = (code: number): string => nameIn(PRODUCTS, code);
