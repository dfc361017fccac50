import { describe, expect, test } from 'vitest';
import { passageAfterLog, type LogNote, type NumberedEntry } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { sample } from '../passage/sample.ts';
import { at, logOf, passageOf, seen, slept } from './demo.ts';

// Places lie on meridians and parallels, where miles are degrees; what is expected is counted by hand.

const codesOf = (notes: readonly LogNote[]): string[] => notes.map(({ code }) => code);
const textOf = (notes: readonly LogNote[], code: string): string =>
  notes.find((note) => note.code === code)?.text ?? '';
const after = (entries: readonly NumberedEntry[], now: string, of: Passage) => passageAfterLog(of, entries, at(now));

describe('the track ahead', () => {
  const along = (track: readonly { lat: number; lon: number }[]) =>
    passageOf(
      JSON.stringify({
        ...sample(),
        start: { timeUtc: '2026-05-27T18:00Z', ...track[0], sailState: 'deep-reef' },
        track,
        watchkeeper: {},
      }),
    );
  const ahead = (of: Passage, ...fixes: readonly (readonly [string, number, number])[]) => {
    const log = logOf(...fixes.map(([when, lat, lon]) => seen(when, { lat, lon })));
    const found = after(log, '31 23:00', of).passage;
    return found.track.waypoints.map(({ lat, lon }) => [lat, lon]);
  };
  const north = along([
    { lat: 0, lon: -30 },
    { lat: 2, lon: -30 },
    { lat: 4, lon: -30 },
  ]);

  test('on the first leg: both waypoints are still ahead; on the second the last one', () => {
    expect(ahead(north, ['28 06:00', 1, -29.9])).toEqual([
      [1, -29.9],
      [2, -30],
      [4, -30],
    ]);
    expect(ahead(north, ['28 18:00', 2.5, -29.9])).toEqual([
      [2.5, -29.9],
      [4, -30],
    ]);
  });

  test('beyond the end: the last waypoint stays', () => {
    expect(ahead(north, ['30 18:00', 4.5, -30])).toEqual([
      [4.5, -30],
      [4, -30],
    ]);
  });

  test('beyond the end time and again: the last waypoint stays', () => {
    expect(ahead(north, ['30 18:00', 4.5, -30], ['31 18:00', 4.6, -30.1])).toEqual([
      [4.6, -30.1],
      [4, -30],
    ]);
  });

  test('blown back behind a waypoint she had passed: it does not come back', () => {
    expect(ahead(north, ['28 18:00', 2.2, -30], ['29 06:00', 1.9, -30])).toEqual([
      [1.9, -30],
      [4, -30],
    ]);
  });

  test('out and back on one line: on the way out the turn is ahead, on the way back it is not', () => {
    const there = along([
      { lat: 0, lon: -30 },
      { lat: 3, lon: -30 },
      { lat: 0, lon: -30 },
    ]);
    expect(ahead(there, ['28 10:00', 1.5, -30])).toEqual([
      [1.5, -30],
      [3, -30],
      [0, -30],
    ]);
    expect(ahead(there, ['28 10:00', 1.5, -30], ['29 00:00', 2.9, -30], ['29 20:00', 1.5, -30])).toEqual([
      [1.5, -30],
      [0, -30],
    ]);
  });

  test('over the date line', () => {
    const line = along([
      { lat: 0, lon: 178 },
      { lat: 0, lon: -179 },
      { lat: 0, lon: -176 },
    ]);
    expect(ahead(line, ['28 16:00', 0.1, 179.9])).toEqual([
      [0.1, 179.9],
      [0, -179],
      [0, -176],
    ]);
    expect(ahead(line, ['29 20:00', 0.1, -178])).toEqual([
      [0.1, -178],
      [0, -176],
    ]);
  });

  test('far off the track, and long ago: both are said', () => {
    const { notes } = after(logOf(seen('28 06:00', { lat: 1, lon: -29 })), '29 06:00', north);
    expect(textOf(notes, 'log.position')).toMatch(
      /01°00\.0'N 029°00\.0'W at 28 May 06:00Z\. It is 24 h old.* 60 nm off the track/,
    );
  });
});

describe('sleeps', () => {
  const unslept = passageOf(JSON.stringify({ ...sample(), watchkeeper: {} }));

  test('of the file and of the log are one record', () => {
    const given = passageOf(JSON.stringify(sample()));
    const { sleeps } = after(logOf(slept('27 13:00', '27 15:00'), slept('27 23:00', '28 01:00')), '28 02:00', given)
      .passage.watchkeeper;
    expect(sleeps.slice(-2)).toEqual([
      { startEpochMs: at('27 10:30'), endEpochMs: at('27 15:00') },
      { startEpochMs: at('27 23:00'), endEpochMs: at('28 01:00') },
    ]);
  });

  test('assumed nights give way to the log from its first sleep on, and are assumed no more', () => {
    const own = unslept.watchkeeper.sleeps;
    const last = own.at(-1);
    if (last === undefined) throw new Error('nights are assumed');
    const found = passageAfterLog(
      unslept,
      logOf({
        kind: 'sleep',
        atUtc: new Date(last.startEpochMs).toISOString(),
        endUtc: new Date(last.startEpochMs + MS_PER_H).toISOString(),
      }),
      at('28 02:00'),
    ).passage;
    expect(found.watchkeeper.sleeps).toEqual([
      ...own.slice(0, -1),
      { ...last, endEpochMs: last.startEpochMs + MS_PER_H },
    ]);
    expect(unslept.defaultsUsed).toContain('watchkeeper.sleeps');
    expect(found.defaultsUsed).not.toContain('watchkeeper.sleeps');
  });

  test('no sleep logged on the way: the usual nights are assumed up to now, whole days later at the same solar hour, and said', () => {
    const found = after(logOf(seen('30 18:00', { lat: -36.5, lon: -179.9 })), '30 20:00', unslept);
    const [before, now] = [unslept.watchkeeper.sleeps.at(-1), found.passage.watchkeeper.sleeps.at(-1)];
    // Two degrees to the east: the sun is eight minutes earlier.
    const laterMin = ((now?.startEpochMs ?? 0) - (before?.startEpochMs ?? 0)) / 60_000;
    expect((laterMin + 8) % (24 * 60)).toBe(0);
    expect(at('30 20:00') - (now?.endEpochMs ?? 0)).toBeLessThan(24 * MS_PER_H);
    expect(now?.endEpochMs).toBeLessThanOrEqual(at('30 20:00'));
    expect(codesOf(found.notes)).toContain('log.sleep-assumed');
  });

  test('nothing slept for long, as far as the log says: said', () => {
    const { notes } = after(logOf(slept('27 20:00', '28 01:00')), '29 02:00', unslept);
    expect(textOf(notes, 'log.long-awake')).toContain('awake for 25 h');
  });

  test('going east the body clock falls behind: it follows by 30 % a day (Ingre et al. 2014, eq. 1.10)', () => {
    const { bodyClockLagMin } = after(logOf(seen('28 18:00', { lat: -36.5, lon: -176.9 })), '28 19:00', unslept).passage
      .watchkeeper;
    expect(bodyClockLagMin).toBeCloseTo(5 * 4 * 0.7, 6);
  });
});
