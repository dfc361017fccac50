/**
 * Places on a turned sphere (notes to template 3.1): the sphere is turned about its axis by the longitude of the new south
 * pole, then tilted so that the pole moves along that meridian, then turned about the new axis.
 */
import { degFromRad, radFromDeg, wrap180Deg } from '../../units/index.ts';
import type { LatLon, RotatedLatLonGrid } from '../grid.ts';

/** The turn of a grid. */
export type Rotation = Pick<RotatedLatLonGrid, 'southPole' | 'turnDeg'>;

/** Geographic place of a place given in the turned coordinates; longitude in [-180, 180). */
export function geographicOf({ southPole, turnDeg }: Rotation, turned: LatLon): LatLon {
  const tiltRad = radFromDeg(90 + southPole.lat);
  const latRad = radFromDeg(turned.lat);
  const lonRad = radFromDeg(turned.lon + turnDeg);
  const [x, y, z] = [Math.cos(latRad) * Math.cos(lonRad), Math.cos(latRad) * Math.sin(lonRad), Math.sin(latRad)];
  const east = Math.cos(tiltRad) * x - Math.sin(tiltRad) * z;
  const north = Math.sin(tiltRad) * x + Math.cos(tiltRad) * z;
  return {
    lat: degFromRad(Math.atan2(north, Math.hypot(east, y))),
    lon: wrap180Deg(southPole.lon + degFromRad(Math.atan2(y, east))),
  };
}

/** The same place in the turned coordinates; longitude in [-180, 180). */
export function turnedOf({ southPole, turnDeg }: Rotation, place: LatLon): LatLon {
  const tiltRad = radFromDeg(90 + southPole.lat);
  const latRad = radFromDeg(place.lat);
  const lonRad = radFromDeg(place.lon - southPole.lon);
  const [x, y, z] = [Math.cos(latRad) * Math.cos(lonRad), Math.cos(latRad) * Math.sin(lonRad), Math.sin(latRad)];
  const east = Math.cos(tiltRad) * x + Math.sin(tiltRad) * z;
  const north = Math.cos(tiltRad) * z - Math.sin(tiltRad) * x;
  return {
    lat: degFromRad(Math.atan2(north, Math.hypot(east, y))),
    lon: wrap180Deg(degFromRad(Math.atan2(y, east)) - turnDeg),
  };
}

/**
 * Angle from true east to the direction of growing columns, counterclockwise [degrees]: the bearing of the grid's north
 * pole with its sign changed.
 */
export function rotatedEastAngleDeg({ southPole }: Rotation, place: LatLon): number {
  const poleLatRad = radFromDeg(-southPole.lat);
  const latRad = radFromDeg(place.lat);
  const lonRad = radFromDeg(southPole.lon + 180 - place.lon);
  const eastward = Math.sin(lonRad) * Math.cos(poleLatRad);
  const northward =
    Math.cos(latRad) * Math.sin(poleLatRad) - Math.sin(latRad) * Math.cos(poleLatRad) * Math.cos(lonRad);
  return -degFromRad(Math.atan2(eastward, northward));
}
