import { describe, expect, test } from 'vitest';
import { publishedWindows, windowsText } from '../../lib/brief/index.ts';
import { DEFAULT_HANDLINGS } from '../../lib/boat/index.ts';
import { findWindows } from '../../lib/windows/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { BASE_EPOCH_MS, littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { slotOf, tableConditions, tableSettings } from './table-world.ts';

// The base time is slot 0; 60 min of work and 30 of contingency. α = 1 − 1.2816 σ / limit (form of DNV-OS-H101, Oct 2011,
// Sec. 4 B700), σ = √(1.2² + (0.5 · days)²) m/s (default of lib/weather), 1852 m to the mile.

const lull: LittleWeather = {
  windKn: (hourH) => (slotOf(hourH) >= 40 && slotOf(hourH) <= 90 ? 8 : 30),
  seaHeightM: () => 1,
};

function published(limits: Parameters<typeof littleStep>[2]) {
  const conditions = tableConditions([lull], { slotCount: 200 });
  const windows = findWindows(littleJob('job', [littleStep('step', 60, limits)]), {
    handlings: DEFAULT_HANDLINGS,
    sailStateId: 'full-main',
    conditions,
    settings: tableSettings(conditions),
    wantedProbability: 0.8,
    fromSlot: 0,
  });
  const preparation = { grid: conditions.course.grid, weather: { baseEpochMs: BASE_EPOCH_MS } };
  return publishedWindows({ windows: [windows], preparation });
}

describe('published windows', () => {
  test('a window shows its surest starts, and the standard criterion with α, reference period and lead', () => {
    const [window] = published({ deckWindKn: onlyNoGo(15) }).jobs[0]?.windows ?? [];
    expect(window).toMatchObject({
      firstStartUtc: '2026-06-01T06:40Z',
      lastStartUtc: '2026-06-01T13:30Z',
      // Cut by 7.15 and 14.18 slots of ten minutes: worked in surest-starts.test.ts.
      surestStarts: { firstUtc: '2026-06-01T08:00Z', lastUtc: '2026-06-01T11:00Z' },
      // Calm and early: the first start has the most room.
      bestStartUtc: '2026-06-01T06:40Z',
      standardCriterion: { limit: 'deck-wind', met: true, referenceMin: 90, leadH: 6.67 },
    });
    // The least α is that of the period's end, 8 h 10 after the base time.
    const sigmaKn = (Math.hypot(1.2, (0.5 * (49 / 6)) / 24) * 3600) / 1852;
    expect(window?.standardCriterion?.alphaRatio).toBeCloseTo(1 - (1.2815515655 * sigmaKn) / 15, 3);
  });

  test('a block without a window has no surest start, and its miss tells what the standard asks', () => {
    const [job] = published({ deckWindKn: onlyNoGo(5) }).jobs;
    expect(job?.windows).toEqual([]);
    expect(job?.nearestMiss).toMatchObject({
      surestStarts: null,
      standardCriterion: { limit: 'deck-wind', met: false },
    });
  });

  test('in words: the surest hours, or that there are none', () => {
    const text = windowsText(published({ deckWindKn: onlyNoGo(15) }), { shipTimeOffsetMin: 0 });
    expect(text).toContain('; surest Mon 1 Jun 08:00 to Mon 1 Jun 11:00');
    const long = windowsText(published({ deckWindKn: onlyNoGo(15), dryBeforeH: 13.5 }), { shipTimeOffsetMin: 0 });
    expect(long).toContain('rain before or during it unknown; surest');
  });
});
