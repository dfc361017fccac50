import { describe, expect, it } from 'vitest';
import { durationText, offsetText, timeTexts } from '../../server/presenters/time-texts.ts';

// 28 May 2026 is a Thursday: ISO 8601 calendar, checked with GNU date.
const EPOCH_MS = Date.UTC(2026, 4, 28, 11, 30);

describe('timeTexts', () => {
  it('ship twelve hours ahead: her day, not Greenwich’s', () => {
    const times = timeTexts(720);
    expect(times.full(EPOCH_MS + 3_600_000)).toBe('Fri 29 May 00:30');
    expect(times.utc(EPOCH_MS + 3_600_000)).toBe('Thu 12:30 UTC');
  });

  it('ship behind Greenwich: the day before', () => {
    expect(timeTexts(-720).dayTime(EPOCH_MS)).toBe('Wed 23:30');
  });

  it('span within one day: the weekday once; over midnight: twice', () => {
    const times = timeTexts(0);
    const hours = (h: number): { fromEpochMs: number; toEpochMs: number } => ({
      fromEpochMs: EPOCH_MS,
      toEpochMs: EPOCH_MS + h * 3_600_000,
    });
    expect(times.span(hours(2), 'and')).toBe('Thu 11:30 and 13:30');
    expect(times.span(hours(13), 'to')).toBe('Thu 11:30 to Fri 00:30');
  });
});

describe('offsetText', () => {
  it.each([
    [0, 'UTC'],
    [720, 'UTC+12'],
    [-210, 'UTC−3:30'],
  ])('%d min: %s', (offsetMin, text) => {
    expect(offsetText(offsetMin)).toBe(text);
  });
});

describe('durationText', () => {
  it.each([
    [50, '50 min'],
    [59.6, '1 h'],
    [250, '4 h 10 min'],
  ])('%d min: %s', (minutes, text) => {
    expect(durationText(minutes)).toBe(text);
  });
});
