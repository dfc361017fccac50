import { frameOfGrid, type FramePart, type GribField, type GridFrame, partOfFrame } from '../grib/index.ts';
import type { Box } from './box.ts';
import { partFor } from './crop-grid.ts';
import { gridKey } from './grid-kinds.ts';
import type { TurnShelf } from './true-vectors.ts';

/** A grid met while reading: as it was in the file, as it is kept, and which part that is; null: all of it. */
export interface ShelvedGrid {
  readonly whole: GridFrame;
  readonly kept: GridFrame;
  readonly part: FramePart | null;
}

/** Values on a grid that is shared by all fields with the same points. */
export interface GriddedValues {
  /** Grid of the file, before cropping. */
  readonly whole: GridFrame;
  readonly grid: GridFrame;
  readonly values: Float32Array;
  /** Components point along the grid's columns and rows, not to true east and north. */
  readonly areVectorsGridRelative: boolean;
}

/** Grids met while reading, so that equal ones become one object, cropped to a box. */
export interface GridShelf {
  readonly box: Box | null;
  readonly grids: Map<string, ShelvedGrid>;
  readonly turns: TurnShelf;
}

export const gridShelf = (box: Box | null): GridShelf => ({ box, grids: new Map(), turns: new Map() });

/** The grid of a field, as it is and as it is kept. */
export function shelvedGrid(shelf: GridShelf, field: GribField): ShelvedGrid {
  if (field.grid.kind === 'unsupported') throw new Error('only grids that can be placed are chosen');
  const whole = frameOfGrid(field.grid);
  const key = gridKey(whole);
  const known = shelf.grids.get(key);
  if (known !== undefined) return known;
  const part = shelf.box === null ? null : partFor(whole, shelf.box);
  const shelved = { whole, kept: part === null ? whole : partOfFrame(whole, part), part };
  shelf.grids.set(key, shelved);
  return shelved;
}

/** Values of a field on the grid they are kept on. */
export function onShelf(shelf: GridShelf, field: GribField, values: Float32Array): GriddedValues {
  const { whole, kept } = shelvedGrid(shelf, field);
  return { whole, grid: kept, values, areVectorsGridRelative: hasGridVectors(field.grid) };
}

/** Columns that are meridians point to true north in any case. */
const hasGridVectors = (grid: GribField['grid']): boolean =>
  'areVectorsGridRelative' in grid && grid.areVectorsGridRelative;
