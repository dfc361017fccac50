import { describe, expect, test } from 'vitest';
import {
  changeReasons,
  comparedPlansText,
  type ComparableJob,
  type ComparablePlan,
  jobNamesOf,
  planCauses,
  planCausesText,
  planChanges,
  planChangesText,
} from '../../lib/brief/index.ts';
import type { NumberedEntry } from '../../lib/log/index.ts';
import type { NotEarlier } from '../../lib/planner/index.ts';

// Why a plan changed, by what the two plans say of it. Wording is ours.

const job = (jobId: string, more: Partial<ComparableJob> = {}): ComparableJob => ({
  jobId,
  name: `Do ${jobId}`,
  status: 'planned',
  startUtc: '2026-05-28T18:00Z',
  handling: 'run-off',
  probability: 0.9,
  fallback: null,
  nearestMiss: null,
  ...more,
});
const plan = (jobs: readonly ComparableJob[], more: Partial<ComparablePlan> = {}): ComparablePlan => ({
  madeAtUtc: '2026-05-28T06:00Z',
  passageName: 'demo',
  totals: { allDoneProbability: 0.9 },
  jobs,
  ...more,
});
const said = (older: ComparablePlan, newer: ComparablePlan): string[] => {
  const changes = planChanges(older, newer);
  const wording = {
    shipTimeOffsetMin: 0,
    handlingNames: { 'heave-to': 'Heave to' },
    jobNames: jobNamesOf(older, newer),
  };
  return planChangesText(changes, wording, changeReasons({ older, newer }, changes));
};
const between = (old: ComparableJob, now: ComparableJob): string[] => said(plan([old]), plan([now]));

const windy: NotEarlier = {
  firstStartUtc: '2026-05-28T16:00Z',
  lastStartUtc: '2026-05-28T20:00Z',
  finding: {
    rule: 'deck-wind',
    jobId: 'sew',
    observed: 14.2,
    required: 13,
    unit: 'kn',
    margin: -1.2,
    scenarioShare: 0.46,
    names: [],
    atUtc: '2026-05-28T18:40Z',
  },
};
const limit = (observed: number) => ({ limit: 'deck-wind', observed, required: 13, unit: 'kn' });

describe('why a job changed', () => {
  test('later: what stands against its old start now, with the amount', () => {
    expect(between(job('sew'), job('sew', { startUtc: '2026-05-28T21:00Z', notEarlier: [windy] }))).toEqual([
      'Do sew: 3 h later, Thu 28 May 21:00 instead of Thu 28 May 18:00, because for the start at Thu 28 May 18:00: wind over the deck above 13.0 kn in 46 of 100, first Thu 28 May 18:40 (14.2 kn expected, 1.2 kn over).',
    ]);
  });

  test('later, and its old start has passed: by how much', () => {
    const now = plan([job('sew', { startUtc: '2026-05-28T21:00Z', notEarlier: [windy] })], {
      madeAtUtc: '2026-05-28T19:30Z',
    });
    expect(said(plan([job('sew')]), now)[0]).toMatch(
      /, because Thu 28 May 18:00 passed 1 h 30 min before this plan\.$/,
    );
  });

  test('later with nothing against the old start by itself: what the newer plan says', () => {
    const why = 'What binds is sea: 1.7 m expected at the worst moment, 2.5 m allowed.';
    const free = { ...windy, finding: null };
    const [line] = between(job('sew'), job('sew', { startUtc: '2026-05-28T21:00Z', notEarlier: [free], why }));
    expect(line).toMatch(/, because what binds is sea: 1\.7 m expected at the worst moment, 2\.5 m allowed\.$/);
    const whyNotEarlier = 'It starts as soon as "Do drop" is finished.';
    const [waits] = between(
      job('sew'),
      job('sew', { startUtc: '2026-05-28T21:00Z', notEarlier: [], why, whyNotEarlier }),
    );
    expect(waits).toMatch(/, because it starts as soon as "Do drop" is finished\.$/);
  });

  test('earlier: what stood against the new start is gone', () => {
    const now = job('sew', { startUtc: '2026-05-28T17:00Z' });
    expect(between(job('sew', { notEarlier: [windy] }), now)[0]).toContain(
      ', because what stood against Thu 28 May 17:00 is gone: wind over the deck above 13.0 kn in 46 of 100',
    );
  });

  test('another job in the way is told by its name', () => {
    const overlap: NotEarlier = {
      ...windy,
      finding: {
        rule: 'overlap',
        jobId: 'sew',
        observed: 10,
        required: 0,
        unit: 'min',
        margin: -10,
        scenarioShare: null,
        names: ['drop'],
        atUtc: '2026-05-28T18:10Z',
      },
    };
    const [line] = said(
      plan([job('drop'), job('sew')]),
      plan([job('drop'), job('sew', { startUtc: '2026-05-28T21:00Z', notEarlier: [overlap] })]),
    );
    expect(line).toContain('10 min of it lie in "Do drop", from Thu 28 May 18:10.');
  });

  test('another probability or handling: what binds now, and what it was', () => {
    const [line] = between(
      job('sew', { bindingLimit: limit(10.4) }),
      job('sew', { probability: 0.7, bindingLimit: limit(12.1) }),
    );
    expect(line).toBe(
      'Do sew: inside its limits in 70 of 100, it was 90 of 100, because wind over the deck binds: 12.1 kn expected at its worst, it was 10.4 kn, limit 13.0 kn.',
    );
    const [other] = between(
      job('sew', { bindingLimit: { limit: 'sea-height', observed: 2, required: 2.5, unit: 'm' } }),
      job('sew', { handling: 'heave-to', bindingLimit: limit(12.1) }),
    );
    expect(other).toBe(
      'Do sew: heave to instead of run-off, because wind over the deck binds: 12.1 kn expected at its worst, limit 13.0 kn.',
    );
  });

  test('newly planned: what kept it out before', () => {
    const out = job('sew', {
      status: 'unplanned',
      startUtc: null,
      handling: null,
      probability: null,
      nearestMiss: { reason: 'weather', text: 'The wind is 2.1 kn over.' },
    });
    expect(between(out, job('sew'))).toEqual([
      'Do sew: planned now, Thu 28 May 18:00, 90 of 100, because what kept it out no longer holds: the wind is 2.1 kn over.',
    ]);
    expect(between(job('sew'), out)).toEqual(['Do sew: no longer planned. The wind is 2.1 kn over.']);
  });

  test('conditional now: which limits the forecast does not hold', () => {
    const conditional = job('sew', { status: 'conditional', unknownLimits: ['visibility', 'sea-height'] });
    expect(between(job('sew'), conditional)[0]).toMatch(/, because the forecast does not hold .*visibility.*, .*\.$/);
    expect(between(conditional, job('sew'))[0]).toMatch(/, because the forecast now holds /);
  });

  test('the whole: the job that moved most its way', () => {
    const jobs = (a: number, b: number) => [job('a', { probability: a }), job('b', { probability: b })];
    const [line] = said(
      plan(jobs(0.95, 0.9), { totals: { allDoneProbability: 0.88 } }),
      plan(jobs(0.94, 0.7), { totals: { allDoneProbability: 0.68 } }),
    );
    expect(line).toBe(
      'All planned jobs together: 68 of 100, it was 88 of 100, because "Do b" alone holds in 70 of 100, it was 90 of 100.',
    );
  });

  test('the whole with other jobs in it: which', () => {
    const out = job('b', { status: 'unplanned', startUtc: null, probability: null });
    const sure = { totals: { allDoneProbability: 0.97 } };
    const both = plan([job('a'), job('b')]);
    expect(said(both, plan([job('a'), out], sure))[0]).toBe(
      'All planned jobs together: 97 of 100, it was 90 of 100, because 1 job is no longer in it: "Do b".',
    );
    expect(said(plan([job('a'), out], sure), both)[0]).toBe(
      'All planned jobs together: 90 of 100, it was 97 of 100, because 1 job is new in it: "Do b".',
    );
    const done = job('b', { status: 'done' });
    expect(said(both, plan([job('a', { probability: 0.97 }), done], sure))[0]).toContain('"Do a" alone holds in 97');
  });

  test('plans that tell nothing of it: no reason', () => {
    const older = plan([job('sew')]);
    const newer = plan([job('sew', { startUtc: '2026-05-28T21:00Z' })]);
    expect(changeReasons({ older, newer }, planChanges(older, newer))).toEqual([null]);
  });
});

const at = (clock: string): string => `2026-05-28T${clock}Z`;
const log: readonly NumberedEntry[] = (
  [
    { kind: 'observation', atUtc: at('05:00'), pressureHpa: 1020 },
    { kind: 'observation', atUtc: at('07:00'), lat: -35, lon: 178, wind: { kind: 'true', speedKn: 9 } },
    { kind: 'sleep', atUtc: at('05:30'), endUtc: at('07:30') },
    { kind: 'job', atUtc: at('09:00'), jobId: 'drop', event: 'started' },
    { kind: 'job', atUtc: at('10:00'), jobId: 'drop', event: 'done' },
    { kind: 'job', atUtc: at('10:30'), jobId: 'sew', event: 'done' },
    { kind: 'correction', atUtc: at('10:40'), corrects: 6, by: null },
    { kind: 'job', atUtc: at('13:00'), jobId: 'hoist', event: 'done' },
  ] as const
).map((entry, k) => ({ number: k + 1, entry }));
const older = plan([job('drop')], { planNumber: 3, forecast: { baseTimeUtc: at('00:00') } });
const newer = plan([job('drop', { status: 'done' })], {
  planNumber: 4,
  madeAtUtc: at('12:00'),
  forecast: { baseTimeUtc: at('06:00') },
});
const wording = { shipTimeOffsetMin: 0, jobNames: jobNamesOf(older, newer) };

describe('what was new between two plans', () => {
  test('a newer forecast, from which to which', () => {
    expect(planCausesText(planCauses({ older, newer }), wording)).toEqual([
      'The forecast is that of Thu 28 May 06:00, it was that of Thu 28 May 00:00.',
    ]);
  });

  test('the log: what was written between the two, corrections applied; a sleep counts when it ended', () => {
    const [, text] = planCausesText(planCauses({ older, newer }, { log }), wording);
    expect(text).toBe(
      'The log, entries 2 to 7: done: "Do drop"; 1 position; 1 reading; 2.0 h in the bunk; 1 correction.',
    );
    const causes = planCauses({ older, newer: { ...newer, madeAtUtc: older.madeAtUtc } }, { log });
    expect(causes.map(({ kind }) => kind)).toEqual(['forecast']);
  });

  test('own pace that has moved, weather seen and what was edited', () => {
    const known = {
      pace: {
        usualRatio: 1,
        older: { sewing: { ratio: 1.2, sessionCount: 2 }, below: { ratio: 0.9, sessionCount: 1 } },
        newer: { sewing: { ratio: 1.4, sessionCount: 5 }, below: { ratio: 0.9, sessionCount: 1 } },
      },
      seenWeather: ['Front about 3 h early.'],
      editedPaths: ['jobs', 'settings'],
    };
    expect(planCausesText(planCauses({ older, newer }, known), wording).slice(1)).toEqual([
      'Own pace: your factor 1.4 (n = 5), sewing; it was 1.2.',
      'Weather seen on board: Front about 3 h early.',
      'The passage was edited: jobs, settings.',
    ]);
  });

  test('nothing but the hour, and not even that', () => {
    const later = { ...older, madeAtUtc: at('09:30') };
    expect(planCausesText(planCauses({ older, newer: later }), wording)).toEqual([
      'Nothing but the hour: 3 h 30 min later.',
    ]);
    expect(planCauses({ older, newer: older })).toEqual([]);
  });

  test('stands before what changed, with the numbers of the plans', () => {
    const changes = planChanges(older, newer);
    const text = comparedPlansText({ older, newer }, { changes, causes: planCauses({ older, newer }) }, wording);
    expect(text.split('\n')).toEqual([
      'demo: from plan 3 of Thu 28 May 06:00 to plan 4 of Thu 28 May 12:00 (UTC).',
      '  New since then:',
      '  - The forecast is that of Thu 28 May 06:00, it was that of Thu 28 May 00:00.',
      '  What changed:',
      '  - Do drop: done.',
    ]);
  });
});
