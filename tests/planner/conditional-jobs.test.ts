import { describe, expect, test } from 'vitest';
import { conditionalAmong, conditionalJobs } from '../../lib/planner/conditional-jobs.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littleStep, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { problemFor } from './model/model-world.ts';

const byEye = (id: string, rest: Parameters<typeof littleJob>[2] = {}) =>
  littleJob(id, [littleStep(id, 60, { visibilityLeastNm: 2, deckWindKn: onlyNoGo(12) })], rest);
const plain = (id: string, rest: Parameters<typeof littleJob>[2] = {}) => littleJob(id, [littleStep(id, 60)], rest);
const problem = (visibilityNm: (hourH: number) => number, windKn: LittleWeather['windKn'] = () => 8) =>
  problemFor([byEye('eye'), plain('after', { after: ['eye'] }), plain('other')], {
    scenarios: [{ windKn, visibilityNm, seaHeightM: () => 0.5 }],
    change: (passage) => withBoatSpeed(passage, 0),
  });

describe('jobs with a limit unknown', () => {
  test('the forecast holds no visibility: the job that asks for it, and what comes after it', () => {
    expect([...conditionalJobs(problem(() => Number.NaN))].toSorted()).toEqual(['after', 'eye']);
  });

  test('the forecast holds it: none', () => {
    expect([...conditionalJobs(problem(() => 10))]).toEqual([]);
  });

  test('held for a few hours that are fair: none, since it can be done with every limit known', () => {
    expect([...conditionalJobs(problem((hourH) => (hourH < 20 ? 10 : Number.NaN)))]).toEqual([]);
  });

  test('held only where it is too low: the rest of the day is left, with the visibility unknown', () => {
    expect([...conditionalJobs(problem((hourH) => (hourH < 20 ? 1 : Number.NaN)))].toSorted()).toEqual([
      'after',
      'eye',
    ]);
  });

  test('unknown and the wind too strong for it: no weather helps, so it is not conditional either', () => {
    const windy = problem(
      () => Number.NaN,
      () => 30,
    );
    expect([...conditionalJobs(windy)]).toEqual([]);
  });

  test('of jobs left unplanned: those that some hour with the limit unknown could take', () => {
    const half = problem((hourH) => (hourH < 20 ? 10 : Number.NaN));
    expect([...conditionalAmong(half, new Set(['eye']))].toSorted()).toEqual(['after', 'eye']);
    expect([...conditionalAmong(half, new Set(['other']))]).toEqual([]);
  });

  test('the sea unknown: every job, since no handling serves without knowing it', () => {
    const noSea = problemFor([plain('a'), plain('b')], {
      scenarios: [{ windKn: () => 8, seaHeightM: () => Number.NaN }],
    });
    expect([...conditionalJobs(noSea)].toSorted()).toEqual(['a', 'b']);
  });
});
