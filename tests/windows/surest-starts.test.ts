import { describe, expect, test } from 'vitest';
import { DEFAULT_HANDLINGS } from '../../lib/boat/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import { findWindows } from '../../lib/windows/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { slotOf, tableConditions, tableSettings, withLight } from './table-world.ts';

// Timing error 1 h + 1.5 h a day of lead: 50 n mi a day along the track (GEFS 2006-08, Weather and Forecasting 2010,
// abstract) at 25-35 kn. Cut by 0.8416 of it (80 %, one-sided normal) at the first start and 1.2816 (90 %) at the last.
// Worked by hand for slots of ten minutes, the base time at slot 0, 60 min of work and 30 of contingency (9 slots).

const lull = (first: number, last: number): LittleWeather => ({
  windKn: (hourH) => (slotOf(hourH) >= first && slotOf(hourH) <= last ? 8 : 30),
  seaHeightM: () => 1,
});

function surest(conditions: Conditions, more: { daylight?: 'required'; fromSlot?: number } = {}) {
  const limits = { deckWindKn: onlyNoGo(15), daylight: more.daylight ?? ('not-needed' as const) };
  const found = findWindows(littleJob('job', [littleStep('step', 60, limits)]), {
    handlings: DEFAULT_HANDLINGS,
    sailStateId: 'full-main',
    conditions,
    settings: tableSettings(conditions),
    wantedProbability: 0.8,
    fromSlot: more.fromSlot ?? 0,
  });
  return found.windows.map((window) => [
    [window.firstStartSlot, window.lastStartSlot],
    [window.surestFirstStartSlot, window.surestLastStartSlot],
  ]);
}

describe('starts that stay fair when the weather is early or late', () => {
  const long = tableConditions([lull(40, 90)], { slotCount: 200 });

  test('the interval is cut more at its end than at its start', () => {
    // First: lead 6 h 40, σ 1.417 h = 8.5 slots, 0.8416 σ = 7.15. Last: lead 13 h 30, σ 11.06 slots, 1.2816 σ = 14.18.
    expect(surest(long)).toEqual([
      [
        [40, 81],
        [48, 66],
      ],
    ]);
  });

  test('of a short window nothing is left', () => {
    expect(surest(tableConditions([lull(40, 60)]))).toEqual([
      [
        [40, 51],
        [null, null],
      ],
    ]);
  });

  test('a window open already counts from when it opened', () => {
    expect(surest(long, { fromSlot: 45 })).toEqual([
      [
        [45, 81],
        [48, 66],
      ],
    ]);
    expect(surest(long, { fromSlot: 55 })).toEqual([
      [
        [55, 81],
        [55, 66],
      ],
    ]);
  });

  test('daylight does not come late: where light alone bounds the window it is not cut', () => {
    const calm = withLight(tableConditions([lull(0, 199)], { slotCount: 200 }), (slot) =>
      slot >= 60 && slot <= 100 ? 0 : 3,
    );
    expect(surest(calm, { daylight: 'required' })).toEqual([
      [
        [60, 91],
        [60, 91],
      ],
    ]);
  });

  test('where the weather changes soon after dark the end is cut for that', () => {
    // Fair by the weather to slot 96, lead 16 h, σ 2 h = 12 slots, 1.2816 σ = 15.4: to slot 80.
    const blow = withLight(tableConditions([lull(0, 105)], { slotCount: 200 }), (slot) =>
      slot >= 60 && slot <= 100 ? 0 : 3,
    );
    expect(surest(blow, { daylight: 'required' })).toEqual([
      [
        [60, 91],
        [60, 80],
      ],
    ]);
  });
});
