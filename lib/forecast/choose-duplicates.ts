/** One field for each part, member and time. */
import type { RegularLatLonGrid } from '../grib/index.ts';
import { type Box, gridCovers } from './box.ts';
import { groupBy } from './choose-fields.ts';
import type { MatchedField } from './match-field.ts';

export interface SingleFields {
  readonly fields: readonly MatchedField[];
  /** Fields left out because the same thing was there on the same grid. */
  readonly repeatedCount: number;
  /** Fields left out because the same thing was there on a grid that covers the track better or is finer. */
  readonly otherGridCount: number;
}

/** Of several fields of the same thing and time: the one whose grid covers the box, then the finest, then the first. */
export function chooseDuplicates(fields: readonly MatchedField[], box: Box | null): SingleFields {
  const groups = groupBy(
    fields,
    (found) => `${found.memberId} ${found.row.part} ${found.startEpochMs} ${found.endEpochMs}`,
  );
  const chosen: MatchedField[] = [];
  let [repeatedCount, otherGridCount] = [0, 0];
  for (const group of groups.values()) {
    const [best, ...rest] = group.toSorted((a, b) => gridRank(a, box) - gridRank(b, box));
    if (best === undefined) continue;
    chosen.push(best);
    const sameGridCount = rest.filter((other) => fileGridKey(other) === fileGridKey(best)).length;
    repeatedCount += sameGridCount;
    otherGridCount += rest.length - sameGridCount;
  }
  return { fields: chosen, repeatedCount, otherGridCount };
}

/** Corners, counts and scan of a field's grid as text. */
function fileGridKey({ field }: MatchedField): string {
  return JSON.stringify(field.grid);
}

function gridRank({ field: { grid } }: MatchedField, box: Box | null): number {
  if (grid.kind !== 'regular-latlon') return Infinity;
  const stepDeg = Math.max(grid.iIncrementDeg, grid.jIncrementDeg);
  return box === null || fileGridCovers(grid, box) ? stepDeg : 1000 + stepDeg;
}

function fileGridCovers(grid: RegularLatLonGrid, box: Box): boolean {
  const [southLat, northLat] = [Math.min(grid.first.lat, grid.last.lat), Math.max(grid.first.lat, grid.last.lat)];
  const scansWestward = (grid.scanningMode & 0x80) !== 0;
  return gridCovers(
    {
      southWest: { lat: southLat, lon: scansWestward ? grid.last.lon : grid.first.lon },
      latStepDeg: grid.nj > 1 ? (northLat - southLat) / (grid.nj - 1) : 0,
      lonStepDeg: grid.iIncrementDeg,
      rowCount: grid.nj,
      columnCount: grid.ni,
      wrapsInLon: grid.isGlobalInLon,
    },
    box,
  );
}
