import { degFromRad, radFromDeg } from '../units/index.ts';
import { NM_PER_DEG, type Position } from './position.ts';

/** Coastlines, made ready for asking many times: unit vectors one after the other, a vector of NaN after each line. */
export interface Coastline {
  readonly vectors: Float64Array;
}

/** Where one looks for land. */
export interface LookAhead {
  readonly from: Position;
  readonly towardDegTrue: number;
  readonly withinNm: number;
}

/** Makes lines of places ready for {@link coastAheadNm}; rings end where they begin. */
export function coastlineOf(lines: readonly (readonly Position[])[]): Coastline {
  const vectors = new Float64Array(lines.reduce((sum, line) => sum + line.length + 1, 0) * 3).fill(Number.NaN);
  let index = 0;
  for (const line of lines) {
    for (const place of line) {
      vectors.set(vectorOf(place), index * 3);
      index += 1;
    }
    index += 1;
  }
  return { vectors };
}

/**
 * Distance along the great circle that starts on a bearing to the first coast it crosses.
 *
 * The pieces of a coastline are great circles too. A piece is crossed where its ends lie on different sides of the
 * plane of the look, so that neither the date line nor a pole is special.
 *
 * @param look `withinNm` below 10 800 nm, half the way round
 * @returns nautical miles on the sphere; null: no coast within `withinNm`. Nothing is said of whether `from` is on land.
 */
export function coastAheadNm({ vectors }: Coastline, look: LookAhead): number | null {
  const from = vectorOf(look.from);
  const ahead = aheadOf(look);
  const side = crossProduct(from, ahead);
  const withinRad = radFromDeg(look.withinNm / NM_PER_DEG);
  let nearestRad = Number.POSITIVE_INFINITY;
  let lastSide = Number.NaN;
  for (let i = 0; i < vectors.length; i += 3) {
    const thisSide = dotAt(vectors, i, side);
    // NaN, which ends a line, is on neither side.
    if (lastSide * thisSide <= 0 && lastSide !== thisSide) {
      const [near, far] = [Math.abs(thisSide), Math.abs(lastSide)];
      const alongRad = Math.atan2(
        dotAt(vectors, i - 3, ahead) * near + dotAt(vectors, i, ahead) * far,
        dotAt(vectors, i - 3, from) * near + dotAt(vectors, i, from) * far,
      );
      if (alongRad >= 0 && alongRad <= withinRad && alongRad < nearestRad) nearestRad = alongRad;
    }
    lastSide = thisSide;
  }
  return nearestRad === Number.POSITIVE_INFINITY ? null : degFromRad(nearestRad) * NM_PER_DEG;
}

type Vector = readonly [east: number, north: number, up: number];

function vectorOf({ lat, lon }: Position): Vector {
  const [latRad, lonRad] = [radFromDeg(lat), radFromDeg(lon)];
  return [Math.cos(latRad) * Math.cos(lonRad), Math.cos(latRad) * Math.sin(lonRad), Math.sin(latRad)];
}

/** Unit vector that touches the sphere at a place, on a bearing. */
function aheadOf({ from, towardDegTrue }: LookAhead): Vector {
  const [latRad, lonRad, bearingRad] = [radFromDeg(from.lat), radFromDeg(from.lon), radFromDeg(towardDegTrue)];
  const [north, east] = [Math.cos(bearingRad), Math.sin(bearingRad)];
  return [
    -north * Math.sin(latRad) * Math.cos(lonRad) - east * Math.sin(lonRad),
    -north * Math.sin(latRad) * Math.sin(lonRad) + east * Math.cos(lonRad),
    north * Math.cos(latRad),
  ];
}

const crossProduct = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

const dotAt = (vectors: Float64Array, i: number, other: Vector): number =>
  (vectors[i] ?? Number.NaN) * other[0] +
  (vectors[i + 1] ?? Number.NaN) * other[1] +
  (vectors[i + 2] ?? Number.NaN) * other[2];
