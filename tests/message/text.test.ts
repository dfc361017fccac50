import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatId, parseId } from '../../lib/message/text/id-text.ts';
import { formatNote, MOST_NOTE_COUNT, parseNote, sendableNote } from '../../lib/message/text/note-text.ts';
import { formatInstant, formatLater, parseInstant } from '../../lib/message/text/times.ts';
import { drawnBase, RUNS } from './drawn.ts';

const at = (utc: string): number => Date.parse(utc);

describe('times', () => {
  // The calendar itself is the reference.
  test.each([
    ['31 January read in February', '2026-02-01T00:10Z', '312350', '2026-01-31T23:50Z'],
    ['1 March read at the end of February', '2026-02-27T12:00Z', '010600', '2026-03-01T06:00Z'],
    ['29 February in a leap year', '2028-02-28T12:00Z', '290600', '2028-02-29T06:00Z'],
    [
      '29 from 1 March, no leap year: January has one, March is nearer than that',
      '2027-03-10T00:00Z',
      '290600',
      '2027-03-29T06:00Z',
    ],
    ['1 January read in December', '2026-12-30T22:00Z', '010100', '2027-01-01T01:00Z'],
    ['31 December read in January', '2027-01-02T00:00Z', '312359', '2026-12-31T23:59Z'],
    ['31st read in a month of 30 days', '2026-06-01T00:00Z', '311200', '2026-05-31T12:00Z'],
  ])('%s', (_, base, text, expected) => {
    const baseEpochMs = at(base);
    expect(parseInstant(text, { afterEpochMs: baseEpochMs, baseEpochMs })).toBe(at(expected));
  });

  test.each(['320000', '002400', '012460', '0', '290260000x', '2602300000', '2613010000', '2400', '1261'])(
    '%s is no time',
    (text) => {
      const baseEpochMs = at('2026-02-10T00:00Z');
      expect(parseInstant(text, { afterEpochMs: baseEpochMs, baseEpochMs })).toBeNull();
    },
  );

  test('any instant comes back, near or far, alone or after another', () => {
    const minutes = fc.integer({ min: -60_000, max: 60_000 });
    fc.assert(
      fc.property(drawnBase, minutes, minutes, (baseEpochMs, first, second) => {
        const [afterEpochMs, epochMs] = [baseEpochMs + first * 60_000, baseEpochMs + second * 60_000];
        const of = { afterEpochMs, baseEpochMs };
        expect(parseInstant(formatInstant(epochMs, baseEpochMs), of)).toBe(epochMs);
        expect(parseInstant(formatLater(epochMs, of), of)).toBe(epochMs);
      }),
      { ...RUNS, numRuns: 2000 },
    );
  });
});

describe('names', () => {
  test('any text comes back, in characters that can be sent', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'grapheme' }), fc.stringMatching(/^[A-Za-z0-9_-]*$/)), (id) => {
        expect(formatId(id)).toMatch(/^[A-Z0-9!()-]*$/);
        expect(parseId(formatId(id))).toBe(id);
      }),
      RUNS,
    );
  });

  test('an ordinary id stays readable', () => expect(formatId('run-off')).toBe('RUN-OFF'));

  test.each(['a', '!', '!a', '(', '(2F', '(110000)', 'A B', '_'])('"%s" is no name', (text) =>
    expect(parseId(text)).toBeNull(),
  );
});

describe('notes', () => {
  test('what can be sent of any text is sent, comes back, and is the same when it is put in again', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), (text) => {
        const note = sendableNote(text);
        expect(note.length).toBeLessThanOrEqual(MOST_NOTE_COUNT);
        expect(sendableNote(note)).toBe(note);
        expect(formatNote(note)).toMatch(/^[A-Z0-9+.!()-]*$/);
        expect(parseNote(formatNote(note))).toBe(note === '' ? null : note);
      }),
      RUNS,
    );
  });

  test('accents go, marks stay', () =>
    expect(sendableNote('Über 15 kn: don’t go –  50 % sure!')).toBe("UBER 15 KN: DON'T GO - 50 % SURE!"));
});
