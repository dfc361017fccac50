import { describe, expect, test } from 'vitest';
import { appendProblems, formatLogEntry, logProblems, readLogEntry } from '../../lib/log/index.ts';
import { at, demoPassage, entryOf, event, logOf, seen, slept, utc } from './demo.ts';

// What is refused follows from the sense of the words: half a position is none, a wind of nothing has no direction.

const codesOf = (raw: unknown): string[] => {
  const read = readLogEntry(raw, 'entry');
  return read.ok ? [] : read.problems.map(({ code, where }) => `${code} at ${where}`);
};

describe('an entry of the log', () => {
  test.each([
    ['a wind by instrument', seen('27 18:30', { wind: { kind: 'true', speedKn: 12, fromDegTrue: 240 }, gustKn: 17 })],
    ['a calm', seen('27 18:30', { wind: { kind: 'true', speedKn: 0 } })],
    ['a note alone in an observation', seen('27 18:30', { note: 'whale' })],
    ['a sleep of a day', slept('26 10:00', '27 10:00')],
    ['a job stopped inside a step', event('stitch', 'stopped', '28 03:00', { stepId: 'lay-out', workedMin: 50 })],
    ['a correction that takes back', { kind: 'correction', atUtc: utc('28 03:00'), corrects: 3, by: null }],
  ])('%s: comes back as it was given, and reads again from its line', (_, raw) => {
    expect(readLogEntry(raw, 'entry')).toEqual({ ok: true, value: raw });
    expect(JSON.parse(formatLogEntry(entryOf(raw)))).toEqual(raw);
    expect(formatLogEntry(entryOf(raw))).not.toContain('\n');
  });

  test.each([
    ['nothing but its time', seen('27 18:30', {}), ['log.nothing-seen at entry']],
    ['a latitude alone', seen('27 18:30', { lat: -36 }), ['log.half-a-position at entry, lon']],
    ['a longitude alone', seen('27 18:30', { lon: 178 }), ['log.half-a-position at entry, lat']],
    [
      'the direction of a calm',
      seen('27 18:30', { wind: { kind: 'true', speedKn: 0, fromDegTrue: 90 } }),
      ['log.calm-direction at entry, wind.fromDegTrue'],
    ],
    [
      'a gust below the wind',
      seen('27 18:30', { wind: { kind: 'true', speedKn: 14 }, gustKn: 12 }),
      ['log.gust-below at entry, gustKn'],
    ],
    ['a sleep of no length', slept('27 10:00', '27 10:00'), ['log.sleep-order at entry, endUtc']],
    ['a sleep backwards', slept('27 10:00', '27 09:00'), ['log.sleep-order at entry, endUtc']],
    ['a sleep of more than a day', slept('26 10:00', '27 10:01'), ['log.sleep-long at entry, endUtc']],
    ['an hour that is none', seen('27 25:00', { airC: 12 }), ['time.not-an-instant at entry, atUtc']],
    [
      'minutes of a start',
      event('drop', 'started', '27 18:30', { workedMin: 3 }),
      ['log.not-for-event at entry, workedMin'],
    ],
    [
      'a step of the end',
      event('drop', 'done', '27 18:30', { stepId: 'lash' }),
      ['log.not-for-event at entry, stepId'],
    ],
    ['a key misspelt', seen('27 18:30', { presureHpa: 1012 }), ['log.key-unknown at entry, presureHpa']],
    ['a kind there is not', { kind: 'weather', atUtc: utc('27 18:30') }, ['log.value at entry, kind']],
    [
      'a correction by something wrong in two ways',
      { kind: 'correction', atUtc: utc('28 03:00'), corrects: 1, by: seen('27 99:00', { lat: 3 }) },
      ['time.not-an-instant at entry, by, atUtc', 'log.half-a-position at entry, by, lon'],
    ],
    ['no object at all', 7, ['log.type at entry']],
  ])('%s: is refused, and it says where', (_, raw, codes) => {
    expect(codesOf(raw)).toEqual(codes);
  });
});

describe('an entry to be added', () => {
  const { jobs } = demoPassage();
  const log = logOf(seen('27 18:30', { pressureHpa: 1012 }), {
    kind: 'correction',
    atUtc: utc('27 19:00'),
    corrects: 1,
    by: null,
  });
  const codes = (raw: object, now = '28 12:00'): string[] =>
    appendProblems({ entry: entryOf(raw), entries: log, jobs, nowEpochMs: at(now) }, 'entry').map(({ code }) => code);

  test.each([
    ['of a minute hence, as clocks differ', seen('28 12:01', { airC: 12 }), []],
    ['of two minutes hence', seen('28 12:02', { airC: 12 }), ['log.future']],
    ['a sleep that still goes on', slept('28 10:00', '28 13:00'), ['log.future']],
    [
      'a correction to what is still to come',
      { kind: 'correction', atUtc: utc('28 11:00'), corrects: 1, by: seen('29 11:00', { airC: 3 }) },
      ['log.future'],
    ],
    ['of a job there is not', event('dorp', 'done', '28 11:00'), ['log.job-unknown']],
    ['of a step there is not', event('drop', 'stopped', '28 11:00', { stepId: 'lower-it' }), ['log.step-unknown']],
    [
      'a correction of nothing',
      { kind: 'correction', atUtc: utc('28 11:00'), corrects: 9, by: null },
      ['log.corrects-nothing'],
    ],
    [
      'a correction of a correction',
      { kind: 'correction', atUtc: utc('28 11:00'), corrects: 2, by: null },
      ['log.corrects-correction'],
    ],
    ['a second correction', { kind: 'correction', atUtc: utc('28 11:00'), corrects: 1, by: null }, []],
    ['of a job there is', event('drop', 'safe-point', '28 11:00', { stepId: 'tame' }), []],
  ])('%s: %#', (_, raw, expected) => {
    expect(codes(raw)).toEqual(expected);
  });

  test('a misspelt job: the nearest name is offered', () => {
    const entry = entryOf(event('dorp', 'done', '28 11:00'));
    const [problem] = appendProblems({ entry, entries: [], jobs, nowEpochMs: at('28 12:00') }, 'entry');
    expect(problem?.remedy).toContain('"drop"');
  });

  test('a correction before what it corrects, in a log: said with the number of the entry', () => {
    const entries = logOf(
      { kind: 'correction', atUtc: utc('27 19:00'), corrects: 2, by: null },
      seen('27 18:30', { pressureHpa: 1012 }),
    );
    expect(logProblems(entries, jobs, 'log.jsonl').map(({ code, where }) => ({ code, where }))).toEqual([
      { code: 'log.corrects-nothing', where: 'log.jsonl, entry 1, corrects' },
    ]);
  });
});
