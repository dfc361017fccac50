import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { windowSearch } from '../../lib/planner/prepare-windows.ts';
import { prepare } from '../../lib/planner/prepare.ts';
import { wouldBuyFor } from '../../lib/planner/would-buy.ts';
import { findWindows } from '../../lib/windows/index.ts';
import { LOCKER_ITEM_DEFAULTS } from '../../lib/stock/index.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { atHour } from './orders.ts';

// 13.6 kn over the deck from 20:00 to 26:00, more before and after; the boat lies still.

const weather: LittleWeather = { windKn: (hourH) => (hourH >= 20 && hourH <= 26 ? 13.6 : 25), seaHeightM: () => 0.5 };
const job = (noGoKn: number, rest: Partial<Job> = {}): Job =>
  littleJob('a', [littleStep('a', 120, { deckWindKn: onlyNoGo(noGoKn) })], rest);

function bought(of: Job, change: (passage: Passage) => Passage = (passage) => passage) {
  const passage = change(withBoatSpeed(littlePassage([of], { deckHeightM: 10 }), 0));
  const preparation = prepare(passage, littleWeather([weather], 48), atHour(12));
  return wouldBuyFor(preparation, of, findWindows(of, windowSearch(preparation)));
}

describe('what would buy a window', () => {
  test('nothing is asked for where there is one', () => {
    expect(bought(job(14))).toEqual([]);
  });

  test('12 kn allowed, 13.6 blow: two knots more, from 20:00 to the last start that leaves time for it', () => {
    // Ideal and caution stay at 12: pace at 13.6 of 14 is 1.25 + 0.8 · 0.55 = 1.69 (design §2). 120 · 1.69 = 203 min and
    // half as much again are 304, 31 slots: to 26:00 from 20:50.
    const wind = bought(job(12)).find(({ text }) => text.includes('more wind over the deck'));
    expect(wind?.text).toMatch(/^2\.0 kn more/);
    expect(wind).toMatchObject({
      startUtc: '2026-06-01T20:00Z',
      lastStartUtc: '2026-06-01T20:50Z',
      handling: 'hold-course',
      probability: 1,
    });
  });

  test('a gap of four knots no change tried can close: nothing is told', () => {
    expect(bought(job(9)).filter(({ text }) => text.includes('more wind'))).toEqual([]);
  });

  test('aloft no limit is loosened', () => {
    const aloft = { ...job(12), steps: job(12).steps.map((step) => ({ ...step, place: 'aloft' as const })) };
    expect(bought(aloft).filter(({ text }) => text.includes('more wind'))).toEqual([]);
  });

  test('a job without its parts is not helped by weather', () => {
    const needs = { ...job(12), steps: job(12).steps.map((step) => ({ ...step, materials: [TWINE] })) };
    const locker = { items: [{ ...LOCKER_ITEM_DEFAULTS, item: 'twine', unit: 'm', onBoardAmount: 1, keepAmount: 0 }] };
    expect(bought(needs, (passage) => ({ ...passage, locker }))).toEqual([]);
  });
});

const TWINE = { item: 'twine', amount: 6, unit: 'm' };
