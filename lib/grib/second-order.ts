/** Fields in second-order packing: their points may stand in another order than the bitmap, so both are read together. */
import type { Problem } from '../result/index.ts';
import type { GribField } from './field.ts';
import { scansAlongMeridians } from './grids/scanning.ts';
import {
  type SecondOrderEdition1,
  unpackSecondOrderEdition1,
  unpackSecondOrderEdition2,
} from './packing/second-order/unpack.ts';
import { applyScale, linearScale } from './scale.ts';
import { viewSection } from './section.ts';

/** Fills `values`, one for each grid point, NaN where the bitmap masks it. */
export function unpackSecondOrder(bytes: Uint8Array, field: GribField, values: Float64Array): Problem | null {
  const { edition, location } = field;
  const source: SecondOrderEdition1 = {
    bytes,
    data: viewSection(bytes, edition === 1 ? 4 : 7, location.data),
    bitmap: location.bitmap === null ? null : viewSection(bytes, edition === 1 ? 3 : 6, location.bitmap),
    linePointCount: linePointCount(field),
  };
  const representation = viewSection(bytes, 5, location.representation);
  const problem =
    edition === 1
      ? unpackSecondOrderEdition1(field, source, values)
      : unpackSecondOrderEdition2(field, { ...source, representation }, values);
  if (problem === null) applyScale(values, linearScale(field.packing));
  return problem;
}

/** Points of a line of the scan; null where lines differ in length or are not known. */
function linePointCount({ grid }: GribField): number | null {
  if (grid.kind === 'unsupported' || grid.kind === 'thinned-latlon' || grid.kind === 'thinned-gaussian') return null;
  return scansAlongMeridians(grid.scanningMode) ? grid.nj : grid.ni;
}
