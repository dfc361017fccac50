import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { alertnessAtKss } from '../../lib/person/index.ts';
import { notEarlier } from '../../lib/planner/not-earlier.ts';
import { place } from '../../lib/planner/place.ts';
import { prepare, problemOf } from '../../lib/planner/prepare.ts';
import { reportPlan } from '../../lib/planner/report.ts';
import type { PlanState } from '../../lib/planner/state.ts';
import { placedInOrder, startOfPlan } from '../../lib/planner/state.ts';
import type { StartStretch } from '../../lib/reasons/index.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { atHour, withOrders } from './orders.ts';

// A plan laid by hand, and what stands against an earlier start of its last entry. Each world has one thing against it. The
// boat lies still, wind over the deck is the forecast's; an hour of work and half an hour of contingency.

const calm: LittleWeather = { windKn: () => 8, seaHeightM: () => 0.5 };
const job = (id: string, rest: Partial<Job> = {}): Job =>
  littleJob(id, [littleStep(id, 60, { deckWindKn: onlyNoGo(12) })], rest);
const hourOfSlot = (slot: number): number => 12 + slot / 6;

interface World {
  readonly jobs: readonly Job[];
  /** Job and hour of each entry, in order of time. */
  readonly entries: readonly (readonly [jobId: string, hourH: number])[];
  readonly scenarios?: readonly LittleWeather[];
  readonly change?: (passage: Passage) => Passage;
}

function stretchesOf({ jobs, entries, scenarios = [calm], change }: World): StartStretch[] {
  const plain = withBoatSpeed(littlePassage(jobs, { deckHeightM: 10, wantedProbability: 0.5 }), 0);
  const weather = littleWeather(scenarios, 72);
  const preparation = prepare(change?.(plain) ?? plain, weather, atHour(12));
  const problem = problemOf(preparation, 1);
  let state: PlanState = startOfPlan(problem);
  for (const [jobId, hourH] of entries) {
    const unit = problem.units.findIndex((candidate) => candidate.job.id === jobId);
    const placement = place(problem, state, { unit, handling: 0, startSlot: Math.round((hourH - 12) * 6) });
    if (!placement.ok) throw new Error(`refused: ${placement.refusal}`);
    state = placement.state;
  }
  const reporting = { ...weather, memberIndex: Int32Array.from(weather.weights, (_, w) => w) };
  const placed = placedInOrder(state).at(-1);
  const unit = problem.units[placed?.unit ?? -1];
  if (placed === undefined || unit === undefined) throw new Error('the plan has a last entry');
  return notEarlier({ problem, state, report: reportPlan(preparation, state, reporting), unit, placed });
}

/** The latest stretch: its hours, the rule and the amounts. */
function latest(world: World) {
  const [stretch] = stretchesOf(world);
  if (stretch === undefined) return null;
  const { finding } = stretch;
  return {
    hours: [hourOfSlot(stretch.firstStartSlot), hourOfSlot(stretch.lastStartSlot)],
    rule: finding?.rule,
    observed: finding?.observed,
    required: finding?.required,
    names: finding?.names,
  };
}

/** Strong wind until an hour. */
const until = (hourH: number, windKn = 20): LittleWeather => ({ ...calm, windKn: (at) => (at < hourH ? windKn : 8) });

describe('what stands against an earlier start', () => {
  test('nothing: it starts at the first slot', () => {
    expect(stretchesOf({ jobs: [job('a')], entries: [['a', 12]] })).toEqual([]);
  });

  test('the wind: 20 kn until 15:00 against 12 allowed', () => {
    const found = latest({ jobs: [job('a')], entries: [['a', 15]], scenarios: [until(15)] });
    expect(found).toMatchObject({ rule: 'deck-wind', required: 12, observed: 20 });
    expect(found?.hours[1]).toBeCloseTo(15 - 1 / 6, 9);
  });

  test('in some weathers only: told where more of them break than are allowed, with their share', () => {
    // Wanted is half: three of five are too many, two are not.
    const of = (count: number) => Array.from({ length: 5 }, (_, w) => until(w < count ? 15 : 0));
    const [first] = stretchesOf({ jobs: [job('a')], entries: [['a', 15]], scenarios: of(3) });
    expect(first?.finding).toMatchObject({ rule: 'deck-wind' });
    expect(first?.finding?.scenarioShare).toBeCloseTo(0.6, 6);
    const [other] = stretchesOf({ jobs: [job('a')], entries: [['a', 15]], scenarios: of(2) });
    expect(other?.finding?.rule).not.toBe('deck-wind');
  });

  test('no limit alone in too many weathers, but all together: what is left is told against what is wanted', () => {
    // Until 15:00 the wind is too strong in two of five, the sea too high in two others: one of five is left, half wanted.
    const rough: LittleWeather = { ...calm, seaHeightM: (hourH) => (hourH < 15 ? 3 : 0.5) };
    const both = littleJob('a', [littleStep('a', 60, { deckWindKn: onlyNoGo(12), seaHeightM: onlyNoGo(2) })]);
    const found = latest({
      jobs: [both],
      entries: [['a', 15]],
      scenarios: [until(15), until(15), rough, rough, calm],
    });
    expect(found).toMatchObject({ rule: 'wanted-probability', required: 0.5 });
    expect(found?.observed).toBeCloseTo(0.2, 6);
  });

  test('the order not to begin before 15:00', () => {
    const found = latest({
      jobs: [job('a')],
      entries: [['a', 15]],
      change: (passage) => withOrders(passage, { a: { notBeforeEpochMs: atHour(15) } }),
    });
    expect(found).toMatchObject({ rule: 'not-before', hours: [12, 15 - 1 / 6] });
  });

  test('forbidden hours, 13:00 to 15:00: the starts whose work would touch them', () => {
    const found = latest({
      jobs: [job('a')],
      entries: [['a', 15]],
      change: (passage) => withOrders(passage, {}, [[13, 15]]),
    });
    // An hour of work begun by 12:00 is over when they begin.
    expect(found).toMatchObject({ rule: 'forbidden-hours', hours: [12 + 1 / 6, 15 - 1 / 6] });
  });

  test('another job in the way, by name', () => {
    const found = latest({
      jobs: [job('a', { priorityWeight: 9 }), job('b')],
      entries: [
        ['a', 13],
        ['b', 14],
      ],
    });
    expect(found).toMatchObject({ rule: 'overlap', names: ['a'] });
    expect(found?.hours).toEqual([12 + 1 / 6, 14 - 1 / 6]);
  });

  test('the person: heavy work is not begun in the low hours, 02 to 06 on the body clock', () => {
    const heavy = littleJob('a', [{ ...littleStep('a', 60), effort: 'heavy' as const }]);
    const rules = stretchesOf({ jobs: [heavy], entries: [['a', 37]] }).map(({ finding }) => finding?.rule);
    // Thirty degrees west the sun is two hours behind: 04:00 to 08:00 UTC, and she wakes from a night's sleep in them.
    expect(rules.some((rule) => rule === 'low-hours' || rule === 'inertia' || rule === 'alertness')).toBe(true);
  });

  test('too sleepy to be planned for, though work below would not be barred: sleep comes first', () => {
    const below = littleJob('a', [{ ...littleStep('a', 60), place: 'below' as const }]);
    const stretches = stretchesOf({
      jobs: [below],
      entries: [['a', 24]],
      change: (passage) => ({
        ...passage,
        // Awake since eight o'clock of the day before.
        watchkeeper: { ...passage.watchkeeper, sleeps: passage.watchkeeper.sleeps.slice(0, -1) },
      }),
    });
    const atOnce = stretches.find(({ firstStartSlot }) => firstStartSlot === 0)?.finding;
    expect(atOnce).toMatchObject({ rule: 'alertness', required: alertnessAtKss(6) });
    // The gate of work below is KSS 8.
    expect(atOnce?.observed).toBeGreaterThan(alertnessAtKss(8));
    expect(atOnce?.observed).toBeLessThan(alertnessAtKss(6));
  });

  test('all together: alone it would hold, but not in the same weathers as the rest', () => {
    // a holds in the first four of five, b begun before 20:00 in the last four, from 20:00 on in all.
    const scenarios = [0, 1, 2, 3, 4].map((w): LittleWeather => ({
      ...calm,
      windKn: (hourH) => ((w === 4 && hourH < 16) || (w === 0 && hourH >= 16 && hourH < 20) ? 20 : 8),
    }));
    const found = latest({
      jobs: [job('a', { priorityWeight: 9 }), job('b', { after: ['a'] })],
      entries: [
        ['a', 13],
        ['b', 20],
      ],
      scenarios,
    });
    expect(found).toMatchObject({ rule: 'joint' });
    expect(found?.observed).toBeCloseTo(0.6, 6);
    expect(found?.required).toBeCloseTo(0.8, 6);
  });

  test('the cost: by day instead of in the dark', () => {
    // In June at 35° S civil twilight begins near 09:00 UTC; work begun in the dark counts double.
    const rules = stretchesOf({ jobs: [job('a')], entries: [['a', 33.5]] }).map(({ finding }) => finding?.rule);
    expect(rules).toContain('cost');
  });

  test('nothing by itself: a start that would have served as well', () => {
    expect(latest({ jobs: [job('a')], entries: [['a', 14]] })).toMatchObject({
      rule: undefined,
      hours: [12, 14 - 1 / 6],
    });
  });

  test('what must come before is not counted: the earliest start is when it is finished', () => {
    const stretches = stretchesOf({
      jobs: [job('a'), job('b', { after: ['a'] })],
      entries: [
        ['a', 14],
        ['b', 16],
      ],
    });
    expect(Math.min(...stretches.map(({ firstStartSlot }) => hourOfSlot(firstStartSlot)))).toBe(15);
  });
});
