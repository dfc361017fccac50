/** The parts of a passage file, each with what in it is default; null when it could not be read. */
import { unknownName, type Job } from '../jobs/index.ts';
import type { Boat } from '../boat/index.ts';
import type { Watchkeeper } from '../person/index.ts';
import { failed, type Problem, type Result } from '../result/index.ts';
import type { Locker } from '../stock/index.ts';
import { parseUtc } from '../time/index.ts';
import type { Track } from '../track/index.ts';
import {
  boatFile,
  clockFile,
  forbiddenFile,
  gpxTrackFile,
  lockerFile,
  settingsFile,
  startFile,
  trackFile,
  watchkeeperFile,
} from './passage-file.ts';
import type { PlanOrders } from './orders.ts';
import type { Passage, Settings } from './passage.ts';
import { defaultsOfBoat, readBoat } from './read-boat.ts';
import { readJobs } from './read-jobs.ts';
import { readLocker } from './read-locker.ts';
import { readOrders } from './read-orders.ts';
import { readTrack, trackFrom } from './read-track.ts';
import { defaultsOfWatchkeeper, readWatchkeeper } from './read-watchkeeper.ts';
import { isRaw, type Reader } from './reader.ts';
import { defaultSettings, fillSettings } from './settings.ts';

const DEFAULT_SAIL_STATE = 'full-main';
const MOST_JOBS = 60;

/** What lies outside the file itself. */
export interface PassageSurroundings {
  /** The track of the GPX file that `gpxFileOf` names, read by the caller. */
  readonly gpxTrack?: Result<Track>;
}

interface Defaults {
  readonly defaultsUsed: readonly string[];
}

/** The instant a passage stands still at; null inside: the live clock. */
export function readClock(reader: Reader): { fixedNowEpochMs: number | null } | null {
  const raw = 'clock' in reader.raw ? reader.raw['clock'] : 'live';
  if (raw === 'live') return { fixedNowEpochMs: null };
  if (!isRaw(raw)) {
    reader.problems.push(notAClock(raw, reader.place('clock')));
    return null;
  }
  const clock = reader.part(clockFile, 'clock', undefined);
  const instant = clock && reader.keep(parseUtc(clock.fixedUtc, `${reader.place('clock')}.fixedUtc`));
  return instant === null ? null : { fixedNowEpochMs: instant };
}

/** Boat, start and track. */
export function readSailing(reader: Reader, surroundings: PassageSurroundings): Sailing {
  const shape = reader.part(boatFile, 'boat', undefined);
  const boat = shape && reader.keep(readBoat(shape, reader.place('boat')));
  const start = readStart(reader, boat);
  const track = readTrackPart(reader, surroundings);
  const rawStart = reader.raw['start'];
  return {
    boat,
    start,
    track: start && track && trackFrom(start.position, track),
    defaultsUsed: [
      ...(isRaw(rawStart) && 'sailState' in rawStart ? [] : ['start.sailState']),
      ...(shape === null ? [] : defaultsOfBoat(shape)),
    ],
  };
}

interface Sailing extends Defaults {
  readonly boat: Boat | null;
  readonly start: Passage['start'] | null;
  readonly track: Track | null;
}

/** Jobs, locker, and what the user fixes about them. */
export function readWork(reader: Reader, boat: Boat | null): Work {
  const raw = rawJobs(reader);
  const jobs = reader.keep(readJobs(raw, reader.at('jobs'), boat));
  const lockerShape = reader.part(lockerFile, 'locker', []);
  const locker = lockerShape && reader.keep(readLocker(lockerShape, reader.place('locker'), jobs?.jobs ?? []));
  const forbidden = reader.part(forbiddenFile, 'forbidden', []);
  const orders = reader.keep(
    readOrders(
      { rawJobs: raw, forbidden: forbidden ?? [], locker: lockerShape ?? [] },
      { jobs: reader.at('jobs'), forbidden: reader.place('forbidden'), locker: reader.place('locker') },
      boat,
    ),
  );
  return { jobs: jobs?.jobs ?? null, locker, orders: forbidden && orders, defaultsUsed: jobs?.defaultsUsed ?? [] };
}

interface Work extends Defaults {
  readonly jobs: readonly Job[] | null;
  readonly locker: Locker | null;
  readonly orders: PlanOrders | null;
}

/** Settings and watchkeeper. */
export function readPerson(reader: Reader, start: Passage['start'] | null): Person {
  const settingsShape = reader.part(settingsFile, 'settings', {});
  const shape = reader.part(watchkeeperFile, 'watchkeeper', {});
  const position = start?.position ?? { lat: 0, lon: 0 };
  const settings = settingsShape && fillSettings(settingsShape, position);
  const watchkeeper =
    shape &&
    reader.keep(
      readWatchkeeper(shape, reader.place('watchkeeper'), {
        startEpochMs: start?.epochMs ?? null,
        start: position,
        shipTimeOffsetMin: settings?.shipTimeOffsetMin ?? 0,
        sleepEfficiencyRatio: settingsShape?.sleepEfficiencyRatio,
      }),
    );
  return {
    settings,
    watchkeeper,
    defaultsUsed: [
      ...(shape === null ? [] : defaultsOfWatchkeeper(shape)),
      ...(settingsShape === null ? [] : defaultSettings(settingsShape)),
    ],
  };
}

interface Person extends Defaults {
  readonly settings: Settings | null;
  readonly watchkeeper: Watchkeeper | null;
}

function readStart(reader: Reader, boat: Boat | null): Passage['start'] | null {
  const start = reader.part(startFile, 'start', undefined);
  if (start === null) return null;
  const epochMs = reader.keep(parseUtc(start.timeUtc, `${reader.place('start')}.timeUtc`));
  const sailStateId = start.sailState ?? DEFAULT_SAIL_STATE;
  const known = boat?.sailStates.map(({ id }) => id) ?? [sailStateId];
  if (!known.includes(sailStateId))
    reader.problems.push(
      unknownName(
        { code: 'passage.sail-state-unknown', kind: 'sail state', name: sailStateId, known },
        `${reader.place('start')}.sailState`,
      ),
    );
  return epochMs === null ? null : { epochMs, position: { lat: start.lat, lon: start.lon }, sailStateId };
}

function readTrackPart(reader: Reader, { gpxTrack }: PassageSurroundings): Track | null {
  if (!isRaw(reader.raw['track'])) {
    const waypoints = reader.part(trackFile, 'track', undefined);
    return waypoints && reader.keep(readTrack(waypoints, reader.place('track')));
  }
  const file = reader.part(gpxTrackFile, 'track', undefined);
  if (file === null) return null;
  return reader.keep(gpxTrack ?? failed(gpxNotRead(file.gpx, reader.place('track'))));
}

function rawJobs(reader: Reader): readonly unknown[] {
  const raw: unknown = reader.raw['jobs'] ?? [];
  const list: readonly unknown[] | null = Array.isArray(raw) ? raw : null;
  if (list !== null && list.length <= MOST_JOBS) return list;
  reader.problems.push({
    code: list === null ? 'passage.type' : 'passage.value',
    where: reader.place('jobs'),
    what: list === null ? 'It is not a list.' : `There are ${list.length} jobs.`,
    expected: `a list of at most ${MOST_JOBS} jobs`,
    remedy: 'Correct it.',
  });
  return [];
}

const gpxNotRead = (gpx: string, where: string): Problem => ({
  code: 'passage.gpx-missing',
  where,
  what: `The track file "${gpx}" was not read.`,
  expected: 'a GPX 1.1 file beside the passage',
  remedy: 'Put the file there, or write the waypoints into the passage.',
});

const notAClock = (raw: unknown, where: string): Problem => ({
  code: 'passage.value',
  where,
  what: `${JSON.stringify(raw)} is not a clock.`,
  expected: '"live" or {"fixedUtc": "2026-05-27T20:12Z"}',
  remedy: 'Write "live", or leave it out.',
});
