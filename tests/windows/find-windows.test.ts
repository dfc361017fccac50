import { describe, expect, test } from 'vitest';
import { WAIT_DEFAULTS } from '../../lib/jobs/index.ts';
import { DEFAULT_HANDLINGS } from '../../lib/boat/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import type { JobWindows, WindowSearch } from '../../lib/windows/index.ts';
import { findWindows } from '../../lib/windows/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { slotOf, tableConditions, tableSettings } from './table-world.ts';

// Sixty minutes of work and thirty of contingency: 9 slots. The last slot of the forecast is 99.

const searchIn = (conditions: Conditions, rest: Partial<WindowSearch> = {}): WindowSearch => ({
  handlings: DEFAULT_HANDLINGS,
  sailStateId: 'full-main',
  conditions,
  settings: tableSettings(conditions),
  wantedProbability: 0.8,
  fromSlot: 0,
  ...rest,
});

/** Blows 30 kn but for the slots between first and last, both included. */
const lull = (first: number, last: number, calmKn = 8): LittleWeather => ({
  windKn: (hourH) => (slotOf(hourH) >= first && slotOf(hourH) <= last ? calmKn : 30),
  seaHeightM: () => 1,
});

const limited = (id = 'job') => littleJob(id, [littleStep('step', 60, { deckWindKn: onlyNoGo(15) })]);
const starts = (found: JobWindows) =>
  found.windows.map(({ firstStartSlot, lastStartSlot }) => [firstStartSlot, lastStartSlot]);

describe('windows', () => {
  test('are the starts from which core and contingency fit, not the calm itself', () => {
    const [window] = findWindows(limited(), searchIn(tableConditions([lull(40, 60)]))).windows;
    expect(window).toMatchObject({
      jobId: 'job',
      handlingId: 'hold-course',
      firstStartSlot: 40,
      lastStartSlot: 51,
      probability: 1,
      conditional: false,
      referenceSlots: 9,
      unknownLimits: [],
    });
  });

  test('a calm one slot too short holds none; one just long enough holds a single start', () => {
    expect(starts(findWindows(limited(), searchIn(tableConditions([lull(40, 48)]))))).toEqual([]);
    expect(starts(findWindows(limited(), searchIn(tableConditions([lull(40, 49)]))))).toEqual([[40, 40]]);
  });

  test('two calms make two windows, in order of time', () => {
    const twice: LittleWeather = {
      windKn: (hourH) => (lull(10, 30).windKn(hourH) < 15 || lull(60, 80).windKn(hourH) < 15 ? 8 : 30),
      seaHeightM: () => 1,
    };
    expect(starts(findWindows(limited(), searchIn(tableConditions([twice]))))).toEqual([
      [10, 21],
      [60, 71],
    ]);
  });

  test('do not begin before now', () => {
    expect(starts(findWindows(limited(), searchIn(tableConditions([lull(40, 60)]), { fromSlot: 45 })))).toEqual([
      [45, 51],
    ]);
  });

  test('need the wanted probability: four of five scenarios do for 0.8, three do not', () => {
    const worlds = (calm: number) =>
      tableConditions(Array.from({ length: 5 }, (_, w) => (w < calm ? lull(40, 60) : lull(200, 200))));
    const [window] = findWindows(limited(), searchIn(worlds(4))).windows;
    expect(window).toMatchObject({ firstStartSlot: 40, lastStartSlot: 51, probability: 0.8 });
    expect(findWindows(limited(), searchIn(worlds(3))).windows).toEqual([]);
  });

  test('the best start is that of the greatest weight, and of those the one with most room', () => {
    const later = tableConditions([lull(40, 60), lull(40, 60), lull(40, 60), lull(40, 60), lull(48, 60)]);
    const [window] = findWindows(limited(), searchIn(later)).windows;
    expect(window).toMatchObject({ firstStartSlot: 40, lastStartSlot: 51, probability: 1 });
    expect(window?.bestStartSlot).toBeGreaterThanOrEqual(48);
    const easing: LittleWeather = {
      windKn: (hourH) => (slotOf(hourH) < 40 ? 30 : Math.max(5, 14 - 0.1 * (slotOf(hourH) - 40))),
      seaHeightM: () => 1,
    };
    const [one] = findWindows(limited(), searchIn(tableConditions([easing]))).windows;
    // Wind falls to the end of the forecast, so the last start has the most room.
    expect(one).toMatchObject({ firstStartSlot: 40, lastStartSlot: 90, bestStartSlot: 90 });
  });

  test('each handling has its own', () => {
    const both = { ...limited(), handlings: ['hold-course', 'run-off'] };
    const conditions = tableConditions([{ ...lull(40, 60, 16), windFromDegTrue: () => 0 }], { boatSpeedKn: 6 });
    const found = findWindows(both, searchIn(conditions));
    // Across 16 kn at 6 kn: 17.1 kn over the deck; before it: 10.1 kn.
    expect(found.windows.map(({ handlingId }) => handlingId)).toEqual(['run-off']);
    expect(starts(found)).toEqual([[40, 51]]);
  });

  test('a handling that does not exist in the sail state gives none', () => {
    const hove = { ...limited(), sailStates: ['headsail-only'], handlings: ['heave-to', 'hold-course'] };
    const found = findWindows(hove, searchIn(tableConditions([lull(40, 60)])));
    expect(found.windows.map(({ handlingId, sailStateId }) => [handlingId, sailStateId])).toEqual([
      ['hold-course', 'headsail-only'],
    ]);
  });

  test('blocks between safe points stand apart', () => {
    const two = littleJob('two', [
      littleStep('a', 60, { deckWindKn: onlyNoGo(15) }),
      littleStep('b', 30, { deckWindKn: onlyNoGo(40) }),
    ]);
    const found = findWindows(two, searchIn(tableConditions([lull(40, 60)])));
    expect(
      found.windows.map(({ blockIndex, firstStartSlot, lastStartSlot }) => [blockIndex, firstStartSlot, lastStartSlot]),
    ).toEqual([
      [0, 40, 51],
      [1, 0, 93],
    ]);
  });
});

describe('windows with an unknown limit', () => {
  const sea = littleJob('sea', [littleStep('step', 60, { deckWindKn: onlyNoGo(15), seaHeightM: onlyNoGo(2) })]);
  const silentFrom = (slot: number): LittleWeather => ({
    windKn: () => 8,
    seaHeightM: (hourH) => (slotOf(hourH) < slot ? 1 : Number.NaN),
  });

  test('are conditional, name it, and are split from those that are not', () => {
    const found = findWindows(sea, searchIn(tableConditions([silentFrom(50)])));
    expect(
      found.windows.map(({ firstStartSlot, lastStartSlot, conditional, unknownLimits }) => ({
        firstStartSlot,
        lastStartSlot,
        conditional,
        unknownLimits,
      })),
    ).toEqual([
      { firstStartSlot: 0, lastStartSlot: 40, conditional: false, unknownLimits: [] },
      { firstStartSlot: 41, lastStartSlot: 90, conditional: true, unknownLimits: ['sea-height', 'handling-sea'] },
    ]);
  });

  test('stand after the unconditional ones even when earlier', () => {
    const silentBefore: LittleWeather = {
      windKn: () => 8,
      seaHeightM: (hourH) => (slotOf(hourH) < 50 ? Number.NaN : 1),
    };
    const found = findWindows(sea, searchIn(tableConditions([silentBefore])));
    expect(found.windows.map(({ firstStartSlot, conditional }) => [firstStartSlot, conditional])).toEqual([
      [50, false],
      [0, true],
    ]);
  });

  test('carry the probability of the known limits', () => {
    const four = Array.from({ length: 5 }, (_, w) => ({
      windKn: () => (w < 4 ? 8 : 30),
      seaHeightM: () => Number.NaN,
    }));
    const [window] = findWindows(sea, searchIn(tableConditions(four))).windows;
    expect(window).toMatchObject({ conditional: true, probability: 0.8 });
  });
});

describe('windows of work in sessions', () => {
  const session = { longestMin: 90, restMin: 20, leastUsefulMin: 30, resumeMin: 5, makeSafeMin: 10 };
  const sewing = (minutes: number) =>
    littleJob('sewing', [
      { ...littleStep('sew', minutes, { deckWindKn: onlyNoGo(15) }), stop: 'anywhere' as const, session },
    ]);

  test('ask for the least useful session and making safe, not for all of the work', () => {
    // 30 + 10 min: 4 slots, in a lull of 7 slot instants that the 300 min would never fit.
    const [window] = findWindows(sewing(300), searchIn(tableConditions([lull(40, 46)]))).windows;
    expect(window).toMatchObject({ firstStartSlot: 40, lastStartSlot: 42, plannedMin: 30, referenceSlots: 4 });
  });

  test('ask for all of it where that is less', () => {
    const [window] = findWindows(sewing(20), searchIn(tableConditions([lull(40, 46)]))).windows;
    expect(window).toMatchObject({ lastStartSlot: 43, plannedMin: 20, referenceSlots: 3 });
  });
});

describe('windows around a background wait', () => {
  const soak = { ...WAIT_DEFAULTS, kind: 'soak', leastH: 2, likelyH: 4, mostH: 8 } as const;
  const freeing = littleJob('freeing', [
    { ...littleStep('oil', 20, { deckWindKn: onlyNoGo(15) }), safePointAfter: false, waitAfter: soak },
    littleStep('turn', 60, { deckWindKn: onlyNoGo(15) }),
  ]);

  test('each side has its own, and the weather of the wait is no matter', () => {
    const twice: LittleWeather = {
      windKn: (hourH) => ([10, 60].some((from) => slotOf(hourH) >= from && slotOf(hourH) < from + 12) ? 8 : 30),
      seaHeightM: () => 1,
    };
    const found = findWindows(freeing, searchIn(tableConditions([twice])));
    // 20 + 30 min: 5 slots; 60 + 30 min: 9 slots.
    expect(found.windows.map((window) => [window.blockIndex, window.firstStartSlot, window.lastStartSlot])).toEqual([
      [0, 10, 16],
      [0, 60, 66],
      [1, 10, 12],
      [1, 60, 62],
    ]);
  });
});

describe('nearest miss', () => {
  test('is the best start there is, with what breaks and by how much', () => {
    const found = findWindows(limited(), searchIn(tableConditions([lull(40, 60, 16)])));
    expect(found.windows).toEqual([]);
    const [miss] = found.nearestMisses;
    expect(miss?.probability).toBe(0);
    expect(miss?.binding).toMatchObject({ limit: 'deck-wind', required: 15 });
    expect(miss?.binding?.margin).toBeLessThan(0);
  });

  test('of several starts that all fail it is the one that fails by least', () => {
    const [miss] = findWindows(limited(), searchIn(tableConditions([lull(40, 60, 16)]))).nearestMisses;
    expect(miss?.binding?.observed).toBe(16);
    expect(miss?.bestStartSlot).toBeGreaterThanOrEqual(40);
    expect(miss?.bestStartSlot).toBeLessThanOrEqual(51);
  });

  test('with scenarios it is the start of the greatest weight, under the best handling', () => {
    const conditions = tableConditions([lull(40, 60), lull(40, 60), lull(70, 90), lull(200, 200)]);
    const [miss] = findWindows(limited(), searchIn(conditions)).nearestMisses;
    expect(miss).toMatchObject({ probability: 0.5 });
    expect(miss?.bestStartSlot).toBe(40);
  });

  test('is told only of blocks without a window', () => {
    const two = littleJob('two', [
      littleStep('a', 60, { deckWindKn: onlyNoGo(15) }),
      littleStep('b', 30, { deckWindKn: onlyNoGo(40) }),
    ]);
    const found = findWindows(two, searchIn(tableConditions([lull(200, 200)])));
    expect(found.windows.map(({ blockIndex }) => blockIndex)).toEqual([1]);
    expect(found.nearestMisses.map(({ blockIndex }) => blockIndex)).toEqual([0]);
  });

  test('of work too long for the forecast there is none', () => {
    const long = littleJob('long', [littleStep('step', 900)]);
    expect(findWindows(long, searchIn(tableConditions([lull(0, 99)])))).toEqual({
      jobId: 'long',
      windows: [],
      nearestMisses: [],
    });
  });
});
