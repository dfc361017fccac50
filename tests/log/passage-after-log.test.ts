import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { waitP80H } from '../../lib/jobs/index.ts';
import { passageAfterLog, type LogNote, type NumberedEntry } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { anyLog } from './any-log.ts';
import { at, demoPassage, event, logOf, passageOf, seen, slept } from './demo.ts';
import { sample } from '../passage/sample.ts';

// What is expected is counted by hand from invented passages.

const passage = demoPassage();
const codesOf = (notes: readonly LogNote[]): string[] => notes.map(({ code }) => code);
const textOf = (notes: readonly LogNote[], code: string): string =>
  notes.find((note) => note.code === code)?.text ?? '';
const after = (entries: readonly NumberedEntry[], now: string, of: Passage = passage) =>
  passageAfterLog(of, entries, at(now));

describe('a passage after its log', () => {
  test('an empty log changes nothing', () => {
    expect(after([], '28 12:00').passage).toBe(passage);
    expect(after([], '28 12:00').notes).toEqual([]);
  });

  test('what is still to come is left out, and said', () => {
    const found = after(logOf(seen('29 01:00', { lat: -36, lon: 179 })), '28 12:00');
    expect(found.passage).toBe(passage);
    expect(codesOf(found.notes)).toEqual(['log.later']);
  });

  test('a story: dropped, sewn half, slept, oiled', () => {
    const log = logOf(
      seen('27 18:30', { lat: -36.3, lon: 178.2 }),
      event('oil', 'started', '27 18:40'),
      event('oil', 'done', '27 18:50', { workedMin: 8 }),
      event('drop', 'started', '27 19:00'),
      event('drop', 'safe-point', '27 20:10', { workedMin: 55 }),
      event('drop', 'done', '27 20:40', { workedMin: 25 }),
      event('stitch', 'started', '27 21:00'),
      event('stitch', 'stopped', '27 22:40', { stepId: 'lay-out', workedMin: 40 }),
      slept('27 23:00', '28 02:00'),
      seen('28 02:30', { lat: -36.35, lon: 178.6, airC: 14 }),
    );
    const found = after(log, '28 03:00');
    const { start, orders, watchkeeper, locker } = found.passage;
    expect(start).toEqual({
      epochMs: at('28 02:30'),
      position: { lat: -36.35, lon: 178.6 },
      sailStateId: 'headsail-only',
    });
    expect(orders.jobs.get('drop')).toMatchObject({ isDone: true, doneMin: 0 });
    expect(orders.jobs.get('stitch')).toMatchObject({ isDone: false, doneStepIds: ['lay-out'], doneMin: 0 });
    expect(watchkeeper.sleeps.at(-1)).toEqual({ startEpochMs: at('27 23:00'), endEpochMs: at('28 02:00') });
    const onBoard = (item: string): number | undefined =>
      locker.items.find((line) => line.item === item)?.onBoardAmount;
    // The drop takes 2 and 6 sail ties of 12, the oil 10 ml of 120; the seam is not sewn yet.
    expect([onBoard('sail ties'), onBoard('penetrating oil'), onBoard('waxed twine')]).toEqual([4, 110, 60]);
    expect(textOf(found.notes, 'log.sail-state')).toMatch(/since 27 May 20:10Z, Drop and lash the mainsail, after/);
    expect(textOf(found.notes, 'log.wait-running')).toMatch(
      /^Oil the seized gooseneck bolt: the soak after .* goes on/,
    );
  });

  test('sails as seen count from then on; a state she does not have is left out and said', () => {
    const log = logOf(
      event('drop', 'done', '27 20:40'),
      seen('28 01:00', { sailState: 'bare-poles' }),
      seen('28 02:00', { sailState: 'spinaker' }),
    );
    const found = after(log, '28 03:00');
    expect(found.passage.start.sailStateId).toBe('bare-poles');
    expect(codesOf(found.notes)).toContain('log.sail-state-unknown');
    expect(after(log, '28 00:30').passage.start.sailStateId).toBe('headsail-only');
  });

  test('older than the start of the passage: place and sails give way to the file, finished work stays', () => {
    const log = logOf(
      seen('27 10:00', { lat: -30, lon: 170, sailState: 'bare-poles' }),
      event('filter', 'done', '27 11:00'),
    );
    const found = after(log, '28 03:00');
    expect(found.passage.start).toEqual(passage.start);
    expect(found.passage.track).toEqual(passage.track);
    expect(found.passage.orders.jobs.get('filter')?.isDone).toBe(true);
  });

  test('the wind seen last, true and at 10 m: the manoeuvring-board example of NGA Pub. 217, and what it leaves out', () => {
    const wind = { kind: 'apparent', speedKn: 30, angleDeg: 40, headingDegTrue: 240, boatSpeedKn: 18 };
    const low = { ...passage, boat: { ...passage.boat, instrumentHeightM: 10 } };
    const { notes } = after(logOf(seen('27 19:00', { wind })), '28 03:00', low);
    expect(textOf(notes, 'log.wind')).toBe(
      'Wind at 27 May 19:00Z: 20 kn from 316 deg true, brought to 10 m, from apparent wind, heading and boat speed; leeway and current are left out.',
    );
  });

  test('a job the passage does not have: said, and nothing else', () => {
    const found = after(logOf(event('paint', 'done', '27 20:00')), '28 03:00');
    expect(codesOf(found.notes)).toEqual(['log.job-unknown']);
    expect(found.passage.orders).toEqual(passage.orders);
  });

  test('a start fixed for a job that has begun is fixed no more; one not begun keeps its own', () => {
    const fixed = passageOf(
      JSON.stringify({
        ...sample(),
        jobs: sample().jobs.map((job) => ({
          ...job,
          startUtc: '2026-05-28T0' + (job.id === 'drop' ? '1' : '5') + ':00Z',
        })),
      }),
    );
    const { orders } = after(logOf(event('drop', 'started', '28 01:00')), '28 02:00', fixed).passage;
    expect(orders.jobs.get('drop')?.lockedStartEpochMs).toBeNull();
    expect(orders.jobs.get('stitch')?.lockedStartEpochMs).toBe(at('28 05:00'));
  });

  test('own pace: minutes of a session are brought to the usual pace', () => {
    const slow = { ...passage, watchkeeper: { ...passage.watchkeeper, paceRatio: 1.5 } };
    const log = logOf(
      event('stitch', 'started', '28 01:00'),
      event('stitch', 'stopped', '28 02:30', { workedMin: 60 }),
    );
    expect(after(log, '28 03:00', slow).passage.orders.jobs.get('stitch')?.doneMin).toBe(40);
  });

  test('property: whatever the log, the orders are such as a passage file may hold, and sleeps are in order', () => {
    fc.assert(
      fc.property(anyLog, fc.integer({ min: 0, max: 72 }), (entries, hourH) => {
        const found = passageAfterLog(passage, entries, at('27 00:00') + hourH * MS_PER_H).passage;
        for (const job of found.jobs) {
          const order = found.orders.jobs.get(job.id);
          if (order === undefined) continue;
          expect(order.doneStepIds).toEqual(job.steps.map(({ id }) => id).slice(0, order.doneStepIds.length));
          expect(order.isDone).toBe(order.doneStepIds.length === job.steps.length);
          expect(order.isDone ? order.doneMin : 0).toBe(0);
        }
        const { sleeps } = found.watchkeeper;
        expect(sleeps.length).toBeGreaterThan(0);
        sleeps
          .slice(1)
          .forEach((sleep, k) => expect(sleep.startEpochMs).toBeGreaterThan(sleeps[k]?.endEpochMs ?? Infinity));
        for (const line of found.locker.items) expect(line.onBoardAmount).toBeGreaterThanOrEqual(0);
      }),
      { seed: 21, numRuns: 60 },
    );
  });
});

describe('waits that run on', () => {
  const soak = passage.jobs.find(({ id }) => id === 'oil')?.steps[0]?.waitAfter ?? null;

  test('a done job whose soak is not over holds back the job after it, to its P80; once it is over it does not', () => {
    if (soak === null) throw new Error('the oil soaks');
    const log = logOf(event('oil', 'done', '27 18:50'));
    const overEpochMs = at('27 18:50') + waitP80H(soak) * MS_PER_H;
    const bolt = (nowEpochMs: number) => passageAfterLog(passage, log, nowEpochMs).passage.orders.jobs.get('bolt');
    expect(bolt(at('27 19:00'))?.notBeforeEpochMs).toBeCloseTo(overEpochMs, 0);
    expect(bolt(overEpochMs + 1)?.notBeforeEpochMs ?? null).toBeNull();
    expect(
      passageAfterLog(passage, log, at('27 19:00')).passage.orders.jobs.get('hoist')?.notBeforeEpochMs ?? null,
    ).toBeNull();
  });

  // A cure of 10 h at 20 °C that halves for 10 °C more and stops below 5 °C: at 10 °C 20 h, at 30 °C 5 h; 5 h at 20 °C and
  // the rest at 10 °C, 15 h; at 3 °C never.
  const cure = { kind: 'cure', leastH: 10, likelyH: 10, mostH: 10, atC: 20, halvesPerC: 10, floorC: 5 };
  const curing = passageOf(
    JSON.stringify({
      ...sample(),
      jobs: [
        {
          id: 'glue',
          name: 'Glue',
          priority: 5,
          handlings: ['run-off'],
          steps: [
            {
              id: 'spread',
              name: 'spread',
              place: 'deck',
              work: { leastMin: 10, likelyMin: 20, mostMin: 30 },
              limits: {},
              waitAfter: cure,
            },
          ],
        },
        {
          id: 'sand',
          name: 'Sand',
          priority: 5,
          after: ['glue'],
          handlings: ['run-off'],
          steps: [
            { id: 'sand', name: 'sand', place: 'deck', work: { leastMin: 10, likelyMin: 20, mostMin: 30 }, limits: {} },
          ],
        },
      ],
    }),
  );
  const cured = (air: readonly (readonly [string, number])[], airC?: number): number | null => {
    const log = logOf(event('glue', 'done', '28 00:00'), ...air.map(([when, value]) => seen(when, { airC: value })));
    const options = airC === undefined ? {} : { airCAt: () => airC };
    const order = passageAfterLog(curing, log, at('28 00:10'), options).passage.orders.jobs.get('sand');
    return order?.notBeforeEpochMs === null || order === undefined
      ? null
      : (order.notBeforeEpochMs - at('28 00:00')) / MS_PER_H;
  };

  test.each([
    [20, 10],
    [10, 20],
    [30, 5],
  ])('a cure in air of %d °C known from elsewhere takes %d h', (airC, hoursH) =>
    expect(cured([], airC)).toBeCloseTo(hoursH, 6),
  );

  test('air that was logged holds for six hours, then the air known from elsewhere', () => {
    expect(cured([['28 00:00', 20]], 10)).toBeCloseTo(6 + (10 - 6 - 1 / 6) * 2 + 1 / 6, 0);
  });

  test('air not known: as in the coldest in which it goes on, 5 °C', () => {
    expect(cured([])).toBeCloseTo(10 * 2 ** 1.5, 6);
  });

  test('colder than it goes on in: no end, and it says so', () => {
    expect(cured([], 3)).toBe(60 * 24);
    const found = passageAfterLog(curing, logOf(event('glue', 'done', '28 00:00')), at('28 01:00'), {
      airCAt: () => 3,
    });
    expect(textOf(found.notes, 'log.wait-running')).toContain('no end in sight');
  });
});

describe('the locker', () => {
  test('what was counted later is not taken off again', () => {
    const log = logOf(event('oil', 'done', '27 18:50'));
    const counted = passageAfterLog(passage, log, at('28 03:00'), { lockerCountedEpochMs: at('28 00:00') });
    expect(counted.passage.locker).toBe(passage.locker);
  });

  test('one line counted later than the others: only that one is left as it is', () => {
    const log = logOf(event('oil', 'done', '27 18:50'), event('drop', 'done', '28 02:00'));
    const itemsCountedAt = new Map([['penetrating oil', at('28 00:00')]]);
    const { passage: counted } = passageAfterLog(passage, log, at('28 03:00'), { itemsCountedAt });
    const amounts = (item: string) =>
      [passage, counted].map(({ locker }) => locker.items.find((line) => line.item === item)?.onBoardAmount);
    const [oilBefore, oilAfter] = amounts('penetrating oil');
    const [tiesBefore, tiesAfter] = amounts('sail ties');
    expect(oilAfter).toBe(oilBefore);
    expect(tiesAfter).toBeLessThan(tiesBefore ?? 0);
  });

  test('more taken than was listed: nothing is left of it, and it says how much was not there', () => {
    const locker = [{ item: 'penetrating oil', unit: 'ml', onBoard: 4 }];
    const found = after(logOf(event('oil', 'done', '27 18:50')), '28 03:00', demoPassage({ locker }));
    expect(found.passage.locker.items[0]?.onBoardAmount).toBe(0);
    expect(textOf(found.notes, 'log.locker-short')).toContain('6 ml of penetrating oil');
  });
});
