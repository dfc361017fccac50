/** Land of the earth at 1:50 million: Natural Earth (public domain) as TopoJSON of the package `world-atlas`. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { feature } from 'topojson-client';
import { type Coastline, coastlineOf, type Position, unwrapLon } from '../lib/geo/index.ts';

/** Corners of a ring as the package has them: longitude, latitude. */
type Ring = number[][];

/** One piece of land with its lakes and the box it lies in. */
export interface LandPiece {
  readonly rings: Ring[];
  readonly box: { readonly west: number; readonly south: number; readonly east: number; readonly north: number };
}

export interface Land {
  readonly pieces: readonly LandPiece[];
  readonly coast: Coastline;
}

type Topology = Parameters<typeof feature>[0];

let kept: Land | null = null;

/** The land, read when it is first asked for. Throws when the package does not hold what it should. */
export function landOfTheEarth(): Land {
  kept ??= readLand();
  return kept;
}

function readLand(): Land {
  const file = createRequire(import.meta.url).resolve('world-atlas/land-50m.json');
  const topology: unknown = JSON.parse(readFileSync(file, 'utf8'));
  if (!isTopology(topology) || topology.objects['land'] === undefined) throw new Error(`${file} holds no land`);
  const found = feature(topology, topology.objects['land']);
  const features = found.type === 'FeatureCollection' ? found.features : [found];
  const polygons = features.flatMap(({ geometry }): Ring[][] => {
    if (geometry.type === 'MultiPolygon') return geometry.coordinates;
    return geometry.type === 'Polygon' ? [geometry.coordinates] : [];
  });
  const rings = polygons.flat();
  return { pieces: polygons.map(pieceOf), coast: coastlineOf(rings.map((ring) => ring.map(placeOf))) };
}

const isTopology = (value: unknown): value is Topology =>
  typeof value === 'object' && value !== null && 'type' in value && value.type === 'Topology' && 'objects' in value;

const placeOf = ([lon = Number.NaN, lat = Number.NaN]: number[]): Position => ({ lat, lon });

/** Longitudes of the box run on over the date line, from the ring's first corner on. */
function pieceOf(rings: Ring[]): LandPiece {
  const places = (rings[0] ?? []).map(placeOf);
  const box = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
  let last = places[0];
  for (const { lat, lon } of places) {
    last = { lat, lon: last === undefined ? lon : unwrapLon(lon, last) };
    box.west = Math.min(box.west, last.lon);
    box.east = Math.max(box.east, last.lon);
    box.south = Math.min(box.south, lat);
    box.north = Math.max(box.north, lat);
  }
  return { rings, box: isRoundPole(box) ? { ...box, west: -180, east: 180, south: -90 } : box };
}

/** A ring that does not come back to its own longitude goes round a pole: the continent in the south. */
const isRoundPole = ({ west, east }: LandPiece['box']): boolean => east - west > 355;
