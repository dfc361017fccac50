import { describe, expect, test } from 'vitest';
import type { Passage } from '../../lib/passage/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { atHour, withOrders } from './orders.ts';
import { planLittle } from './plan-little.ts';

// The plan that stands holds its jobs back by orders that are lifted when it is made again: what still stands where it
// stood was kept, what a free search would do is to begin at once.

const calm: LittleWeather = { windKn: () => 8, seaHeightM: () => 0.5 };
const HORIZON_H = 36;
const limit = { deckWindKn: onlyNoGo(12) };
const one = (id: string) => littleJob(id, [littleStep(id, 60, limit)]);
const twoParts = (id: string) => littleJob(id, [littleStep(`${id}1`, 60, limit), littleStep(`${id}2`, 60, limit)]);
const passageOf = (jobs: Passage['jobs']): Passage =>
  withBoatSpeed(littlePassage(jobs, { wantedProbability: 0.5, deckHeightM: 10 }), 0);

/** The passage as the log leaves it at an hour. */
const atHourOf = (passage: Passage, hourH: number, minutes = 0): Passage => ({
  ...passage,
  fixedNowEpochMs: atHour(hourH) + minutes * 60_000,
  start: { ...passage.start, epochMs: atHour(hourH) + minutes * 60_000 },
});
const planned = (passage: Passage, standing?: Plan, scenarios: readonly LittleWeather[] = [calm]): Plan =>
  planLittle(passage, littleWeather(scenarios, HORIZON_H), standing === undefined ? {} : { standing }).plan;
const starts = (plan: Plan): Record<string, string> =>
  Object.fromEntries(
    plan.entries
      .filter(({ kind }) => kind === 'work')
      .map(({ stepIds, startUtc }) => [stepIds.join(' '), startUtc.slice(8, 16).replace('T', ' ')]),
  );

describe('made again after a job is done', () => {
  const passage = passageOf([one('a'), one('b')]);
  const standing = planned(
    withOrders(passage, { a: { notBeforeEpochMs: atHour(14) }, b: { notBeforeEpochMs: atHour(20) } }),
  );

  test('what is done stays done, the rest stands where it stood', () => {
    expect(starts(standing)).toEqual({ a: '01 14:00', b: '01 20:00' });
    const plan = planned(withOrders(atHourOf(passage, 15, 20), { a: { isDone: true } }), standing);
    expect(plan.standing).toMatchObject({ kept: true, overdue: [] });
    expect(plan.jobs.map(({ status }) => status)).toEqual(['done', 'planned']);
    expect(starts(plan)).toEqual({ b: '01 20:00' });
  });

  test('from another place and at an odd minute the starts stand, though the slots are others', () => {
    const moved = atHourOf(passage, 13, 7);
    const elsewhere = {
      ...moved,
      start: { ...moved.start, position: { lat: -35, lon: -29.2 } },
      track: {
        waypoints: [
          { lat: -35, lon: -29.2, name: null, leg: 'rhumb' as const },
          { lat: -35, lon: 10, name: null, leg: 'rhumb' as const },
        ],
      },
    };
    const plan = planned(elsewhere, standing);
    expect(plan.standing?.kept).toBe(true);
    expect(starts(plan)).toEqual(starts(standing));
  });

  test('a job that has not begun is said with how late it is, and placed anew; the others keep their hours', () => {
    const plan = planned(atHourOf(passage, 15, 40), standing);
    expect(plan.standing?.kept).toBe(true);
    expect(starts(plan)['b']).toBe('01 20:00');
    expect(Date.parse(`2026-06-${starts(plan)['a']?.replace(' ', 'T')}Z`)).toBeGreaterThanOrEqual(
      atHour(15) + 40 * 60_000,
    );
    expect(plan.standing?.overdue).toEqual([
      {
        jobId: 'a',
        startUtc: '2026-06-01T14:00Z',
        halfDone: false,
        text: '"a" should have begun at Mon 1 Jun 14:00, 1 h 40 min ago, and nothing of it is done: it is placed anew.',
      },
    ]);
  });

  test('a newer forecast that breaks what is left replaces it, and the overdue job is said all the same', () => {
    const gale = { ...calm, windKn: (hourH: number) => (hourH >= 19 && hourH <= 24 ? 30 : 8) };
    const plan = planned(atHourOf(passage, 15, 40), standing, [gale]);
    expect(plan.standing?.kept).toBe(false);
    expect(plan.standing?.overdue.map(({ jobId }) => jobId)).toEqual(['a']);
    expect(plan.jobs.map(({ status }) => status)).toEqual(['planned', 'planned']);
    expect(starts(plan)['b']).not.toBe('01 20:00');
  });

  test('when all of it has passed, nothing lies ahead to be kept, and what is overdue is said', () => {
    const plan = planned(atHourOf(passage, 22), standing);
    expect(plan.standing?.kept).toBe(false);
    expect(plan.standing?.overdue.map(({ jobId }) => jobId)).toEqual(['a', 'b']);
    expect(plan.jobs.map(({ status }) => status)).toEqual(['planned', 'planned']);
    const done = planned(withOrders(atHourOf(passage, 22), { a: { isDone: true }, b: { isDone: true } }), standing);
    expect(done.standing).toEqual({
      kept: false,
      text: 'Nothing of the standing plan lies ahead and can still be done.',
      overdue: [],
    });
  });
});

describe('made again with a job half done', () => {
  const passage = passageOf([twoParts('a'), one('b')]);
  const standing = planned(
    withOrders(passage, { a: { notBeforeEpochMs: atHour(14) }, b: { notBeforeEpochMs: atHour(20) } }),
  );

  test('the part that is done is not planned again, the other stands', () => {
    const { a2 } = starts(standing);
    const plan = planned(withOrders(atHourOf(passage, 14, 40), { a: { doneStepIds: ['a1'] } }), standing);
    expect(Object.keys(starts(plan)).toSorted()).toEqual(['a2', 'b']);
    expect(starts(plan)).toEqual({ a2, b: '01 20:00' });
    expect(plan.standing).toMatchObject({ kept: true, overdue: [] });
  });

  test('the part that is overdue goes on from the safe point', () => {
    const plan = planned(withOrders(atHourOf(passage, 17), { a: { doneStepIds: ['a1'] } }), standing);
    expect(plan.standing?.kept).toBe(true);
    expect(starts(plan)['b']).toBe('01 20:00');
    expect(plan.standing?.overdue).toMatchObject([{ jobId: 'a', halfDone: true }]);
    expect(plan.standing?.overdue[0]?.text).toContain('is half done: what is left is placed anew.');
  });
});

describe('made again with work in sessions', () => {
  const sewing = littleJob('sew', [{ ...littleStep('sew', 150, limit), stop: 'anywhere' }]);
  const passage = passageOf([sewing, one('b')]);
  const standing = planned(
    withOrders(passage, { sew: { notBeforeEpochMs: atHour(13) }, b: { notBeforeEpochMs: atHour(22) } }),
  );
  const sessions = (plan: Plan): string[] =>
    plan.entries.filter(({ jobId, kind }) => jobId === 'sew' && kind === 'work').map(({ startUtc }) => startUtc);

  test('the sessions to come stand when the first is worked', () => {
    const [first, ...others] = sessions(standing);
    expect(first).toBe('2026-06-01T13:00Z');
    expect(others.length).toBeGreaterThan(0);
    const entry = standing.entries.find(({ startUtc, jobId }) => jobId === 'sew' && startUtc === first);
    const doneMin = entry === undefined ? 0 : (Date.parse(entry.endUtc) - Date.parse(entry.startUtc)) / 60_000;
    const plan = planned(withOrders(atHourOf(passage, 14, 30), { sew: { doneMin } }), standing);
    expect(plan.standing?.kept).toBe(true);
    expect(others).toEqual(expect.arrayContaining(sessions(plan)));
    expect(starts(plan)['b']).toBe('01 22:00');
  });

  test('with the first missed, the sewing is placed anew and the rest keeps its hour', () => {
    const plan = planned(atHourOf(passage, 14, 30), standing);
    expect(plan.jobs.map(({ status }) => status)).toEqual(['planned', 'planned']);
    expect(plan.standing).toMatchObject({ kept: true, overdue: [{ jobId: 'sew' }] });
    expect(starts(plan)['b']).toBe('01 22:00');
  });
});
