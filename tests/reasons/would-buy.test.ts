import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import type { Purchase, Rows } from '../../lib/reasons/index.ts';
import { purchaseText, wouldBuy, wouldBuyTexts } from '../../lib/reasons/index.ts';
import { findWindows } from '../../lib/windows/index.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { blowing, smallSearch } from './small-world.ts';

// Each world is made so that one change opens a window and the amount is evident. Holding the course with a boat that lies still:
// wind over the deck is the forecast's. Work of 60 min needs 90 with its reserve: ten slot instants.

type Search = ReturnType<typeof smallSearch>;

const bought = (job: Job, search: Search, rows: Rows | null = null): Purchase[] => {
  expect(findWindows(job, search).windows).toEqual([]);
  return wouldBuy(job, 0, { search, untilSlot: search.conditions.course.grid.slotCount - 1, rows });
};
const kinds = (purchases: readonly Purchase[]): string[] =>
  purchases.map(({ changes }) => changes.map(({ change, amount, name }) => `${change} ${name ?? amount}`).join(' + '));

/** Only holding the course exists, so that no other handling helps. */
const oneHandling = (search: Search): Search => ({
  ...search,
  handlings: search.handlings.filter(({ id }) => id === 'hold-course'),
});

const windy = (noGo: number, lengthMin = 60) =>
  littleJob('sew', [littleStep('sew', lengthMin, { deckWindKn: onlyNoGo(noGo) })]);

describe('what would buy a window', () => {
  test('wind 1.5 kn above the limit: two knots, not one, and not three', () => {
    const search = oneHandling(smallSearch([blowing(() => 14.5)]));
    const purchases = bought(windy(13), search);
    expect(kinds(purchases)).toEqual(['wind 2']);
    // Between caution (13) and the new no-go (15) work slows to 1.25 + 0.55 · 0.75: 100 min and half of it are 15 slots of 99.
    expect(purchases[0]).toMatchObject({ startSlot: 0, lastStartSlot: 84, handlingId: 'hold-course', probability: 1 });
    const wording = { shipTimeOffsetMin: 0, nameOf: (id: string) => id, grid: search.conditions.course.grid };
    expect(purchases.map((purchase) => purchaseText(purchase, wording))).toEqual([
      '2.0 kn more wind over the deck accepted, mean and gust: start Mon 1 Jun 00:00 to Mon 1 Jun 14:00, hold-course, 100 of 100.',
    ]);
  });

  test('mean and gust go together', () => {
    const gusty = littleJob('sew', [littleStep('sew', 60, { deckWindKn: onlyNoGo(13), deckGustNoGoKn: 14 })]);
    const search = oneHandling(smallSearch([{ ...blowing(() => 14), gustKn: () => 16.5 }]));
    expect(kinds(bought(gusty, search))).toEqual(['wind 3']);
  });

  test('four knots above: no loosening we would name', () => {
    expect(bought(windy(13), oneHandling(smallSearch([blowing(() => 17)])))).toEqual([]);
  });

  test('sea a quarter of a metre above', () => {
    const job = littleJob('reeve', [littleStep('reeve', 60, { seaHeightM: onlyNoGo(2) })]);
    const search = oneHandling(
      smallSearch([
        blowing(
          () => 8,
          () => 2.25,
        ),
      ]),
    );
    const purchases = bought(job, search);
    expect(kinds(purchases)).toEqual(['sea 0.25']);
  });

  test('a lull twenty minutes too short: faster work or less reserve, each searched anew', () => {
    // 06:00 to 07:20 calm: 80 min of the 90 wanted. Faster: 45 + 30. Reserve of 0.3 is held up by its least, 30 min.
    const search = oneHandling(smallSearch([blowing((hourH) => (hourH > 5.99 && hourH < 7.4 ? 10 : 30))]));
    expect(kinds(bought(windy(13), search))).toEqual(['practice 25']);
    const long = oneHandling(smallSearch([blowing((hourH) => (hourH > 5.99 && hourH < 10.7 ? 10 : 30))]));
    // 200 min and half of it is five hours; 200 and 0.3 are 260 min; 150 and half of it 225.
    expect(kinds(bought(windy(13, 200), long))).toEqual(['practice 25', 'contingency 0.3']);
  });

  test('daylight: half an hour more of it, at either end', () => {
    // Light at 8 instants from 06:00 on; the work and its reserve of 30 min need 10.
    const search = oneHandling(
      smallSearch([blowing(() => 8)], {
        lightAt: (slot) => (slot >= 36 && slot <= 43 ? 0 : 3),
        settings: { contingencyShare: 0.3 },
      }),
    );
    const job = littleJob('sew', [littleStep('sew', 60, { daylight: 'required' })]);
    expect(kinds(bought(job, search))).toEqual(['daylight 15']);
    const darker = oneHandling(
      smallSearch([blowing(() => 8)], {
        lightAt: (slot) => (slot >= 36 && slot <= 40 ? 0 : 3),
        settings: { contingencyShare: 0.3 },
      }),
    );
    expect(kinds(bought(job, darker))).toEqual(['daylight 30']);
  });

  test('another handling that the boat has and the job does not name', () => {
    // Headsail only, 14 kn: lying a-hull or running she feels no more than drift and speed take away.
    const search = smallSearch([blowing(() => 45)]);
    const some = {
      ...search,
      handlings: search.handlings.filter(({ id }) => ['hold-course', 'heave-to'].includes(id)),
    };
    const job = littleJob('bail', [littleStep('bail', 60)]);
    expect(kinds(bought(job, some))).toEqual(['handling heave-to']);
  });

  test('the work in two, left safe where it may be', () => {
    // Two lulls of 80 min; the whole needs 120 and 60.
    const search = oneHandling(
      smallSearch([blowing((hourH) => ((hourH > 1.99 && hourH < 3.6) || (hourH > 7.99 && hourH < 9.6) ? 10 : 30))]),
    );
    const steps = ['unbolt', 'refit'].map((id) => ({
      ...littleStep(id, 60, { deckWindKn: onlyNoGo(13) }),
      safePointAfter: id === 'refit',
    }));
    expect(kinds(bought(littleJob('shackle', steps), search))).toEqual(['split unbolt']);
    const never = steps.map((step) => ({ ...step, stop: 'never' as const }));
    expect(bought(littleJob('shackle', never), search)).toEqual([]);
  });

  test('a row of stitches fewer, where the rows are known', () => {
    // Three rows of an hour each; the lull holds two and their reserve: 120 + 60 min, but not 135 + 68 (practised).
    const search = oneHandling(smallSearch([blowing((hourH) => (hourH > 1.99 && hourH < 5.1 ? 10 : 30))]));
    expect(kinds(bought(windy(13, 180), search, { stepId: 'sew', rowCount: 3 }))).toEqual(['rows sew']);
    expect(bought(windy(13, 180), search)).toEqual([]);
    expect(bought(windy(13, 180), search, { stepId: 'sew', rowCount: 1 })).toEqual([]);
  });

  test('a lower wanted probability, in tenths, the next one that serves', () => {
    const scenarios = Array.from({ length: 20 }, (_, w) => blowing(() => (w < 13 ? 10 : 30)));
    expect(kinds(bought(windy(13), oneHandling(smallSearch(scenarios))))).toEqual(['wanted-probability 0.6']);
    const unlikely = Array.from({ length: 20 }, (_, w) => blowing(() => (w < 9 ? 10 : 30)));
    expect(bought(windy(13), oneHandling(smallSearch(unlikely)))).toEqual([]);
  });

  test('two knots and half an hour together, only because neither helps alone', () => {
    const search = oneHandling(
      smallSearch([blowing((hourH) => (hourH < 6 ? 30 : 14.5))], {
        lightAt: (slot) => (slot >= 36 && slot <= 46 ? 0 : 3),
      }),
    );
    const job = littleJob('sew', [littleStep('sew', 60, { deckWindKn: onlyNoGo(13), daylight: 'required' })]);
    const short = { ...search, settings: { ...search.settings, contingencyShare: 0.3 } };
    expect(kinds(bought(job, short))).toEqual(['wind 2 + daylight 30']);
  });

  test.each(['aloft', 'overside'] as const)(
    '%s nothing is loosened: neither limit, reserve, light nor probability',
    (place) => {
      const exposed = (limits: Parameters<typeof littleStep>[2]) =>
        littleJob('rig', [{ ...littleStep('rig', 60, limits), place }]);
      const scenarios = Array.from({ length: 20 }, (_, w) => blowing(() => (w < 13 ? 10 : 14)));
      expect(bought(exposed({ deckWindKn: onlyNoGo(13) }), oneHandling(smallSearch(scenarios)))).toEqual([]);
      const dark = smallSearch([blowing(() => 10)], { lightAt: (slot) => (slot >= 36 && slot <= 42 ? 0 : 3) });
      expect(kinds(bought(exposed({ daylight: 'required' }), oneHandling(dark)))).toEqual([]);
      const sea = smallSearch([
        blowing(
          () => 10,
          () => 2.2,
        ),
      ]);
      expect(bought(exposed({ seaHeightM: onlyNoGo(2) }), oneHandling(sea))).toEqual([]);
    },
  );

  test.each(['aloft', 'overside'] as const)(
    '%s it is said that overriding a no-go is the skipper’s logged act',
    (place) => {
      const wording = {
        shipTimeOffsetMin: 0,
        nameOf: (id: string) => id,
        grid: { firstEpochMs: 0, slotMin: 10, slotCount: 9 },
      };
      const step = littleStep('rig', 60);
      expect(wouldBuyTexts({ steps: [{ ...step, place }] }, [], wording)).toEqual([
        expect.stringContaining('the skipper’s own act, and is logged'),
      ]);
      expect(wouldBuyTexts({ steps: [step] }, [], wording)).toEqual([]);
    },
  );

  test('a window so late that the work would end after the plan is none', () => {
    const search = oneHandling(smallSearch([blowing(() => 14.5)]));
    expect(wouldBuy(windy(13), 0, { search, untilSlot: 5, rows: null })).toEqual([]);
  });
});
