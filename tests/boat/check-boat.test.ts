import { describe, expect, it } from 'vitest';
import { boatProblems, formatSpeedTableCsv, parseSpeedTableCsv } from '../../lib/boat/index.ts';
import { fullSail, handlingOf, testBoat } from './test-boat.ts';

const codes = (...args: Parameters<typeof boatProblems>): readonly string[] =>
  boatProblems(...args).map(({ code, where }) => `${code} ${where}`);

describe('boatProblems', () => {
  it('a sound boat with the default handlings: none', () => {
    expect(boatProblems(testBoat, 'boat')).toEqual([]);
  });

  it('no table at all', () => {
    expect(codes({ ...testBoat, speedTables: {} }, 'boat')).toEqual(['boat.no-speed-table boat.speedTables']);
  });

  it('a misspelt sail state: found with a suggestion', () => {
    const handlings = [{ ...handlingOf('heave-to'), sailStates: ['full-mian'] }];
    const [problem] = boatProblems({ ...testBoat, handlings }, 'boat');
    expect(problem).toMatchObject({ code: 'boat.sail-state-unknown', remedy: 'Did you mean "full-main"?' });
  });

  it('several mistakes at once: all of them, each with its place', () => {
    const speedTables = {
      'full-main': [...fullSail, { twaDeg: 90, twsKn: 10, boatSpeedKn: 6 }, { twaDeg: 200, twsKn: -1, boatSpeedKn: 4 }],
      trysail: [],
    };
    const limits = { ...handlingOf('heave-to').limits, seaHeightM: { ideal: 3, caution: 2, noGo: 4 } };
    const handlings = [{ ...handlingOf('heave-to'), limits }];
    expect(codes({ ...testBoat, speedTables, handlings }, 'boat')).toEqual([
      'boat.speed-row-range boat.speedTables.full-main[7].twaDeg',
      'boat.speed-row-range boat.speedTables.full-main[7].twsKn',
      'boat.speed-row-twice boat.speedTables.full-main[6]',
      'boat.sail-state-unknown boat.speedTables',
      'boat.speed-table-empty boat.speedTables.trysail',
      'boat.levels-order boat.handlings[0].limits.seaHeightM',
    ]);
  });

  it('not a number: out of range, never let through', () => {
    const speedTables = { 'full-main': [{ twaDeg: NaN, twsKn: NaN, boatSpeedKn: NaN }] };
    expect(boatProblems({ ...testBoat, speedTables }, 'boat')).toHaveLength(3);
  });
});

describe('speed table as CSV', () => {
  it('written and read: the same rows', () => {
    expect(parseSpeedTableCsv(formatSpeedTableCsv(fullSail), 'a.csv')).toEqual({ ok: true, value: fullSail });
  });

  it('columns in another order, Windows line ends, spaces, byte order mark: read', () => {
    const read = parseSpeedTableCsv('\uFEFFboat_speed_kn, twa_deg ,tws_kn\r\n 5.5 ,90, 10\r\n\r\n', 'a.csv');
    expect(read).toEqual({ ok: true, value: [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 5.5 }] });
  });

  it.each([
    ['no header', '45,10,5\n', ['boat.csv-header a.csv, line 1']],
    ['header only', 'twa_deg,tws_kn,boat_speed_kn\n', ['boat.csv-number a.csv, line 2']],
    ['decimal comma', 'twa_deg,tws_kn,boat_speed_kn\n45;10;5\n', ['boat.csv-number a.csv, line 2']],
    [
      'a word, an angle',
      'twa_deg,tws_kn,boat_speed_kn\n45,ten,5\n190,10,5\n',
      ['boat.csv-number a.csv, line 2', 'boat.speed-row-range a.csv, line 3.twaDeg'],
    ],
    ['a row twice', 'twa_deg,tws_kn,boat_speed_kn\n45,10,5\n45,10,6\n', ['boat.speed-row-twice a.csv[1]']],
  ])('%s: refused with the line', (_, text, expected) => {
    const read = parseSpeedTableCsv(text, 'a.csv');
    expect(read.ok ? [] : read.problems.map(({ code, where }) => `${code} ${where}`)).toEqual(expected);
  });
});
