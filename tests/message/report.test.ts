import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LogEntryFile, NumberedEntry } from '../../lib/log/index.ts';
import {
  backupLine,
  entriesOfReport,
  messageText,
  readMessages,
  reportOf,
  writeMessage,
} from '../../lib/message/index.ts';
import type { Message, ReportMessage } from '../../lib/message/index.ts';
import { smsLength } from '../../lib/message/index.ts';
import { drawnBase, RUNS } from './drawn.ts';
import { valueOf } from './value-of.ts';

// What the log says is the reference: it must come out at the other end, to the scales of the message.

const NOW = Date.parse('2026-05-28T12:00Z');
const numbered = (entries: readonly LogEntryFile[]): readonly NumberedEntry[] =>
  entries.map((entry, index) => ({ number: index + 1, entry }));

function throughTheAir(message: ReportMessage): Message | undefined {
  const mark = { sender: 'LW', counterNumber: 3 };
  const parts = valueOf(writeMessage(message, mark, { limitCount: 160, keyOctets: null }));
  const { read, unread, damaged } = readMessages(parts.toReversed().join('\n'), { where: 'test', keyOctets: null });
  expect([unread, damaged]).toEqual([[], []]);
  return read[0]?.message;
}

const LOG: readonly LogEntryFile[] = [
  {
    kind: 'observation',
    atUtc: '2026-05-28T08:30Z',
    lat: -35.9733,
    lon: 179.9,
    pressureHpa: 1014.2,
    wind: { kind: 'true', speedKn: 14, fromDegTrue: 200 },
  },
  { kind: 'sleep', atUtc: '2026-05-28T01:00Z', endUtc: '2026-05-28T03:30Z' },
  { kind: 'job', atUtc: '2026-05-28T04:00Z', jobId: 'drop', event: 'started' },
  {
    kind: 'job',
    atUtc: '2026-05-28T05:10Z',
    jobId: 'drop',
    event: 'safe-point',
    stepId: 'lash',
    workedMin: 65,
    note: 'Halyard jammed, freed.',
  },
  { kind: 'job', atUtc: '2026-05-26T05:10Z', jobId: 'oil', event: 'done', workedMin: 20 },
  { kind: 'note', atUtc: '2026-05-28T09:00Z', note: 'Long swell from SW' },
  {
    kind: 'observation',
    atUtc: '2026-05-28T11:30Z',
    lat: -35.9733,
    lon: -179.9,
    sailState: 'deep-reef',
    wind: { kind: 'apparent', speedKn: 15, angleDeg: -40, headingDegTrue: 85, boatSpeedKn: 6.2 },
    gustKn: 19,
    pressureHpa: 1013,
    seaHeightM: 1.7,
    wavePeriodS: 8,
    sky: 'overcast',
    rain: false,
    note: 'Black cloud to windward',
  },
];

describe('a report', () => {
  const message = valueOf(reportOf(numbered(LOG), NOW, { note: 'All well' }));

  test('what is written is read', () => expect(throughTheAir(message)).toEqual(message));

  test('made good over the date line, by plane sailing: 0.2 deg of longitude at 35.97 S in 3 h', () => {
    // Departure = difference of longitude × cos(latitude): 12 min × cos 35.9733 deg = 9.71 nm (Bowditch, The Sailings).
    expect(message.madeGood).toEqual({ courseTowardDegTrue: 90, speedKn: 3.2 });
  });

  test('pressure over three hours', () => expect(message.pressureTrendHpa).toBe(-1.2));

  test('plain words: known and unknown', () => {
    const text = messageText(message);
    expect(text[0]).toBe(
      'Report of Thu 28 May 2026 12:00 UTC; changes since Wed 27 May 2026 12:00 UTC. All times are UTC.',
    );
    expect(text).toContain(
      `Seen Thu 28 May 11:30: at 35°58.4'S 179°54.0'W, sails "deep-reef", apparent wind 15.0 kn, 40 degrees from the bow to port, heading 085 true at 6.2 kn, gust 19.0 kn, pressure 1013.0 hPa, sea 1.7 m, period of the waves 8.0 s, sky overcast, no rain.`,
    );
    expect(text).toContain('  Not observed: visibility, air, sea water.');
    expect(text).toContain('Pressure falling 1.2 hPa in 3 h.');
    expect(text).toContain('Time in the bunk in the last 24 h: 2 h 30 min: Thu 28 May 01:00 to 03:30.');
    expect(text).toContain('Job "oil": done Tue 26 May 05:10, 20 min worked.');
    expect(text).toContain(
      'Job "drop": at a safe point Thu 28 May 05:10, step "lash" finished, 65 min worked. Note: HALYARD JAMMED, FREED.',
    );
    expect(text).toContain('Note of Thu 28 May 12:00: ALL WELL');
  });

  test('entries come back, those of the log that got it already are left out', () => {
    const entries = valueOf(entriesOfReport(message));
    expect(entries).toHaveLength(7);
    expect(entries[0]).toMatchObject({
      kind: 'observation',
      lat: -21_584 / 600,
      lon: -179.9,
      pressureHpa: 1013,
      rain: false,
    });
    expect(entries.filter(({ kind }) => kind === 'job')).toHaveLength(3);
    expect(valueOf(entriesOfReport(message, numbered(entries)))).toEqual([]);
    const some = valueOf(entriesOfReport(message, numbered(entries.slice(0, 3))));
    expect(some).toEqual(entries.slice(3));
  });

  test('what is told is what the log holds after its corrections', () => {
    const corrected = numbered([
      ...LOG,
      { kind: 'correction', atUtc: '2026-05-28T11:40Z', corrects: 2, by: null },
      { kind: 'correction', atUtc: '2026-05-28T11:40Z', corrects: 5, by: { ...OIL, workedMin: 25 } },
    ]);
    const { sleeps, jobEvents } = valueOf(reportOf(corrected, NOW));
    expect(sleeps).toEqual([]);
    expect(jobEvents[0]).toMatchObject({ jobId: 'oil', workedMin: 25 });
  });
  const OIL = { kind: 'job', atUtc: '2026-05-26T05:10Z', jobId: 'oil', event: 'done' } as const;

  test('an empty log: everything is unknown, and said to be', () => {
    const empty = valueOf(reportOf([], NOW));
    expect(throughTheAir(empty)).toEqual(empty);
    expect(messageText(empty)).toEqual([
      'Report of Thu 28 May 2026 12:00 UTC; changes since Wed 27 May 2026 12:00 UTC. All times are UTC.',
      'Nothing observed is in this message: position and weather are unknown.',
      'Course and speed made good: unknown.',
      'Change of pressure in 3 h: unknown.',
      'No sleep is logged in the last 24 h.',
      'No state of any job is in this message.',
    ]);
  });

  test('nothing changed is said', () => {
    const quiet = valueOf(reportOf(numbered(LOG.filter(({ kind }) => kind === 'job').slice(2)), NOW));
    expect(messageText(quiet)).toContain('No change of any job since Wed 27 May 12:00. The last of each:');
  });

  test('entries later than now are left out', () => {
    const { observations } = valueOf(reportOf(numbered(LOG), Date.parse('2026-05-28T11:00Z')));
    expect(observations[0]?.atEpochMs).toBe(Date.parse('2026-05-28T08:30Z'));
  });

  test('the line for a lost key fits a short message and needs none', () => {
    const line = backupLine(message);
    expect(smsLength(line)).toMatchObject({ encoding: 'gsm-7', segmentCount: 1 });
    expect(line).toMatch(
      /^Report of Thu 28 May 12:00Z\. Position 35 58\.4S 179 54\.0W\. Apparent wind 15 kn\. 1013 hPa\./,
    );
  });
});

describe('any log', () => {
  const maybe = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(of, { nil: undefined });
  const within = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
  const id = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9_-]{0,12}$/);
  const note = fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 60 });
  const wind = fc.oneof(
    fc.record({ kind: fc.constant('true' as const), speedKn: within(0.001, 150), fromDegTrue: within(0, 360) }),
    fc.record({ kind: fc.constant('true' as const), speedKn: within(0, 150) }),
    fc.record({
      kind: fc.constant('apparent' as const),
      speedKn: within(0, 150),
      angleDeg: within(-180, 360),
      headingDegTrue: within(0, 360),
      boatSpeedKn: within(0, 40),
    }),
  );
  const entry = (base: number): fc.Arbitrary<LogEntryFile> => {
    const utc = fc
      .integer({ min: -30 * 1440 * 60, max: 3600 })
      .map((second) => new Date(base + second * 1000).toISOString().replace(/\.\d+/, ''));
    return fc.oneof(
      fc
        .record({
          atUtc: utc,
          lat: within(-90, 90),
          lon: within(-180, 180),
          sailState: maybe(id),
          wind: maybe(wind),
          gustKn: maybe(within(0, 200)),
          pressureHpa: maybe(within(870, 1090)),
          seaHeightM: maybe(within(0, 30)),
          wavePeriodS: maybe(within(1, 30)),
          sky: maybe(fc.constantFrom('clear' as const, 'partly-cloudy' as const, 'squalls' as const, 'fog' as const)),
          rain: maybe(fc.boolean()),
          visibilityNm: maybe(within(0, 60)),
          airC: maybe(within(-40, 60)),
          seaWaterC: maybe(within(-3, 40)),
          note: maybe(note),
        })
        .map(
          ({ gustKn, wind: seen, ...values }): LogEntryFile =>
            // Keys without a value are left out, as in the file.
            ({
              kind: 'observation',
              ...Object.fromEntries(
                Object.entries({
                  ...values,
                  wind: seen,
                  gustKn: gustKn === undefined ? undefined : Math.max(gustKn, seen?.speedKn ?? 0),
                }).filter(([, v]) => v !== undefined),
              ),
            }) as LogEntryFile,
        ),
      fc
        .record({ jobId: id, atUtc: utc, stepId: id, workedMin: fc.integer({ min: 0, max: 6000 }), note })
        .map((values): LogEntryFile => ({ kind: 'job', event: 'safe-point', ...values })),
      fc.record({ atUtc: utc, note }).map((values): LogEntryFile => ({ kind: 'note', ...values })),
      fc
        .record({ atUtc: utc, lengthMin: fc.integer({ min: 1, max: 700 }) })
        .map(({ atUtc, lengthMin }): LogEntryFile => {
          const endUtc = new Date(Date.parse(atUtc) + lengthMin * 60_000).toISOString();
          return { kind: 'sleep', atUtc, endUtc };
        }),
    );
  };

  test('what is written is read, and becomes entries of a log that send the same again', () => {
    fc.assert(
      fc.property(
        drawnBase.chain((base) => fc.tuple(fc.constant(base), fc.array(entry(base), { maxLength: 20 }))),
        ([base, entries]) => {
          const message = valueOf(reportOf(numbered(entries), base, { mostObservationsCount: 5 }));
          expect(throughTheAir(message)).toEqual(message);
          const back = valueOf(entriesOfReport(message));
          expect(valueOf(entriesOfReport(message, numbered(back)))).toEqual([]);
          expect(messageText(message).length).toBeGreaterThan(4);
        },
      ),
      RUNS,
    );
  });
});
