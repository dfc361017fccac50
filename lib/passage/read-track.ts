import type { z } from 'zod';
import { greatCircle, type Position } from '../geo/index.ts';
import { okUnless, type Result } from '../result/index.ts';
import type { Track, Waypoint } from '../track/index.ts';
import type { trackFile } from './passage-file.ts';

/** Nearer than this two places are one. */
const SAME_PLACE_NM = 0.05;

const isSamePlace = (from: Position, to: Position): boolean => greatCircle(from, to).distanceNm < SAME_PLACE_NM;

/** Waypoints as the file has them, or `passage.track-same-place` where the boat would stand still between two. */
export function readTrack(file: z.infer<typeof trackFile>, where: string): Result<Track> {
  const waypoints = file.map((point): Waypoint => ({ name: null, leg: 'rhumb', ...point }));
  const problems = waypoints.flatMap((point, index) => {
    const before = waypoints[index - 1];
    if (before === undefined || !isSamePlace(before, point)) return [];
    return [
      {
        code: 'passage.track-same-place',
        where: `${where}[${index}]`,
        what: `It is the same place as waypoint ${index} before it.`,
        expected: 'neighbouring waypoints apart from each other',
        remedy: 'Take one of them out.',
      },
    ];
  });
  return okUnless(problems, () => ({ waypoints }));
}

/** The track from the start: the start position is put before the first waypoint unless that is the same place. */
export function trackFrom(start: Position, track: Track): Track {
  const [first] = track.waypoints;
  if (first !== undefined && isSamePlace(start, first)) return track;
  return { waypoints: [{ ...start, name: null, leg: 'rhumb' }, ...track.waypoints] };
}
