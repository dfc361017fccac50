import { type GribField, toNorthUpGrid, decodeField } from '../grib/index.ts';
import { ok, type Result } from '../result/index.ts';
import type { Box } from './box.ts';
import { type Crop, cropFor, cropValues } from './crop-grid.ts';
import { gridKey, type LatLonGrid } from './lat-lon-grid.ts';

/** A grid met while reading: as it was in the file, as it is kept, and how to get from one to the other. */
interface ShelvedGrid {
  readonly whole: LatLonGrid;
  readonly kept: LatLonGrid;
  readonly crop: Crop | null;
}

/** Values on a grid that is shared by all fields with the same points. */
export interface GriddedValues {
  /** Grid of the file, before cropping. */
  readonly whole: LatLonGrid;
  readonly grid: LatLonGrid;
  readonly values: Float32Array;
}

/** Decodes fields so that equal grids become one object, cropped to a box. */
export interface GridShelf {
  readonly box: Box | null;
  readonly grids: Map<string, ShelvedGrid>;
}

export const gridShelf = (box: Box | null): GridShelf => ({ box, grids: new Map() });

/** Decodes a field of a regular grid. */
export function decodeOnto(shelf: GridShelf, bytes: Uint8Array, field: GribField): Result<GriddedValues> {
  if (field.grid.kind !== 'regular-latlon') throw new Error('only regular grids are chosen');
  const decoded = decodeField(bytes, field);
  if (!decoded.ok) return decoded;
  const { values, ...whole } = toNorthUpGrid(field.grid, decoded.value);
  const shelved = shelve(shelf, whole);
  const kept = shelved.crop === null ? values : cropValues(values, shelved.whole, shelved.crop);
  return ok({ whole: shelved.whole, grid: shelved.kept, values: kept });
}

function shelve(shelf: GridShelf, whole: LatLonGrid): ShelvedGrid {
  const key = gridKey(whole);
  const known = shelf.grids.get(key);
  if (known !== undefined) return known;
  const crop = shelf.box === null ? null : cropFor(whole, shelf.box);
  const shelved = { whole, crop, kept: crop?.grid ?? whole };
  shelf.grids.set(key, shelved);
  return shelved;
}
