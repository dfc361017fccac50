/** A way as places close to one another, and the box around all that lies near it. */
import { greatCircle, greatCircleFraction, NM_PER_DEG, type Position } from '../../geo/index.ts';
import { degFromRad, radFromDeg } from '../../units/index.ts';
import { type Box, boxAround } from '../box.ts';
import type { CutArea, TimedPlace } from './request.ts';

/** A way, and how far from it weather is kept. */
export interface Corridor {
  readonly places: readonly (Position | TimedPlace)[];
  /** Margin, and half the distance between places: what lies near the way lies that near to one of them. */
  readonly reachNm: number;
}

/** The way of an area, with places put in where they are far apart; null for a box. */
export function corridorOf(area: CutArea): Corridor | null {
  if (area.kind === 'box') return null;
  const stepNm = Math.min(10, Math.max(1, area.marginNm / 4));
  const places: readonly (Position | TimedPlace)[] = area.places;
  return {
    places: places.flatMap((place, i) => {
      const before = places[i - 1];
      return before === undefined ? [place] : [...between(before, place, stepNm), place];
    }),
    reachNm: area.marginNm + stepNm / 2,
  };
}

/** Places along the great circle from one to another, both left out. */
function between(from: Position | TimedPlace, to: Position | TimedPlace, stepNm: number): (Position | TimedPlace)[] {
  const partCount = Math.ceil(greatCircle(from, to).distanceNm / stepNm);
  return Array.from({ length: Math.max(0, partCount - 1) }, (_, k) => {
    const doneShare = (k + 1) / partCount;
    const place = greatCircleFraction({ from, to }, doneShare);
    if (!('epochMs' in from && 'epochMs' in to)) return place;
    return { ...place, epochMs: from.epochMs + (to.epochMs - from.epochMs) * doneShare };
  });
}

/** The part of a way sailed between two instants, with the place before and the place after; places without a time are always there. */
export function sailedBetween(
  corridor: Corridor,
  span: { readonly fromEpochMs: number; readonly toEpochMs: number },
): { readonly fromIndex: number; readonly toIndex: number } {
  const { places } = corridor;
  const timed = places.flatMap((place) => ('epochMs' in place ? [place.epochMs] : []));
  if (timed.length < places.length) return { fromIndex: 0, toIndex: places.length };
  const lastIndex = places.length - 1;
  const firstAfter = timed.findIndex((epochMs) => epochMs >= span.toEpochMs);
  return {
    fromIndex: Math.max(
      0,
      timed.findLastIndex((epochMs) => epochMs <= span.fromEpochMs),
    ),
    toIndex: (firstAfter < 0 ? lastIndex : firstAfter) + 1,
  };
}

/** The box around everything within a distance of a way. */
export function boxOfCorridor({ places, reachNm }: Corridor): Box {
  const reachDeg = reachNm / NM_PER_DEG;
  const box = boxAround(
    places.flatMap(({ lat, lon }) => {
      const spreadDeg = lonReachDeg(lat, reachDeg);
      return [
        { lat: Math.max(-90, lat - reachDeg), lon: lon - spreadDeg },
        { lat: Math.min(90, lat + reachDeg), lon: lon + spreadDeg },
      ];
    }),
  );
  if (box === null) throw new Error('a way has places');
  const reachesPole = places.some(({ lat }) => Math.abs(lat) + reachDeg >= 90);
  if (!reachesPole) return box;
  return { southWest: { lat: box.southWest.lat, lon: -180 }, northEast: { lat: box.northEast.lat, lon: 180 } };
}

/** Degrees of longitude that a circle around a place reaches to either side; 180 where it holds a pole. */
export function lonReachDeg(lat: number, reachDeg: number): number {
  const ratio = Math.sin(radFromDeg(Math.min(90, reachDeg))) / Math.cos(radFromDeg(lat));
  return Math.abs(lat) + reachDeg >= 90 || ratio >= 1 ? 180 : degFromRad(Math.asin(ratio));
}
