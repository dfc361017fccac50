import { formatPosition, parsePosition } from '../../lib/geo/index.ts';
import { failed, okUnless, type Problem, type Result } from '../../lib/result/index.ts';
import type { Waypoint } from '../../lib/track/index.ts';

const MOST_WAYPOINTS = 2000;
const GREAT_CIRCLE = 'great circle';

/** Waypoints as lines of a form, to a thousandth of a minute (2 m). */
export const trackLines = (waypoints: readonly Waypoint[]): string =>
  waypoints
    .map(({ lat, lon, name, leg }, index) =>
      [
        formatPosition({ lat, lon }, 3),
        ...(leg === 'great-circle' && index > 0 ? [GREAT_CIRCLE] : []),
        ...(name === null ? [] : [name.replaceAll('|', '/')]),
      ].join(' | '),
    )
    .join('\n');

/**
 * Reads a track of one waypoint a line: position, `great circle` where the leg that ends there is one, its name.
 *
 * @returns at least two waypoints, or `geo.not-a-position` for each line that is none, `new.track-short`, `new.track-long`
 */
export function readTrackLines(text: string, where: string): Result<readonly Waypoint[]> {
  const lines = text.split(/\r?\n/).map((line) => line.trim());
  const read = lines.flatMap((line, index) => (line === '' ? [] : [waypointOf(line, `${where}, line ${index + 1}`)]));
  if (read.length > MOST_WAYPOINTS) return failed(tooLong(read.length, where));
  const problems = read.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length === 0 && read.length < 2) problems.push(tooShort(read.length, where));
  return okUnless(problems, () => read.flatMap((one) => (one.ok ? [one.value] : [])));
}

function waypointOf(line: string, where: string): Result<Waypoint> {
  const [place = '', ...rest] = line.split('|').map((part) => part.trim());
  const at = parsePosition(place, where);
  if (!at.ok) return at;
  const isGreatCircle = rest.some((part) => part.toLowerCase().replace('-', ' ') === GREAT_CIRCLE);
  const name = rest.find((part) => part !== '' && part.toLowerCase().replace('-', ' ') !== GREAT_CIRCLE) ?? null;
  return { ok: true, value: { ...at.value, name, leg: isGreatCircle ? 'great-circle' : 'rhumb' } };
}

const tooShort = (count: number, where: string): Problem => ({
  code: 'new.track-short',
  where,
  what: count === 0 ? 'There is no track yet.' : 'One position is no track.',
  expected: 'a GPX 1.1 file, or at least two positions: where the passage begins and where it goes',
  remedy: 'Choose the file, or write the positions, one a line.',
});

const tooLong = (count: number, where: string): Problem => ({
  code: 'new.track-long',
  where,
  what: `The track has ${count} waypoints.`,
  expected: `at most ${MOST_WAYPOINTS}`,
  remedy: 'Leave out those between which she sails straight on; a recorded track can be thinned to its turns.',
});
