import { normalPosition, type Position } from '../../geo/index.ts';
import type { Plan, PlanEntry } from '../../planner/index.ts';
import type { Track } from '../../track/index.ts';
import type { ExportNames } from './export-names.ts';
import { chanceLines, howSentence, onBothClocks, planTitle, startsText } from './job-words.ts';
import { oneLine, plainText } from './plain-text.ts';
import { byStart, type WorkSession, workSessions } from './work-sessions.ts';

const NAMESPACE = 'http://www.topografix.com/GPX/1/1';

export interface GpxSettings {
  readonly names: ExportNames;
  /** The track of the passage, written as the route; null: none is written. */
  readonly track: Track | null;
}

/**
 * A plan as GPX 1.1: a waypoint where each job begins, the track of the passage as the route, and the way as planned as a
 * track with a point where each entry begins.
 *
 * Elements in the order of the published schema (sources.GPX_1_1); longitudes in [-180, 180), six decimals, so a way over
 * the date line goes from 180 to -180. Times are UTC with seconds.
 */
export function planGpx(plan: Plan, { names, track }: GpxSettings): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="Slatch" xmlns="${NAMESPACE}">`,
    ...metadataLines(plan),
    ...firstSessions(plan).flatMap((session) => waypointLines(session, names)),
    ...(track === null ? [] : routeLines(plan, track)),
    ...wayLines(plan),
    '</gpx>',
    '',
  ].join('\n');
}

const metadataLines = (plan: Plan): string[] => [
  '  <metadata>',
  `    ${element('name', oneLine(plan.passageName))}`,
  `    ${element('desc', [`${planTitle(plan)}, made ${plan.madeAtUtc}, forecast of ${plan.forecast.baseTimeUtc}. Not for navigation.`, ...plan.cautions].join('\n'))}`,
  `    ${element('time', dateTime(plan.madeAtUtc))}`,
  '  </metadata>',
];

const firstSessions = (plan: Plan): WorkSession[] =>
  workSessions(plan).filter(({ sessionNumber }) => sessionNumber === 1);

function waypointLines({ entry, job, name, sessionCount }: WorkSession, names: ExportNames): string[] {
  const says = [
    `Begins ${onBothClocks(entry.startUtc, names)}.`,
    howSentence(entry, names),
    ...(job === null ? [] : [startsText(job, names), ...chanceLines(job)]),
    sessionCount > 1 ? `In ${sessionCount} sessions.` : null,
  ].filter((text) => text !== null);
  return [
    `  <wpt ${coordinates(entry)}>`,
    `    ${element('time', dateTime(entry.startUtc))}`,
    `    ${element('name', oneLine(name))}`,
    `    ${element('desc', says.join('\n'))}`,
    `    ${element('type', 'job')}`,
    '  </wpt>',
  ];
}

/** As the `track` room reads it: the type of a point names the leg that ends there, where it is no rhumb line. */
const routeLines = ({ passageName }: Plan, { waypoints }: Track): string[] => [
  '  <rte>',
  `    ${element('name', oneLine(passageName))}`,
  ...waypoints.map((waypoint) => {
    const name = waypoint.name === null ? '' : element('name', oneLine(waypoint.name));
    const type = waypoint.leg === 'great-circle' ? element('type', 'great-circle') : '';
    return `    <rtept ${coordinates(waypoint)}>${name}${type}</rtept>`;
  }),
  '  </rte>',
];

function wayLines(plan: Plan): string[] {
  const entries = plan.entries.toSorted(byStart);
  const points = entries.filter(({ startUtc }, k) => startUtc !== entries[k - 1]?.startUtc);
  if (points.length === 0) return [];
  return [
    '  <trk>',
    `    ${element('name', oneLine(`${plan.passageName}, as planned`))}`,
    '    <trkseg>',
    ...points.map((entry) => `      ${trackPoint(entry)}`),
    '    </trkseg>',
    '  </trk>',
  ];
}

const trackPoint = (entry: PlanEntry): string =>
  `<trkpt ${coordinates(entry)}>${element('time', dateTime(entry.startUtc))}</trkpt>`;

const element = (name: string, text: string): string => `<${name}>${escaped(plainText(text))}</${name}>`;

/** Character data: `]]>` must not stand in it, so `>` is escaped, too (XML 1.0, 2.4). */
const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** xsd:dateTime in UTC, which wants its seconds. */
const dateTime = (utc: string): string => `${new Date(utc).toISOString().slice(0, 19)}Z`;

function coordinates(at: Position): string {
  const { lat, lon } = normalPosition(at);
  const lonText = lon.toFixed(6);
  // Rounding must not leave the half-open range of the schema.
  return `lat="${lat.toFixed(6)}" lon="${lonText === '180.000000' ? '-180.000000' : lonText}"`;
}
