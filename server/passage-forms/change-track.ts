import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, type Result } from '../../lib/result/index.ts';
import type { Track, Waypoint } from '../../lib/track/index.ts';
import { choice, type EntryField, entryOf, field } from '../entry-forms/index.ts';
import { goneEntry, type Texts, withPart, withProblems } from './part.ts';
import { POSITION_HINT, positionIn, shownPosition } from './position.ts';

export type WaypointFile = Exclude<PassageFile['track'], { readonly gpx: string }>[number];

export const WAYPOINT_FIELDS: readonly EntryField[] = [
  field(['position'], 'Position', { kind: 'line', hint: POSITION_HINT }),
  field(['name'], 'Name', { kind: 'line', hint: 'Empty: none.' }),
  choice(
    ['leg'],
    'Leg from the waypoint before',
    [
      { value: '', text: 'rhumb line (default)' },
      { value: 'rhumb', text: 'rhumb line: one course all the way' },
      { value: 'great-circle', text: 'great circle: the shortest way' },
    ],
    'Of the first waypoint: from the departure.',
  ),
];

/** Waypoints as the file has them; those of a GPX file as they were read. */
export const waypointsOf = ({ track }: PassageFile, read: Track): readonly WaypointFile[] =>
  Array.isArray(track) ? track : waypointsIn(read);

/** Waypoints as a passage file has them. */
export const waypointsIn = ({ waypoints }: Track): readonly WaypointFile[] => waypoints.map(waypointFile);

function waypointFile({ lat, lon, name, leg }: Waypoint): WaypointFile {
  // A name may be broken over lines in the file it came from.
  const plain = (name ?? '').replaceAll(/[\s\p{Cc}]+/gu, ' ').trim();
  return { lat, lon, ...(plain === '' ? {} : { name: plain }), ...(leg === 'rhumb' ? {} : { leg }) };
}

export const shownWaypoint = (waypoint: WaypointFile | undefined): unknown => {
  if (waypoint === undefined) return undefined;
  const { lat, lon, ...others } = waypoint;
  return { position: shownPosition({ lat, lon }), ...others };
};

export const withTrack = (file: PassageFile, waypoints: readonly object[]): Result<PassageFile> =>
  withPart(file, 'track', waypoints);

/** A waypoint of the form: in the place of the one at `index`, or put in there. */
export interface WaypointPlace {
  readonly index: number;
  readonly isNew: boolean;
}

/**
 * The passage with a waypoint as its form says.
 *
 * @param waypoints all there are; they take the place of a GPX file
 */
export function withWaypoint(
  file: PassageFile,
  waypoints: readonly WaypointFile[],
  { index, isNew, texts }: WaypointPlace & { readonly texts: Texts },
): Result<PassageFile> {
  const before = isNew ? undefined : waypoints[index];
  if (!isNew && before === undefined) return failed(goneEntry(`track[${index}]`, 'waypoint'));
  const { position, ...others } = entryOf(WAYPOINT_FIELDS, shownWaypoint(before), texts);
  const { at, problems } = positionIn(position, before ?? null, `passage, track[${index}].position`);
  const waypoint = { ...at, ...others };
  return withProblems(
    problems,
    'track',
    withTrack(file, waypoints.toSpliced(index, isNew ? 0 : 1, asChecked(waypoint))),
  );
}

/** As it is: whether it is one is for the check of the shape. */
const asChecked = (waypoint: object & { lat: number; lon: number }): WaypointFile => waypoint;

export function withoutWaypoint(
  file: PassageFile,
  waypoints: readonly WaypointFile[],
  index: number,
): Result<PassageFile> {
  if (waypoints[index] === undefined) return failed(goneEntry(`track[${index}]`, 'waypoint'));
  return withTrack(file, waypoints.toSpliced(index, 1));
}

/** The waypoint one place earlier or later; its leg goes with it. */
export function withWaypointMoved(
  file: PassageFile,
  waypoints: readonly WaypointFile[],
  { index, by }: { readonly index: number; readonly by: 1 | -1 },
): Result<PassageFile> {
  const moved = waypoints[index];
  const to = index + by;
  if (moved === undefined || waypoints[to] === undefined) return failed(goneEntry(`track[${index}]`, 'waypoint'));
  return withTrack(file, waypoints.toSpliced(index, 1).toSpliced(to, 0, moved));
}
