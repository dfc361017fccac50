import { wrap180Deg } from '../../lib/units/index.ts';
import type { WrittenGrid } from '../../lib/grib/index.ts';
import { isLand } from './land.ts';
import { patternPlace, type PatternPlace } from './weather-pattern.ts';

/** Sea between New Zealand and the middle of the South Pacific, across the date line; the demo's track with margin. */
const AREA = { north: -24, south: -44, west: 170, east: 210 } as const;

/** One point of a sample grid; longitude in [-180, 180). */
export interface SamplePoint {
  readonly lat: number;
  readonly lon: number;
  readonly isLand: boolean;
  readonly place: PatternPlace;
}

/** A sample grid with its points in file order: rows from north to south, each from west to east. */
export interface SampleGrid {
  readonly grid: WrittenGrid;
  readonly points: readonly SamplePoint[];
}

/** The area at a spacing that divides it. */
export function sampleGrid(spacingDeg: number): SampleGrid {
  const ni = Math.round((AREA.east - AREA.west) / spacingDeg) + 1;
  const nj = Math.round((AREA.north - AREA.south) / spacingDeg) + 1;
  const points = Array.from({ length: ni * nj }, (_, index) => {
    const lat = AREA.north - Math.floor(index / ni) * spacingDeg;
    const lon = wrap180Deg(AREA.west + (index % ni) * spacingDeg);
    return { lat, lon, isLand: isLand({ lat, lon }), place: patternPlace({ lat, lon }) };
  });
  return {
    grid: {
      ni,
      nj,
      first: { lat: AREA.north, lon: AREA.west },
      iIncrementDeg: spacingDeg,
      jIncrementDeg: spacingDeg,
      scanningMode: 0,
    },
    points,
  };
}
