import { describe, expect, it } from 'vitest';
import { shipTimesIn } from '../../server/presenters/ship-times.ts';

const near = (utc: string, shipTimeOffsetMin: number) => ({ shipTimeOffsetMin, nearEpochMs: Date.parse(utc) });

describe('shipTimesIn', () => {
  // Weekdays of the calendar: 28 May 2026 is a Thursday, 1 January 2027 a Friday (ISO 8601 week dates 2026-W22-4, 2026-W53-5).
  it.each([
    [
      'ahead of UTC, the next day on board',
      'Mend the leech: done 27 May 20:10Z.',
      near('2026-05-28T00:00Z', 720),
      'Mend the leech: done Thu 28 May 08:10 (27 May 20:10 UTC).',
    ],
    [
      'two in a sentence, behind UTC by a half hour',
      'Sleeps overlap and are taken as one, 28 May 01:00Z to 28 May 04:15Z.',
      near('2026-05-28T12:00Z', -210),
      'Sleeps overlap and are taken as one, Wed 27 May 21:30 (28 May 01:00 UTC) to Thu 28 May 00:45 (28 May 04:15 UTC).',
    ],
    [
      'the turn of the year, read in January',
      'Sails: full main since 31 Dec 23:30Z, as seen.',
      near('2027-01-02T00:00Z', 60),
      'Sails: full main since Fri 1 Jan 00:30 (31 Dec 23:30 UTC), as seen.',
    ],
    [
      'ship’s time is UTC: once',
      'Wind at 9 May 06:00Z: 12 kn.',
      near('2026-05-10T00:00Z', 0),
      'Wind at 9 May 06:00 UTC: 12 kn.',
    ],
    [
      'no instant in it',
      'Taken off the locker: twine, 3 Maybe 10Z.',
      near('2026-05-10T00:00Z', 60),
      'Taken off the locker: twine, 3 Maybe 10Z.',
    ],
    ['no month', '12 Foo 10:00Z', near('2026-05-10T00:00Z', 60), '12 Foo 10:00Z'],
  ])('%s', (_, sentence, clock, expected) => {
    expect(shipTimesIn(sentence, clock)).toBe(expected);
  });
});
