import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { gpxFileOf, parsePassage, passageJsonSchema, type Passage } from '../../lib/passage/index.ts';
import { failed, ok } from '../../lib/result/index.ts';
import { sample } from './sample.ts';

function read(file: unknown, surroundings: Parameters<typeof parsePassage>[2] = {}): Passage {
  const result = parsePassage(JSON.stringify(file), 'a.json', surroundings);
  if (!result.ok) throw new Error(result.problems.map((problem) => `${problem.where}: ${problem.what}`).join('\n'));
  return result.value;
}

describe('parsePassage', () => {
  const passage = read(sample());

  it('what the file says: is in the passage', () => {
    expect(passage).toMatchObject({
      name: 'Ridge before the front',
      fixedNowEpochMs: Date.UTC(2026, 4, 27, 20, 12),
      start: { epochMs: Date.UTC(2026, 4, 27, 18), position: { lat: -36.3, lon: 178.1 }, sailStateId: 'deep-reef' },
      boat: { name: 'Lanternwing', instrumentHeightM: 21 },
      forecasts: ['ridge.grib2'],
      locker: { items: [{ item: 'waxed twine', unit: 'm', onBoardAmount: 60, keepAmount: 15 }, { item: 'needles' }] },
    });
    expect(passage.watchkeeper.sleeps[1]).toEqual({
      startEpochMs: Date.UTC(2026, 4, 27, 10, 30),
      endEpochMs: Date.UTC(2026, 4, 27, 14),
    });
  });

  it('settings left out: have the published defaults', () => {
    expect(passage.settings).toEqual({
      wantedProbability: 0.8,
      probabilityTolerancePoints: 2,
      slotMin: 15,
      horizonH: null,
      seed: 1,
      errorModel: 'default',
      contingencyShare: 0.5,
      contingencyLeastMin: 30,
      planningLimitRatio: 0.94,
      keepPlanUnlessBetterPoints: 5,
      spreadInflationRatio: 1,
      gustRatio: 1.3,
      deckHeightM: 2,
      traffic: 'coast',
      longestSleepMin: 20,
      shipTimeOffsetMin: 720,
      eyeHeightM: 2.5,
      otherShipKn: 20,
      lookoutLongestMin: 20,
      steadyingWindRule: true,
    });
    expect(passage.watchkeeper.sleepEfficiencyRatio).toBe(0.85);
  });

  it('a handling with one figure of its own: the rest is the usual handling', () => {
    const runOff = passage.boat.handlings.find(({ id }) => id === 'run-off');
    expect(runOff).toMatchObject({ heading: { kind: 'wind-angle', twaDeg: 165 }, speedRatio: 1 });
    expect(passage.boat.handlings.length).toBeGreaterThan(8);
    expect(passage.boat.sailStates.map(({ id }) => id)).toEqual([
      'full-main',
      'deep-reef',
      'headsail-only',
      'bare-poles',
    ]);
  });

  it('a seam of half a metre in two rows: its sewing minutes, twine and needles', () => {
    const sew = passage.jobs[1]?.steps.find(({ id }) => id === 'sew');
    expect(sew?.work.likelyMin).toBeCloseTo((2 * 0.5 * 60) / 0.6, 9);
    expect(sew?.session).toMatchObject({ longestMin: 60, restMin: 20 });
    expect(sew?.materials).toEqual([
      { item: 'waxed twine', amount: 13.8, unit: 'm' },
      { item: 'needles', amount: 4, unit: 'pieces' },
    ]);
  });

  it('what was left to its default: is listed by path, what was given is not', () => {
    expect(passage.defaultsUsed).toEqual(
      expect.arrayContaining(['settings.wantedProbability', 'jobs.hoist.priority', 'boat.handlings.heave-to']),
    );
    for (const given of ['settings.slotMin', 'jobs.stitch.priority', 'boat.handlings.run-off', 'start.sailState'])
      expect(passage.defaultsUsed).not.toContain(given);
  });

  it('22:00 on a clock twelve hours ahead, at 178.1 E: a little before ten by the sun', () => {
    expect(passage.watchkeeper.usualSleepSolarH).toBeCloseTo(22 - 12 + 178.1 / 15, 9);
  });

  it('no sleeps: three usual nights before the start are assumed and listed as default', () => {
    const { sleeps: _sleeps, ...watchkeeper } = sample().watchkeeper;
    const assumed = read({ ...sample(), watchkeeper });
    expect(assumed.defaultsUsed).toContain('watchkeeper.sleeps');
    expect(assumed.watchkeeper.sleeps.map(({ startEpochMs }) => new Date(startEpochMs).toISOString())).toEqual([
      '2026-05-25T10:00:00.000Z',
      '2026-05-26T10:00:00.000Z',
      '2026-05-27T10:00:00.000Z',
    ]);
    expect(assumed.watchkeeper.sleeps.map((sleep) => sleep.endEpochMs - sleep.startEpochMs)).toEqual(
      Array<number>(3).fill(6 * 3_600_000),
    );
  });

  it('nothing but the start, a track and a speed table: a passage with defaults', () => {
    const { slatch, name, start, track, boat } = sample();
    const least = read({
      slatch,
      name,
      start: { timeUtc: start.timeUtc, lat: start.lat, lon: start.lon },
      track,
      boat: { speedTables: boat.speedTables },
    });
    expect(least).toMatchObject({ fixedNowEpochMs: null, jobs: [], locker: { items: [] }, forecasts: [] });
    expect(least.start.sailStateId).toBe('full-main');
    expect(least.settings.longestSleepMin).toBe(180);
  });

  it('a track that begins elsewhere: the start is put before it', () => {
    const start = { ...sample().start, lat: -36, lon: 177 };
    expect(read({ ...sample(), start }).track.waypoints.map(({ lat }) => lat)).toEqual([-36, -36.3, -36.7, -34.2]);
    expect(passage.track.waypoints).toHaveLength(3);
  });

  it('a track in a GPX file: the one the caller read', () => {
    const track = { waypoints: passage.track.waypoints.slice(0, 2) };
    const file = { ...sample(), track: { gpx: 'way.gpx' } };
    expect(gpxFileOf(JSON.stringify(file))).toBe('way.gpx');
    expect(read(file, { gpxTrack: ok(track) }).track).toEqual(track);
    expect(gpxFileOf(JSON.stringify(sample()))).toBeNull();
  });

  it('a GPX file that is wrong, or was not read: its problems', () => {
    const file = JSON.stringify({ ...sample(), track: { gpx: 'way.gpx' } });
    const problem = { code: 'gpx.not-gpx', where: 'way.gpx', what: 'x', expected: 'x', remedy: 'x' };
    expect(parsePassage(file, 'a.json', { gpxTrack: failed(problem) })).toEqual(failed(problem));
    expect(parsePassage(file, 'a.json')).toMatchObject({ problems: [{ code: 'passage.gpx-missing' }] });
  });
});

describe('passage.schema.json', () => {
  it('the committed schema: is that of the code (scripts/write-passage-schema.ts writes it)', () => {
    const committed: unknown = JSON.parse(
      readFileSync(new URL('../../lib/passage/passage.schema.json', import.meta.url), 'utf8'),
    );
    expect(committed).toEqual(passageJsonSchema());
  });
});
