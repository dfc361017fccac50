import { describe, expect, test } from 'vitest';
import { blocksOf } from '../../lib/jobs/index.ts';
import type { Finding } from '../../lib/reasons/index.ts';
import {
  jointFinding,
  notBeforeFinding,
  startJudge,
  waysOf,
  weatherAgainst,
  whyNotEarlier,
  whyNotEarlierText,
} from '../../lib/reasons/index.ts';
import { BASE_EPOCH_MS, littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { blowing, smallSearch } from './small-world.ts';

const wind = littleJob('sew', [littleStep('sew', 60, { deckWindKn: onlyNoGo(13) })]);
const at = (hourH: number): number => BASE_EPOCH_MS + hourH * 3_600_000;

/** Wind that eases to 10 kn at an hour in every scenario; in four of ten it blows 14 until then, 12 in the others. */
const easing = (hourH: number) =>
  Array.from({ length: 10 }, (_, w) => blowing((now) => (now >= hourH ? 10 : w < 4 ? 14 : 12)));

const wordingOf = (search: ReturnType<typeof smallSearch>) => ({
  shipTimeOffsetMin: 0,
  nameOf: (id: string) => id,
  grid: search.conditions.course.grid,
});

function judgesOf(job: typeof wind, search: ReturnType<typeof smallSearch>) {
  const [block] = blocksOf(job);
  return block === undefined ? [] : waysOf(job, block, search).map((work) => startJudge(work, search));
}

describe('why not earlier', () => {
  test('wind until 04:00 in four of ten: one stretch up to the slot before, with the share and the hour', () => {
    const search = smallSearch(easing(4));
    const against = weatherAgainst(judgesOf(wind, search), false);
    const stretches = whyNotEarlier({ fromSlot: 0, plannedSlot: 24, against });
    expect(stretches).toMatchObject([{ firstStartSlot: 0, lastStartSlot: 23, finding: { rule: 'deck-wind' } }]);
    expect(stretches[0]?.finding?.scenarioShare).toBeCloseTo(0.4, 9);
    expect(whyNotEarlierText(stretches, wordingOf(search))).toBe(
      'Started Mon 1 Jun 00:00 to Mon 1 Jun 03:50: wind over the deck above 13.0 kn in 40 of 100, first Mon 1 Jun 03:50 (12.0 kn expected, 1.0 kn to spare).',
    );
  });

  test('dark before the wind: two stretches, the latest first, each at its own boundary', () => {
    const search = smallSearch(easing(6), { lightAt: (slot) => (slot < 18 ? 3 : 0) });
    const job = littleJob('sew', [littleStep('sew', 60, { deckWindKn: onlyNoGo(13), daylight: 'required' })]);
    const stretches = whyNotEarlier({
      fromSlot: 0,
      plannedSlot: 36,
      against: weatherAgainst(judgesOf(job, search), false),
    });
    expect(
      stretches.map(({ firstStartSlot, lastStartSlot, finding }) => [firstStartSlot, lastStartSlot, finding?.rule]),
    ).toEqual([
      [18, 35, 'deck-wind'],
      [0, 17, 'daylight'],
    ]);
    expect(whyNotEarlierText(stretches, wordingOf(search))).toContain(
      'Started Mon 1 Jun 00:00 to Mon 1 Jun 02:50: no daylight from Mon 1 Jun 02:50 on.',
    );
  });

  test('another handling would do in more scenarios: it speaks, and where it serves nothing stands against the start', () => {
    // Running before 15 kn at 6 kn leaves about 9 kn over the deck; beam on she has them all.
    const search = smallSearch([blowing(() => 15)]);
    const both = { ...wind, handlings: ['hold-course', 'run-off'] };
    const judges = judgesOf(both, search).map((judge) => ({
      ...judge,
      isFair: (slot: number) => judge.work.handling.id === 'run-off' && slot >= 10,
    }));
    const stretches = whyNotEarlier({ fromSlot: 0, plannedSlot: 20, against: weatherAgainst(judges, false) });
    expect(stretches[0]).toEqual({ firstStartSlot: 10, lastStartSlot: 19, finding: null });
    expect(whyNotEarlierText(stretches.slice(0, 1), wordingOf(search))).toBe(
      'Started Mon 1 Jun 01:40 to Mon 1 Jun 03:10: nothing stands against it by itself.',
    );
  });

  test('nothing before the earliest slot: it starts as early as it can', () => {
    const search = smallSearch(easing(4));
    const stretches = whyNotEarlier({ fromSlot: 24, plannedSlot: 24, against: () => [[]] });
    expect(stretches).toEqual([]);
    expect(whyNotEarlierText(stretches, wordingOf(search))).toBe('It starts as early as it can.');
  });

  test('a rule that no weather helps speaks before the weather, and the plan’s own reasons after it', () => {
    const parts: Finding = notBeforeFinding({ jobId: 'sew', startEpochMs: at(1), endEpochMs: at(2) }, at(2));
    const joint = jointFinding({ jobId: 'sew', jointProbability: 0.5, insteadOfProbability: 0.9, atEpochMs: at(3) });
    const windy: Finding = { ...joint, rule: 'deck-wind', scenarioShare: 0.4 };
    const stretches = whyNotEarlier({
      fromSlot: 0,
      plannedSlot: 30,
      against: (slot) =>
        slot < 12
          ? [[windy, parts], [parts]]
          : slot < 20
            ? [[windy], [{ ...windy, scenarioShare: 0.6 }]]
            : [[windy], [joint]],
    });
    expect(
      stretches.map(({ lastStartSlot, finding }) => [lastStartSlot, finding?.rule, finding?.scenarioShare]),
    ).toEqual([
      [29, 'joint', null],
      [19, 'deck-wind', 0.4],
      [11, 'not-before', null],
    ]);
  });

  test('no more stretches than asked for', () => {
    const search = smallSearch(easing(4));
    const against = (slot: number): Finding[][] => [
      [notBeforeFinding({ jobId: `job ${slot}`, startEpochMs: 0, endEpochMs: 1 }, slot + 1)].map((finding) => ({
        ...finding,
        names: [`${slot}`],
      })),
    ];
    expect(whyNotEarlier({ fromSlot: 0, plannedSlot: 9, against, mostCount: 2 })).toHaveLength(2);
    expect(search.fromSlot).toBe(0);
  });

  test('a limit the forecast does not hold stands against a start unless the job is planned conditionally', () => {
    const search = smallSearch([
      blowing(
        () => 10,
        () => Number.NaN,
      ),
    ]);
    const judges = judgesOf(littleJob('sew', [littleStep('sew', 60, { seaHeightM: onlyNoGo(2) })]), search);
    expect(weatherAgainst(judges, true)(0)).toEqual([[]]);
    expect(weatherAgainst(judges, false)(0)[0]?.map(({ rule }) => rule)).toEqual(['sea-height', 'handling-sea']);
  });
});
