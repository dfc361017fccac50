import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  effectiveEntries,
  formatLogEntry,
  logRows,
  mergedSleeps,
  parseLog,
  type NumberedEntry,
} from '../../lib/log/index.ts';
import { at, entryOf, logOf, seen, slept, utc } from './demo.ts';
import { anyLog, sleepsOfMay } from './any-log.ts';

// Rules of the log: nothing is changed or removed; a correction names the entry as first written; the one written last holds.

const corrects = (number: number, by: object | null, when: string): object => ({
  kind: 'correction',
  atUtc: utc(when),
  corrects: number,
  by,
});

describe('effective entries', () => {
  test('in order of time, and of number where times are the same', () => {
    const entries = logOf(seen('28 02:00', { airC: 1 }), seen('28 01:00', { airC: 2 }), seen('28 01:00', { airC: 3 }));
    expect(effectiveEntries(entries).map(({ number }) => number)).toEqual([2, 3, 1]);
  });

  test('of two corrections the one written last holds, whatever instant it bears', () => {
    const entries = logOf(
      seen('28 01:00', { airC: 1 }),
      corrects(1, seen('28 01:00', { airC: 2 }), '28 09:00'),
      corrects(1, seen('28 05:00', { airC: 3 }), '28 08:00'),
    );
    expect(effectiveEntries(entries)).toEqual([
      { number: 1, statement: seen('28 05:00', { airC: 3 }), atEpochMs: at('28 05:00'), correctedBy: entries[2] },
    ]);
  });

  test('withdrawn: left out; corrected once more: back', () => {
    const withdrawn = logOf(seen('28 01:00', { airC: 1 }), corrects(1, null, '28 02:00'));
    expect(effectiveEntries(withdrawn)).toEqual([]);
    expect(logRows(withdrawn).map(({ isWithdrawn }) => isWithdrawn)).toEqual([true, false]);
    const again = { number: 3, entry: entryOf(corrects(1, seen('28 01:00', { airC: 4 }), '28 03:00')) };
    const [back] = effectiveEntries([...withdrawn, again]);
    expect(back?.statement).toEqual(seen('28 01:00', { airC: 4 }));
  });

  test('a correction of a correction, of itself or of a later entry corrects nothing', () => {
    const entries = logOf(
      corrects(2, null, '28 00:30'),
      seen('28 01:00', { airC: 1 }),
      corrects(3, null, '28 02:00'),
      corrects(1, null, '28 02:00'),
    );
    expect(effectiveEntries(entries).map(({ number }) => number)).toEqual([2]);
  });

  test('property: the same whatever order entries are read in, and after writing and reading', () => {
    fc.assert(
      fc.property(anyLog, fc.array(fc.nat(), { minLength: 12, maxLength: 12 }), (entries, draws) => {
        const shuffled = entries
          .map((entry, index) => ({ entry, draw: draws[index] ?? 0 }))
          .toSorted((a, b) => a.draw - b.draw)
          .map(({ entry }) => entry);
        expect(effectiveEntries(shuffled)).toEqual(effectiveEntries(entries));
        const text = entries.map(({ entry }) => `${formatLogEntry(entry)}\n`).join('');
        expect(parseLog(text, 'log')).toEqual({ ok: true, value: entries });
      }),
      { seed: 3, numRuns: 100 },
    );
  });

  test('property: a correction changes the entry it names and no other', () => {
    fc.assert(
      fc.property(anyLog, fc.nat(), fc.boolean(), (entries, draw, isWithdrawal) => {
        const corrected = (draw % (entries.length + 2)) + 1;
        const by = isWithdrawal ? null : seen('29 00:00', { airC: 7 });
        const number = entries.length + 1;
        const added: NumberedEntry[] = logOf(corrects(corrected, by, '30 00:00')).map(({ entry }) => ({
          number,
          entry,
        }));
        const others = (of: readonly NumberedEntry[]) => effectiveEntries(of).filter((one) => one.number !== corrected);
        expect(others([...entries, ...added])).toEqual(others(entries));
      }),
      { seed: 4, numRuns: 150 },
    );
  });
});

describe('sleeps of the log', () => {
  test('overlapping ones are one, which is said; those that only touch are one without a word', () => {
    const { sleeps, notes } = mergedSleeps(
      logOf(
        slept('27 10:00', '27 12:00'),
        slept('27 11:30', '27 13:00'),
        slept('28 01:00', '28 02:00'),
        slept('28 02:00', '28 03:00'),
      ),
    );
    expect(sleeps).toEqual([
      { startEpochMs: at('27 10:00'), endEpochMs: at('27 13:00') },
      { startEpochMs: at('28 01:00'), endEpochMs: at('28 03:00') },
    ]);
    expect(notes.map(({ entryNumbers }) => entryNumbers)).toEqual([[1, 2]]);
  });

  test('property: asleep in a minute exactly when some entry says so', () => {
    fc.assert(
      fc.property(sleepsOfMay, (entries) => {
        const { sleeps } = mergedSleeps(entries);
        const isIn = (spans: readonly { startEpochMs: number; endEpochMs: number }[], epochMs: number): boolean =>
          spans.some(({ startEpochMs, endEpochMs }) => epochMs >= startEpochMs && epochMs < endEpochMs);
        const given = entries.flatMap(({ entry }) =>
          entry.kind === 'sleep'
            ? [{ startEpochMs: Date.parse(entry.atUtc), endEpochMs: Date.parse(entry.endUtc) }]
            : [],
        );
        for (let min = 0; min < 72 * 60; min += 5) {
          const epochMs = at('27 00:00') + min * 60_000;
          expect(isIn(sleeps, epochMs)).toBe(isIn(given, epochMs));
        }
        sleeps
          .slice(1)
          .forEach((sleep, k) => expect(sleep.startEpochMs).toBeGreaterThan(sleeps[k]?.endEpochMs ?? Infinity));
      }),
      { seed: 5, numRuns: 30 },
    );
  });
});
