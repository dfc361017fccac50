import { formatPosition, greatCircle, type Position } from '../../lib/geo/index.ts';
import { failed, type Problem, type Result } from '../../lib/result/index.ts';
import { measureTrack, parseGpx, type Track, type Waypoint } from '../../lib/track/index.ts';
import { foundAgain, textsOf } from '../entry-forms/index.ts';
import {
  shownWaypoint,
  WAYPOINT_FIELDS,
  type WaypointFile,
  type WaypointPlace,
  waypointsOf,
} from '../passage-forms/index.ts';
import type { Clock } from './clock.ts';
import { type Entered, entryPage, type EntryPage } from './entry-page.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';

/** The waypoints, each with its leg, and a GPX text to be read in their place. */
export interface TrackPage {
  readonly kind: 'track';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly summary: string;
  /** Where the track begins, and where it comes from. */
  readonly notes: readonly string[];
  readonly rows: readonly WaypointRow[];
  readonly gpx: GpxView;
}

export interface WaypointRow {
  readonly number: number;
  readonly name: string;
  readonly position: string;
  /** `rhumb line, 163.8 nm, 098° at first`; empty: there is none. */
  readonly leg: string;
  readonly href: string;
  readonly addHref: string;
  readonly moveHref: string;
  readonly canGoUp: boolean;
  readonly canGoDown: boolean;
}

/** A text to be read, and what it would make of the track. */
export interface GpxView {
  readonly text: string;
  /** null: it was not looked at, or cannot be read. */
  readonly found: readonly string[] | null;
  readonly problems: readonly Problem[];
}

const NO_GPX: GpxView = { text: '', found: null, problems: [] };

export function trackPage(document: JobDocument, nowEpochMs: number, gpx: GpxView = NO_GPX): TrackPage {
  const { file, passage } = document;
  const waypoints = waypointsOf(file, passage.track);
  return {
    kind: 'track',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    summary: `${trackText(passage.track)}, from the departure.`,
    notes: notesOf(document, waypoints),
    rows: rowsOf(waypoints, passage.track),
    gpx,
  };
}

function notesOf({ file, passage }: JobDocument, [first]: readonly WaypointFile[]): readonly string[] {
  const { position } = passage.start;
  const offNm = first === undefined ? 0 : greatCircle(position, first).distanceNm;
  const isApart = first !== undefined && passage.track.waypoints.length > waypointsOf(file, passage.track).length;
  return [
    isApart
      ? `She starts at ${formatPosition(position)}, ${nmText(offNm)} from waypoint 1, and sails there first.`
      : 'She starts at waypoint 1.',
    ...('gpx' in file.track
      ? [`The waypoints come from the file ${file.track.gpx}. Once one is changed here, the passage has its own.`]
      : []),
  ];
}

const nmText = (nm: number): string => `${nm.toFixed(1)} nm`;
const trackText = (track: Track): string =>
  `${track.waypoints.length} waypoints, ${nmText(measureTrack(track).lengthNm)}`;

function rowsOf(waypoints: readonly WaypointFile[], track: Track): readonly WaypointRow[] {
  const { legs } = measureTrack(track);
  // The departure may stand before the first waypoint.
  const firstLeg = legs.length - waypoints.length;
  return waypoints.map((waypoint, index) => ({
    number: index + 1,
    name: waypoint.name ?? '',
    position: formatPosition(waypoint),
    leg: legText(legs[firstLeg + index]),
    href: `/passage/track/${index}`,
    addHref: `/passage/track/new?after=${index + 1}`,
    moveHref: `/passage/track/${index}/move`,
    canGoUp: index > 0,
    canGoDown: index < waypoints.length - 1,
  }));
}

type Leg = ReturnType<typeof measureTrack>['legs'][number];

function legText(leg: Leg | undefined): string {
  if (leg === undefined) return '';
  const course = `${String(Math.round(leg.courseTowardDegTrue) % 360).padStart(3, '0')}° true`;
  const kind = leg.kind === 'rhumb' ? `rhumb line, ${course}` : `great circle, ${course} at first`;
  return `${kind}, ${nmText(leg.lengthNm)}`;
}

/** A GPX text read, and what it would make of the track. */
export function gpxRead(text: string, { passage }: JobDocument): { read: Result<Track>; view: GpxView } {
  const read = text.trim() === '' ? failed(noText) : parseGpx(text, 'the text');
  if (!read.ok) return { read, view: { text, found: null, problems: read.problems } };
  const track = read.value;
  const [first, last] = [track.waypoints[0], track.waypoints.at(-1)];
  const found = [
    `In the text: ${trackText(track)}${first === undefined || last === undefined ? '' : `, from ${placeText(first)} to ${placeText(last)}`}.`,
    `Now, from the departure: ${trackText(passage.track)}.`,
    ...(first === undefined ? [] : [startText(passage.start.position, first)]),
  ];
  return { read, view: { text, found, problems: [] } };
}

const placeText = (at: Waypoint): string =>
  at.name === null ? formatPosition(at) : `${at.name}, ${formatPosition(at)}`;
const startText = (start: Position, first: Position): string =>
  `The departure at ${formatPosition(start)} is ${nmText(greatCircle(start, first).distanceNm)} from its first waypoint, and stays where it is.`;

const noText: Problem = {
  code: 'gpx.no-text',
  where: 'the text',
  what: 'It is empty.',
  expected: 'a GPX 1.1 file, pasted whole',
  remedy: 'Open the file in a text editor, copy all of it, and paste it here.',
};

const GONE = 'It was taken out of the track meanwhile. Saved again, it is added anew.';

/** Form of a waypoint. */
export function waypointPage(asked: WaypointPlace, entered: Entered): EntryPage {
  const { file, passage } = entered.document;
  const waypoints = waypointsOf(file, passage.track);
  const { isNew, index, note } = placeNow(asked, entered, waypoints);
  const place = Math.min(index, waypoints.length);
  const after = place === 0 ? 'before the first' : `behind waypoint ${place}`;
  const texts = textsOf(WAYPOINT_FIELDS, isNew ? undefined : shownWaypoint(waypoints[place]));
  const { refused } = entered;
  const isAnew = isNew && refused !== null && (refused.was ?? null) !== null;
  // All that stands in the form counts as entered.
  const asNew = isAnew ? { ...entered, refused: { ...refused, was: new Map([...texts.keys()].map(blank)) } } : entered;
  return entryPage(atPosition(asNew, place), {
    fields: WAYPOINT_FIELDS,
    texts,
    place: `track[${place}]`,
    title: isNew ? `A new waypoint, ${after}` : `Waypoint ${place + 1}`,
    action: `/passage/track/${isNew ? 'new' : place}`,
    backHref: '/passage/track',
    isThere: !isNew,
    hidden: isNew ? [['after', String(place)]] : [],
    note,
  });
}

/** Two waypoints at one place are a matter of the position entered. */
function atPosition(entered: Entered, place: number): Entered {
  if (entered.refused === null) return entered;
  const problems = entered.refused.problems.map((problem) => {
    const [found, number] = /track\[(\d+)\]$/.exec(problem.where) ?? [];
    const isNext = Number(number) === place + 1;
    if (found === undefined || !(isNext || Number(number) === place)) return problem;
    const where = problem.where.replace(found, `track[${place}].position`);
    return { ...problem, where, ...(isNext ? { what: 'The waypoint behind it is at the same place.' } : {}) };
  });
  return { ...entered, refused: { ...entered.refused, problems } };
}

const blank = (name: string): [string, string] => [name, ''];

/** Where the waypoint stands, also after somebody has saved meanwhile. */
function placeNow(
  { index, isNew }: WaypointPlace,
  { refused }: Entered,
  waypoints: readonly WaypointFile[],
): WaypointPlace & { readonly note: string } {
  const was = refused?.was ?? null;
  if (isNew || was === null) return { index, isNew, note: '' };
  const entries = waypoints.map(shownWaypoint);
  const byPlace = foundAgain(entries, { fields: WAYPOINT_FIELDS, was, knownBy: ['position'], index });
  const found = byPlace ?? foundAgain(entries, { fields: WAYPOINT_FIELDS, was, knownBy: ['name'], index });
  return found === null ? { index, isNew: true, note: GONE } : { index: found, isNew, note: '' };
}
