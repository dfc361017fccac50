/** The start check of a planned job: what is expected of its numbers, and what is said where it will probably refuse. */
import { describe, expect, test } from 'vitest';
import { stopNumbersOf } from '../../lib/jobs/index.ts';
import { planMessageOf } from '../../lib/message/index.ts';
import { startCheckText } from '../../lib/planner/index.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, type LittleWeather } from './little-world.ts';
import { planLittle, QUICK } from './plan-little.ts';

const seaOf = (seaHeightM: (hourH: number) => number): LittleWeather => ({ windKn: () => 8, seaHeightM });
const job = littleJob('lash', [
  littleStep('a', 30, { seaHeightM: onlyNoGo(2.2), deckWindKn: onlyNoGo(26) }),
  littleStep('b', 30, { seaHeightM: onlyNoGo(2), deckWindKn: onlyNoGo(25) }),
]);
const passage = littlePassage([job], { wantedProbability: 0.5 });
const planned = (scenarios: readonly LittleWeather[]) => {
  const { plan } = planLittle(passage, littleWeather(scenarios, 30), { solve: QUICK });
  const [lash] = plan.jobs;
  if (lash?.startCheck === undefined || lash.startCheck === null) throw new Error('the job is not planned');
  return { plan, lash, check: lash.startCheck };
};
/** Planned once for the tests that ask about it. */
let calmPlan: ReturnType<typeof planned> | null = null;
const calm = (): ReturnType<typeof planned> => (calmPlan ??= planned([seaOf(() => 1)]));
const said = (check: Parameters<typeof startCheckText>[0]): string | null =>
  startCheckText(check, { time: (utc) => utc.slice(11, 16), lastStartUtc: null, secondUtc: null });

describe('startCheck', () => {
  test('a sea well below: it passes in all, and nothing is said', () => {
    const { check, lash } = calm();
    expect(check).toMatchObject({ passProbability: 1, passesFromUtc: lash.startUtc });
    expect([check.start.seaM, check.expected.seaM, check.stop.seaM]).toEqual([1.6, 1, 2]);
    expect(said(check)).toBeNull();
    expect(lash.goCheck).toContain('Sea at most 1.6 m (expected 1.0 m), no breaking crests; stop at 2.0 m.');
  });

  // Three scenarios of the same weight: seas of 1.5, 1.8 and 1.9 m under a limit of 2 m, started at 1.6 m.
  test('a sea between start and stop: planned, and both numbers and what to do are said', () => {
    const { check, lash } = planned([1.5, 1.8, 1.9].map((seaM) => seaOf(() => seaM)));
    expect(lash.probability).toBe(1);
    expect(check.passProbability).toBeCloseTo(1 / 3, 3);
    expect(check.passesFromUtc).toBeNull();
    expect(said(check)).toBe(
      'The start check will probably say wait (it passes in 33 of 100): sea 1.8 m expected, start at 1.6 m or less. Look every half hour, start when it passes; else leave it, and plan again with the next forecast.',
    );
  });

  test('a sea that falls within the fair starts: from when it passes', () => {
    // 1.9 m at the beginning of the passage (12 h), 1.65 m five hours later, which is shown as 1.7; below 1.65 after that.
    const { check } = planned([seaOf((hourH) => 1.9 - 0.05 * (hourH - 12))]);
    const fromH = (Date.parse(check.passesFromUtc ?? '') - Date.UTC(2026, 5, 1)) / 3_600_000;
    expect(fromH).toBeGreaterThan(16.9);
    expect(fromH).toBeLessThanOrEqual(17.4);
    expect(said(check)).toContain(`Likely to pass from ${check.passesFromUtc?.slice(11, 16)}.`);
  });

  test('go check, stop numbers and message: one source, both steps and the handling', () => {
    const { plan, lash, check } = calm();
    expect(lash.goCheck[0]).toContain(`Stop at ${check.stop.instrumentWindKn}`);
    const message = planMessageOf(plan, { jobs: [job] });
    if (!message.ok) throw new Error('no message');
    expect(message.value.jobs[0]?.stop).toEqual({ windKn: check.stop.deckWindKn, gustKn: null, seaM: check.stop.seaM });
    expect(check.stop.deckWindKn).toBeLessThanOrEqual(stopNumbersOf(job)?.windKn ?? 0);
  });
});
