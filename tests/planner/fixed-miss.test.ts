/**
 * What the plan says of a job whose fixed start, bounds or forbidden hours no plan can keep. The boat lies still; an hour of
 * work and half an hour of contingency from the forecast's base time on, in weather given hour by hour.
 */
import { describe, expect, test } from 'vitest';
import type { JobOrder } from '../../lib/passage/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { atHour, withOrders } from './orders.ts';
import { planLittle, QUICK } from './plan-little.ts';

/** Too much wind until hour 20, calm afterwards. */
const laterCalm: LittleWeather = { windKn: (hourH) => (hourH < 20 ? 20 : 8), seaHeightM: () => 0.5 };

type Forbidden = Parameters<typeof withOrders>[2];

function planned(order: Partial<JobOrder>, forbidden: Forbidden = []): Plan['jobs'][number] {
  const job = littleJob('a', [littleStep('a', 60, { deckWindKn: onlyNoGo(12) })]);
  const still = withBoatSpeed(littlePassage([job], { deckHeightM: 10, wantedProbability: 0.5 }), 0);
  const { plan } = planLittle(withOrders(still, { a: order }, forbidden), littleWeather([laterCalm], 40), {
    solve: QUICK,
  });
  const [only] = plan.jobs;
  if (only === undefined) throw new Error('no job');
  return only;
}

const startOf = (hourH: number): string => new Date(atHour(hourH)).toISOString().replace(':00.000Z', 'Z');

describe('a start no plan can keep', () => {
  test('locked to an hour of too much wind: not planned, and the nearest start with its gap', () => {
    const { status, startUtc, nearestMiss } = planned({ lockedStartEpochMs: atHour(15) });
    expect([status, startUtc, nearestMiss?.reason]).toEqual(['unplanned', null, 'orders']);
    expect(nearestMiss?.text).toMatch(/^Its start is locked to .*allow no start then; nearest .* later\.$/);
    expect(nearestMiss?.wouldHelp).toBe('Move the lock there, or take it off.');
    // Calm begins between hour 19 and hour 20 where wind is interpolated from one hour to the next.
    const nearestEpochMs = Date.parse(nearestMiss?.startUtc ?? '');
    expect(nearestEpochMs).toBeGreaterThan(atHour(19));
    expect(nearestEpochMs).toBeLessThanOrEqual(atHour(20));
  });

  test('locked to an hour that its limits allow: planned then, though it could be earlier', () => {
    expect(planned({ lockedStartEpochMs: atHour(24) })).toMatchObject({ status: 'planned', startUtc: startOf(24) });
  });

  test('to be finished before the calm: not planned, and the first start its limits allow', () => {
    const { status, nearestMiss } = planned({ finishByEpochMs: atHour(15) });
    expect([status, nearestMiss?.reason]).toEqual(['unplanned', 'orders']);
    expect(nearestMiss?.text).toMatch(/^What is fixed about it leaves none of the starts its limits allow; the first/);
  });

  test('all calm hours forbidden: not planned for what is fixed', () => {
    expect(planned({}, [[18, 60]]).nearestMiss?.reason).toBe('orders');
    expect(planned({}, [[18, 60, 'a']]).nearestMiss?.wouldHelp).toBe('Other bounds, or fewer forbidden hours.');
  });

  test('one hour of the calm forbidden: planned around it', () => {
    const { status, startUtc } = planned({}, [[18, 26]]);
    expect(status).toBe('planned');
    expect(Date.parse(startUtc ?? '')).toBeGreaterThanOrEqual(atHour(26));
  });
});
