/** Corners, increments and flags of a latitude/longitude grid, made consistent. Shared by both editions and by turned grids. */
import type {
  GridCorners,
  GridShape,
  LatLon,
  RegularLatLonGrid,
  RotatedLatLonGrid,
  StoredIncrements,
} from '../grid.ts';
import { impossibleCorner, meridianColumns } from './meridian-columns.ts';
import { scansRowsNorthward } from './scanning.ts';

/** A grid as its section writes it. Increments are null when not given. */
export interface CodedLatLon extends GridShape, GridCorners {
  readonly stored: StoredIncrements;
}

/** The grid, or one sentence that says why its octets contradict one another. */
export function regularLatLon(coded: CodedLatLon): RegularLatLonGrid | string {
  const contradiction = contradictionIn(coded);
  if (contradiction !== null) return contradiction;
  const { ni, nj, stored, scanningMode } = coded;
  const [first, last] = [onGlobe(coded.first), onGlobe(coded.last)];
  const columns = meridianColumns({ ni, first, last, scanningMode, storedIncrementDeg: stored.iIncrementDeg });
  if (typeof columns === 'string') return columns;
  const jIncrementDeg = nj === 1 ? 0 : Math.abs(last.lat - first.lat) / (nj - 1);
  return {
    kind: 'regular-latlon',
    ni,
    nj,
    first,
    last,
    iIncrementDeg: columns.iIncrementDeg,
    jIncrementDeg,
    stored,
    scanningMode,
    isGlobalInLon: columns.isGlobalInLon,
  };
}

/** Rounding in the coding may carry a pole beyond itself. */
const onGlobe = ({ lat, lon }: LatLon): LatLon => ({ lat: Math.min(90, Math.max(-90, lat)), lon });

function contradictionIn(coded: CodedLatLon): string | null {
  const { ni, nj } = coded;
  if (ni < 1 || nj < 1) return `The grid has ${ni} columns and ${nj} rows.`;
  return impossibleCorner(coded) ?? rowsAgainstScan(coded);
}

/** Rows that run the other way than the scanning mode says, or null. */
export function rowsAgainstScan({ nj, first, last, scanningMode }: GridCorners & Omit<GridShape, 'ni'>): string | null {
  if (nj === 1 || last.lat > first.lat === scansRowsNorthward(scanningMode)) return null;
  return `The rows run from latitude ${first.lat} to ${last.lat}, but the scanning mode ${scanningMode} says the other way.`;
}

/** What a section adds for a turned sphere. */
export type CodedRotation = Pick<RotatedLatLonGrid, 'southPole' | 'turnDeg' | 'areVectorsGridRelative'>;

/** The turned grid, or one sentence that says why its octets contradict one another. */
export function rotatedLatLon(coded: CodedLatLon, rotation: CodedRotation): RotatedLatLonGrid | string {
  const { southPole, turnDeg } = rotation;
  if (!(Math.abs(southPole.lat) <= 90)) return `The south pole of the grid lies at latitude ${southPole.lat}.`;
  if (!(Math.abs(southPole.lon) <= 360)) return `The south pole of the grid lies at longitude ${southPole.lon}.`;
  if (!(Math.abs(turnDeg) <= 360)) return turnWords(turnDeg);
  const grid = regularLatLon(coded);
  return typeof grid === 'string' ? grid : { ...grid, ...rotation, kind: 'rotated-latlon' };
}

const turnWords = (turnDeg: number): string =>
  Number.isFinite(turnDeg)
    ? `The grid is turned by ${turnDeg}°.`
    : 'The angle by which the grid is turned is no number.';
