import { isPosition, normalPosition, type Position } from '../geo/index.ts';
import { failed, ok, okUnless, type Problem, type Result } from '../result/index.ts';
import type { Track, Waypoint } from './track.ts';
import { escapeXml, parseXml, type XmlElement } from './xml.ts';

const NAMESPACE = 'http://www.topografix.com/GPX/1/1';

/** Largest text read [characters]: some 100 000 points. */
const MOST_CHARACTERS = 20_000_000;
const MOST_POINTS = 100_000;

/** Classification of a route point at the end of a great-circle leg; GPX itself knows no kinds of leg. */
const GREAT_CIRCLE = 'great-circle';

/** A single place written beside the track: where a job is planned, say. */
export interface GpxMark {
  readonly position: Position;
  readonly name: string;
  readonly note: string;
  readonly epochMs: number | null;
}

/**
 * Reads the track of a GPX 1.1 file: its one route, or, where it has none, its one recorded track.
 *
 * Legs are rhumb lines except where the point's type is `great-circle`. Neighbouring points at one place become one.
 *
 * @param where named in the problems
 * @returns the track, or every problem: `gpx.too-large`, `xml.not-well-formed`, `gpx.not-gpx`, `gpx.version`,
 *   `gpx.no-track`, `gpx.several-tracks`, `gpx.point`, `gpx.too-short`
 */
export function parseGpx(text: string, where: string): Result<Track> {
  if (text.length > MOST_CHARACTERS) return failed(tooLarge(where, `${text.length} characters`, `${MOST_CHARACTERS}`));
  const document = parseXml(text, where);
  if (!document.ok) return document;
  const unfit = rootProblem(document.value, where);
  if (unfit !== null) return failed(unfit);
  const points = trackPoints(document.value, where);
  return points.ok ? trackOf(points.value, where) : points;
}

/**
 * Writes a track as the route of a GPX 1.1 file, marks as waypoints before it.
 *
 * Order and ranges of sources.GPX_1_1: longitudes in [-180, 180), six decimals (0.1 m).
 */
export function formatGpx(track: Track, of: { readonly name: string; readonly marks?: readonly GpxMark[] }): string {
  const marks = (of.marks ?? []).flatMap((mark) => [
    `  <wpt ${coordinates(mark.position)}>`,
    ...(mark.epochMs === null ? [] : [`    <time>${xmlDateTime(mark.epochMs)}</time>`]),
    `    <name>${escapeXml(mark.name)}</name>`,
    ...(mark.note === '' ? [] : [`    <desc>${escapeXml(mark.note)}</desc>`]),
    '  </wpt>',
  ]);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="Slatch" xmlns="${NAMESPACE}">`,
    `  <metadata><name>${escapeXml(of.name)}</name></metadata>`,
    ...marks,
    '  <rte>',
    `    <name>${escapeXml(of.name)}</name>`,
    ...track.waypoints.map(routePoint),
    '  </rte>',
    '</gpx>',
    '',
  ].join('\n');
}

function routePoint(waypoint: Waypoint): string {
  const name = waypoint.name === null ? '' : `<name>${escapeXml(waypoint.name)}</name>`;
  const type = waypoint.leg === 'great-circle' ? `<type>${GREAT_CIRCLE}</type>` : '';
  return `    <rtept ${coordinates(waypoint)}>${name}${type}</rtept>`;
}

function coordinates(at: Position): string {
  const { lat, lon } = normalPosition(at);
  const lonText = lon.toFixed(6);
  return `lat="${lat.toFixed(6)}" lon="${lonText === '180.000000' ? '-180.000000' : lonText}"`;
}

function rootProblem(root: XmlElement, where: string): Problem | null {
  const remedy = 'Export the track as GPX 1.1.';
  if (root.name !== 'gpx') {
    return { code: 'gpx.not-gpx', where, what: `The root element is <${root.name}>.`, expected: '<gpx>', remedy };
  }
  const version = root.attributes.get('version');
  if (version === '1.1') return null;
  const what = version === undefined ? 'It names no GPX version.' : `It is GPX ${version}.`;
  return { code: 'gpx.version', where, what, expected: 'version="1.1"', remedy };
}

/** xsd:dateTime, which wants its seconds. */
const xmlDateTime = (epochMs: number): string => `${new Date(epochMs).toISOString().slice(0, 19)}Z`;

const childrenNamed = (element: XmlElement, name: string): readonly XmlElement[] =>
  element.children.filter((child) => child.name === name);

const childText = (element: XmlElement, name: string): string | null => childrenNamed(element, name)[0]?.text ?? null;

/** Points of the one route, else of the one track with its segments joined. */
function trackPoints(root: XmlElement, where: string): Result<readonly XmlElement[]> {
  const routes = childrenNamed(root, 'rte');
  const tracks = childrenNamed(root, 'trk');
  const candidates = routes.length > 0 ? routes : tracks;
  const [only] = candidates;
  if (only === undefined) return failed(noTrack(where, childrenNamed(root, 'wpt').length));
  if (candidates.length > 1) return failed(severalTracks(where, candidates, routes.length > 0));
  if (routes.length > 0) return ok(childrenNamed(only, 'rtept'));
  return ok(childrenNamed(only, 'trkseg').flatMap((segment) => childrenNamed(segment, 'trkpt')));
}

function trackOf(points: readonly XmlElement[], where: string): Result<Track> {
  if (points.length > MOST_POINTS) return failed(tooLarge(where, `${points.length} points`, `${MOST_POINTS}`));
  const problems: Problem[] = [];
  const waypoints: Waypoint[] = [];
  for (const [index, point] of points.entries()) {
    const waypoint = waypointOf(point);
    const last = waypoints.at(-1);
    if (waypoint === null) problems.push(badPoint(`${where}, point ${index + 1}`, point));
    else if (last?.lat !== waypoint.lat || last.lon !== waypoint.lon) waypoints.push(waypoint);
  }
  if (problems.length === 0 && waypoints.length < 2) problems.push(tooShort(where, waypoints.length));
  return okUnless(problems, () => ({ waypoints }));
}

function waypointOf(point: XmlElement): Waypoint | null {
  const [lat, lon] = [decimal(point.attributes.get('lat')), decimal(point.attributes.get('lon'))];
  if (lat === null || lon === null || !isPosition({ lat, lon })) return null;
  const leg = childText(point, 'type') === GREAT_CIRCLE ? GREAT_CIRCLE : 'rhumb';
  return { lat, lon, name: childText(point, 'name'), leg };
}

const decimal = (text: string | undefined): number | null =>
  text !== undefined && /^\s*[+-]?(\d+(\.\d*)?|\.\d+)\s*$/.test(text) ? Number(text) : null;

const tooLarge = (where: string, what: string, most: string): Problem => ({
  code: 'gpx.too-large',
  where,
  what: `The file holds ${what}.`,
  expected: `${most} at most`,
  remedy: 'Thin the track out to its waypoints.',
});

const noTrack = (where: string, waypointCount: number): Problem => ({
  code: 'gpx.no-track',
  where,
  what: `It holds no route and no track${waypointCount > 0 ? `, only ${waypointCount} single waypoints without an order` : ''}.`,
  expected: 'one <rte> or one <trk>',
  remedy: 'Make a route of the waypoints and export that.',
});

const severalTracks = (where: string, found: readonly XmlElement[], isRoute: boolean): Problem => ({
  code: 'gpx.several-tracks',
  where,
  what: `It holds ${found.length} ${isRoute ? 'routes' : 'tracks'}: ${found.map((one) => childText(one, 'name') ?? 'unnamed').join(', ')}.`,
  expected: 'one',
  remedy: 'Export the one you mean to sail alone.',
});

const badPoint = (where: string, point: XmlElement): Problem => ({
  code: 'gpx.point',
  where,
  what: `Its lat is "${point.attributes.get('lat') ?? ''}", its lon "${point.attributes.get('lon') ?? ''}".`,
  expected: 'decimal degrees, lat -90 to 90 and lon -180 to 180',
  remedy: 'Correct the point or leave it out.',
});

const tooShort = (where: string, pointCount: number): Problem => ({
  code: 'gpx.too-short',
  where,
  what: pointCount === 0 ? 'The track has no points.' : 'The track has a single place.',
  expected: 'two waypoints at different places',
  remedy: 'Add the waypoint to sail to.',
});
