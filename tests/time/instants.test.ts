import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { ok } from '../../lib/result/index.ts';
import { formatAt, formatUtc, parseUtc } from '../../lib/time/index.ts';
import golden from '../golden/time/instants.json' with { type: 'json' };

describe('parseUtc', () => {
  it.each(golden.cases)('$text: $epochMs ms', ({ text, epochMs }) => {
    expect(parseUtc(text, 'here')).toEqual(ok(epochMs));
  });

  it.each([
    ['no offset', '2026-05-27T20:12'],
    ['no time', '2026-05-27'],
    ['month 13', '2026-13-01T00:00Z'],
    ['29 February of a common year', '2026-02-29T00:00Z'],
    ['hour 25', '2026-01-01T25:00Z'],
    ['a leap second (RFC 3339 §5.8, example 3)', '1990-12-31T23:59:60Z'],
    ['space for T', '2026-05-27 20:12Z'],
    ['a name of a zone', '2026-05-27T20:12 NZST'],
    ['nothing', ''],
  ])('%s: refused, naming place and text', (_name, text) => {
    const result = parseUtc(text, 'start.timeUtc');
    expect(result).toMatchObject({ ok: false, problems: [{ code: 'time.not-an-instant', where: 'start.timeUtc' }] });
    expect(JSON.stringify(result)).toContain(`\\"${text}\\"`);
  });

  it('any whole minute from 1900 to 2200: comes back from its text', () => {
    fc.assert(
      fc.property(fc.integer({ min: -36_817_920, max: 120_970_080 }), (minute) => {
        expect(parseUtc(formatUtc(minute * 60_000), 'here')).toEqual(ok(minute * 60_000));
      }),
      { seed: 3339 },
    );
  });
});

// luxon reads ISO 8601 by itself; the plain form must not differ from it, on days that do not exist either.
describe('parseUtc beside luxon', () => {
  const digits = (value: number, count: number): string => String(value).padStart(count, '0');
  it('any date and time, possible or not: the same instant or refused by both', () => {
    let refusedCount = 0;
    const upTo = (max: number) => fc.integer({ min: 0, max });
    fc.assert(
      fc.property(upTo(9999), upTo(13), upTo(32), upTo(25), upTo(60), fc.option(upTo(60)), (...parts) => {
        const [year, month, day, hour, minute, second] = parts;
        const time = [hour, minute, ...(second === null ? [] : [second])].map((part) => digits(part, 2)).join(':');
        const text = `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}T${time}Z`;
        const read = parseUtc(text, 'here');
        if (!read.ok) refusedCount += 1;
        expect(read.ok ? read.value : null, text).toBe(readByLuxon(text));
      }),
      { seed: 8601, numRuns: 3000 },
    );
    expect(refusedCount).toBeGreaterThan(100);
    expect(refusedCount).toBeLessThan(2000);
  });
});

function readByLuxon(text: string): number | null {
  try {
    return DateTime.fromISO(text, { zone: 'utc' }).toMillis();
  } catch {
    return null;
  }
}

describe('formatUtc', () => {
  it.each(golden.cases)('$epochMs ms: $utc', ({ epochMs, utc }) => {
    expect(formatUtc(epochMs)).toBe(utc);
  });
});

describe('formatAt', () => {
  it.each([
    [0, 'Wed 27 May 20:12'],
    [720, 'Thu 28 May 08:12'],
    [-600, 'Wed 27 May 10:12'],
    [345, 'Thu 28 May 01:57'],
  ])('clock %d min ahead of UTC: %s', (offsetMin, text) => {
    // 27 May 2026 is a Wednesday (calendar; checked with Python 3 datetime).
    expect(formatAt(1_779_912_720_000, offsetMin, 'ccc d LLL HH:mm')).toBe(text);
  });
});
