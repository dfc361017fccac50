import { describe, expect, it } from 'vitest';
import { parsePassage } from '../../lib/passage/index.ts';
import { formatGpx } from '../../lib/track/index.ts';
import { type Entered, inputOf, passageOf, trackLines } from '../../server/new-passage/index.ts';

const H = 3_600_000;
const nowEpochMs = Date.UTC(2026, 4, 27, 18);
const track = "36°18.0'S 178°06.0'E\n-36.7, -178.5 | great circle | The corner";

const entered = (texts: Readonly<Record<string, string | readonly string[]>>, more: Partial<Entered> = {}): Entered => {
  const all = (name: string): readonly string[] => [texts[name] ?? []].flat();
  return {
    form: { all, text: (name) => all(name)[0] ?? '' },
    gpx: null,
    forecasts: [],
    hours: null,
    nowEpochMs,
    ...more,
  };
};

const wrongOf = (of: Entered): readonly (readonly [string | null, string])[] =>
  passageOf(of).problems.map(({ input, problem }) => [input, problem.code]);

describe('a passage entered', () => {
  it('only a track: a passage that is accepted, all else its defaults', () => {
    const { file, problems } = passageOf(entered({ track }));
    expect(problems).toEqual([]);
    // Ship's time at 178° E is twelve hours ahead: the day is the next.
    expect(file).toMatchObject({ name: 'Passage of 28 May 2026', clock: 'live', jobs: [], forecasts: [] });
    expect(file.start).toEqual({ timeUtc: '2026-05-27T18:00Z', lat: -36.3, lon: 178.1, sailState: 'full-main' });
    expect(file.track).toEqual([
      { lat: -36.3, lon: 178.1, leg: 'rhumb' },
      { lat: -36.7, lon: -178.5, leg: 'great-circle', name: 'The corner' },
    ]);
    const passage = parsePassage(JSON.stringify(file), 'new passage');
    expect(passage.ok ? passage.value.defaultsUsed : passage.problems).toContain('watchkeeper.sleeps');
  });

  it('nothing at all: only the track is asked for', () => {
    expect(wrongOf(entered({}))).toEqual([['track', 'new.track-short']]);
  });

  it('several things wrong: every one at its input', () => {
    const wrong = wrongOf(
      entered({
        track: "36°18.0'S 178°06.0'E\nsomewhere",
        departure: 'tomorrow',
        waterlineM: '90',
        speeds: 'a,b',
        night1H: '30',
        jobs: ['no-such-job'],
        chains: ['no-such-chain'],
      }),
    );
    expect(wrong).toEqual([
      ['track', 'geo.not-a-position'],
      ['departure', 'new.departure'],
      ['night1H', 'new.figure'],
      ['waterlineM', 'new.figure'],
      ['speeds', 'boat.csv-header'],
      ['chains', 'jobs.chain-unknown'],
      ['jobs', 'jobs.library-unknown'],
    ]);
  });

  // GPX 1.1 schema (topografix.com/GPX/1/1): a route of rtept.
  it('a GPX file: its route is the track, and stands as lines for a form that is refused', () => {
    const waypoints = [
      { lat: -36.3, lon: 178.1, name: null, leg: 'rhumb' },
      { lat: -36.7, lon: -178.5, name: 'The | corner', leg: 'great-circle' },
    ] as const;
    const gpx = { fileName: 'way.gpx', text: formatGpx({ waypoints }, { name: 'way' }) };
    const { file, trackText } = passageOf(entered({ track: 'replaced' }, { gpx }));
    expect(file.track).toEqual([
      { lat: -36.3, lon: 178.1, leg: 'rhumb' },
      { lat: -36.7, lon: -178.5, leg: 'great-circle', name: 'The / corner' },
    ]);
    expect(trackText).toBe(trackLines([waypoints[0], { ...waypoints[1], name: 'The / corner' }]));
    expect(passageOf(entered({ track: trackText ?? '' })).file.track).toEqual(file.track);
    expect(wrongOf(entered({}, { gpx: { fileName: 'way.gpx', text: '<html>' } }))[0]?.[0]).toBe('gpx');
  });

  it('jobs of a chain and of the library: each once, ids of their own', () => {
    const { file, problems } = passageOf(
      entered({ track, chains: ['', 'halyard-with-mouse', 'halyard-aloft'], jobs: ['', 'fuel-filter', 'hoist-main'] }),
    );
    expect(problems).toEqual([]);
    const jobs = file.jobs ?? [];
    expect(new Set(jobs.map(({ id }) => id)).size).toBe(jobs.length);
    expect(jobs.filter(({ from }) => from === 'fuel-filter')).toHaveLength(1);
    expect(jobs.filter(({ from }) => from === 'hoist-main')).toHaveLength(2);
    expect(parsePassage(JSON.stringify(file), 'new passage').ok).toBe(true);
  });
});

describe('a chain cut down', () => {
  const jobsOf = (texts: Readonly<Record<string, string | readonly string[]>>) =>
    passageOf(entered({ track, chains: ['one-drop'], ...texts })).file.jobs ?? [];

  it('jobs not ticked stay away, those that always belong to it come, and the order closes over the gap', () => {
    const jobs = jobsOf({ 'links-one-drop': ['', 'stitch', 'patch'] });
    expect(jobs.map(({ id }) => id)).toEqual(['drop', 'stitch', 'patch', 'hoist', 'inspect']);
    expect(jobs.find(({ id }) => id === 'patch')?.after?.toSorted()).toEqual(['drop', 'stitch']);
  });

  it('its list not sent: all of it; sent empty: only what always belongs to it', () => {
    expect(jobsOf({})).toHaveLength(13);
    expect(jobsOf({ 'links-one-drop': '' }).map(({ id }) => id)).toEqual(['drop', 'hoist', 'inspect']);
  });
});

describe('departure', () => {
  const hours = { firstEpochMs: nowEpochMs - 6 * H, endEpochMs: nowEpochMs + 96 * H };
  const startOf = (texts: Readonly<Record<string, string>>, more: Partial<Entered> = {}): string =>
    passageOf(entered({ track, ...texts }, { hours, ...more })).file.start.timeUtc;

  it('written in ship’s time, in UTC, with a Z behind it: the same instant', () => {
    expect(startOf({ departure: '2026-05-28T09:00' })).toBe('2026-05-27T21:00Z');
    expect(startOf({ departure: '2026-05-27 2100', zone: 'utc' })).toBe('2026-05-27T21:00Z');
    expect(startOf({ departure: '2026-05-27T21:00Z' })).toBe('2026-05-27T21:00Z');
  });

  it('left empty: now where the forecast holds it, else its first hour', () => {
    expect(startOf({})).toBe('2026-05-27T18:00Z');
    const later = { firstEpochMs: nowEpochMs + 6 * H, endEpochMs: nowEpochMs + 96 * H };
    expect(startOf({}, { hours: later })).toBe('2026-05-28T00:00Z');
  });

  // Ship's time at 178° E is twelve hours ahead of UTC.
  it('before the first hour of the forecast: refused, with both instants on both clocks', () => {
    const { problems } = passageOf(entered({ track, departure: '2026-05-27T11:59Z' }, { hours }));
    expect(problems).toMatchObject([{ input: 'departure', problem: { code: 'new.departure-early' } }]);
    expect(problems[0]?.problem.what).toBe(
      'The departure, Wed 27 May 23:59 ship’s time (Wed 27 May 11:59 UTC), is before the first hour of the forecast, Thu 28 May 00:00 ship’s time (Wed 27 May 12:00 UTC).',
    );
    expect(passageOf(entered({ track, departure: '2026-05-27T12:00Z' }, { hours })).problems).toEqual([]);
  });

  it('after the end of the forecast: refused, with its hours', () => {
    const { problems } = passageOf(entered({ track, departure: '2026-06-20T00:00Z' }, { hours }));
    expect(problems).toMatchObject([{ input: 'departure', problem: { code: 'new.departure-late' } }]);
    expect(problems[0]?.problem.expected).toBe(
      'from Thu 28 May 00:00 ship’s time (Wed 27 May 12:00 UTC) to before Mon 1 Jun 06:00 ship’s time (Sun 31 May 18:00 UTC)',
    );
  });

  it('a forecast that is over: refused with a clock that runs, taken with one held at the departure', () => {
    const over = { firstEpochMs: nowEpochMs - 200 * H, endEpochMs: nowEpochMs - 100 * H };
    expect(wrongOf(entered({ track }, { hours: over }))).toEqual([['clock', 'new.forecast-over']]);
    const { file, problems } = passageOf(entered({ track, clock: 'held' }, { hours: over }));
    expect(problems).toEqual([]);
    expect(file.clock).toEqual({ fixedUtc: file.start.timeUtc });
    expect(file.start.timeUtc).toBe('2026-05-19T10:00Z');
  });
});

describe('sleep of the last nights', () => {
  it('hours of some nights: each at the usual hour, the last one over before the departure', () => {
    const { file } = passageOf(
      entered({ track, departure: '2026-05-28T03:00', usualSleepLocal: '9:30', night1H: '4,5', night3H: '0' }),
    );
    // 03:00 of ship's time is 15:00 UTC of the day before; 09:30 is 21:30 UTC.
    expect(file.start.timeUtc).toBe('2026-05-27T15:00Z');
    expect(file.watchkeeper).toEqual({
      usualSleepLocal: '09:30',
      sleeps: [
        { startUtc: '2026-05-26T21:30Z', endUtc: '2026-05-27T02:00Z' },
        { startUtc: '2026-05-25T21:30Z', endUtc: '2026-05-26T03:30Z' },
      ],
    });
    expect(parsePassage(JSON.stringify(file), 'new passage').ok).toBe(true);
  });

  it('no sleep in three nights: refused, for nothing would be known', () => {
    expect(wrongOf(entered({ track, night1H: '0', night2H: '0', night3H: '0' }))).toEqual([
      ['night1H', 'new.no-sleep'],
    ]);
  });
});

describe('problems of the checked passage', () => {
  it.each([
    ['new passage, start.timeUtc', 'departure'],
    ['new passage, track[1].lat', 'track'],
    ['new passage, boat.speedTables.full-main[3].boatSpeedKn', 'speeds'],
    ['new passage, watchkeeper.sleeps[0]', 'night1H'],
    ['new passage, watchkeeper.usualSleepLocal', 'usualSleepLocal'],
    ['new passage, settings.seed', null],
    ['new passage, names', null],
  ])('%s: at %s', (where, input) => {
    expect(inputOf(where)).toBe(input);
  });
});
