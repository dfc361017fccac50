import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PART_LIMITS, messageText, planMessageOf, readMessages, writeMessage } from '../../lib/message/index.ts';
import type { PlanMessage } from '../../lib/message/index.ts';
import { valueOf } from './value-of.ts';
import { drawnPlan, RUNS } from './drawn.ts';
import { littlePlan } from './little-plan.ts';

// What is read must be what was written: the message itself is the reference, no figure of ours.

const MARK = { sender: 'LW', counterNumber: 7 };

function throughTheAir(message: PlanMessage, limitCount: number): unknown {
  const parts = writeMessage(message, MARK, { limitCount, keyOctets: null });
  if (!parts.ok) throw new Error(parts.problems.map(({ what }) => what).join(' '));
  for (const part of parts.value) expect(part.length).toBeLessThanOrEqual(limitCount);
  const { read, unread, damaged } = readMessages(parts.value.toReversed().join('\n'), {
    where: 'test',
    keyOctets: null,
  });
  expect([unread, damaged]).toEqual([[], []]);
  return read[0]?.message;
}

describe('a plan as a message', () => {
  test('any plan: what is written is read, whatever the limit; and every field has its words', () => {
    fc.assert(
      fc.property(drawnPlan, fc.constantFrom(...Object.values(PART_LIMITS), 81), (plan, limitCount) => {
        const message = valueOf(planMessageOf(plan, { note: 'Front about 3 h early' }));
        expect(throughTheAir(message, limitCount)).toEqual(message);
        expect(messageText(message).length).toBeGreaterThan(plan.jobs.length);
      }),
      { ...RUNS, numRuns: 120 },
    );
  });

  test('any plan in short: the same', () => {
    fc.assert(
      fc.property(drawnPlan, fc.integer({ min: 0, max: 5 }), (plan, mostJobsCount) => {
        const message = valueOf(planMessageOf(plan, { detail: 'short', mostJobsCount }));
        expect(throughTheAir(message, 160)).toEqual(message);
      }),
      { ...RUNS, numRuns: 60 },
    );
  });

  test('an empty plan', () => {
    const message = valueOf(planMessageOf({ ...littlePlan(), jobs: [], entries: [] }));
    expect(throughTheAir(message, 160)).toEqual(message);
    expect(messageText(message)).toContain('No job is in this message.');
    expect(messageText(message)).toContain('No sleep is planned.');
  });

  test('two jobs in short fit one short message, with handling, odds, decision, fallback and stop numbers', () => {
    const message = valueOf(planMessageOf(littlePlan(), { planNumber: 7, detail: 'short' }));
    const parts = valueOf(writeMessage(message, MARK, { limitCount: 160, keyOctets: null }));
    expect(parts).toHaveLength(1);
    expect(parts[0]).toContain('/JDROP,280200-0420A90,B280320,R281830A99');
  });

  test('plain words: weekday, UTC, amounts', () => {
    const text = messageText(valueOf(planMessageOf(littlePlan(), { planNumber: 7 })));
    expect(text[0]).toBe(
      'Plan 7, made Wed 27 May 2026 18:00 UTC, from the forecast of Wed 27 May 2026 12:00 UTC. All times are UTC.',
    );
    expect(text).toContain('After Thu 4 Jun 2026 12:00 UTC it holds no longer: only conservative defaults.');
    expect(text).toContain('Job "drop": Thu 28 May 02:00 to 04:20 under "run-off", inside its limits in 90 of 100.');
    expect(text).toContain('  Decide by Thu 28 May 03:20.');
    expect(text).toContain('  If not then: Thu 28 May 18:30, last start Fri 29 May 03:40, under "run-off", 99 of 100.');
    expect(text).toContain('  What binds is sea: 3.2 m expected at the worst moment, 4.0 m is the limit.');
    expect(text).toContain('  Why not: the weather. Nearest: Fri 29 May 01:20 under "run-off", 35 of 100.');
  });

  test('plain words, with names of one’s own: they stand behind the ids that were sent', () => {
    const message = valueOf(planMessageOf(littlePlan(), { planNumber: 7 }));
    const names = { jobs: { drop: 'Drop the mainsail' }, handlings: { 'run-off': 'Running off' }, sailStates: {} };
    const text = messageText(message, names);
    expect(text).toContain(
      'Job "drop" (Drop the mainsail): Thu 28 May 02:00 to 04:20 under "run-off" (Running off), inside its limits in 90 of 100.',
    );
    // A word every object has is no name.
    const odd = { ...message, jobs: message.jobs.map((job) => ({ ...job, jobId: 'constructor' })) };
    expect(messageText(odd, names).join('\n')).toContain('Job "constructor":');
  });

  test('what is not certain is never 100 of 100', () => {
    const plan = littlePlan();
    const jobs = plan.jobs.map((job) => ({ ...job, probability: 0.9999 }));
    expect(valueOf(planMessageOf({ ...plan, jobs })).jobs[0]?.probability).toBe(0.99);
  });

  test('instants that cannot be sent are refused', () => {
    const read = planMessageOf({ ...littlePlan(), madeAtUtc: '1999-12-31T23:59Z' });
    expect(read).toMatchObject({ ok: false, problems: [{ code: 'message.time' }] });
  });
});
