import { describe, expect, test } from 'vitest';
import type { ComparableJob, ComparablePlan, PlanChange } from '../../lib/brief/index.ts';
import { planChanges, planChangesText } from '../../lib/brief/index.ts';
import { compareCommand } from '../../scripts/commands/compare.ts';

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
const unplanned = (jobId: string, text: string): ComparableJob =>
  job(jobId, {
    status: 'unplanned',
    startUtc: null,
    handling: null,
    probability: null,
    nearestMiss: { reason: 'weather', text },
  });
const plan = (jobs: readonly ComparableJob[], allDoneProbability: number | null = 0.9): ComparablePlan => ({
  madeAtUtc: '2026-05-28T06:00Z',
  passageName: 'demo',
  totals: { allDoneProbability },
  jobs,
});

const between = (old: ComparableJob, now: ComparableJob): PlanChange[] => planChanges(plan([old]), plan([now]));
const said = (changes: readonly PlanChange[]): string[] =>
  planChangesText(changes, { shipTimeOffsetMin: 0, handlingNames: { 'heave-to': 'Heave to' } });

describe('what changed between two plans', () => {
  test('nothing: no line', () => expect(between(job('sew'), job('sew', { probability: 0.905 }))).toEqual([]));

  test('moved: by how much, and where to', () => {
    const changes = between(job('sew'), job('sew', { startUtc: '2026-05-28T19:30Z' }));
    expect(changes).toMatchObject([{ kind: 'moved', jobId: 'sew', byMin: 90 }]);
    expect(said(changes)).toEqual(['Do sew: 1 h 30 min later, Thu 28 May 19:30 instead of Thu 28 May 18:00.']);
    expect(said(between(job('sew'), job('sew', { startUtc: '2026-05-28T17:50Z' })))).toEqual([
      'Do sew: 10 min earlier, Thu 28 May 17:50 instead of Thu 28 May 18:00.',
    ]);
  });

  test.each([
    ['2026-05-29T02:00Z', 'fallback-used'],
    ['2026-05-29T04:00Z', 'fallback-used'],
    ['2026-05-29T04:10Z', 'moved'],
  ])('moved to %s, the older plan kept 02:00 to 04:00 for it: %s', (startUtc, kind) => {
    const old = job('sew', { fallback: { startUtc: '2026-05-29T02:00Z', lastStartUtc: '2026-05-29T04:00Z' } });
    expect(between(old, job('sew', { startUtc })).map((change) => change.kind)).toEqual([kind]);
  });

  test('another handling, another probability, each its own line', () => {
    expect(said(between(job('sew'), job('sew', { handling: 'heave-to', probability: 0.75 })))).toEqual([
      'Do sew: heave to instead of run-off.',
      'Do sew: inside its limits in 75 of 100, it was 90 of 100.',
    ]);
  });

  test('newly planned, no longer planned and why', () => {
    expect(said(between(unplanned('sew', 'Too windy.'), job('sew')))).toEqual([
      'Do sew: planned now, Thu 28 May 18:00, 90 of 100.',
    ]);
    expect(said(between(job('sew'), unplanned('sew', 'Too windy.')))).toEqual([
      'Do sew: no longer planned. Too windy.',
    ]);
    expect(between(unplanned('sew', 'Too windy.'), unplanned('sew', 'Still too windy.'))).toEqual([]);
  });

  test('conditional now, and known again', () => {
    expect(between(job('sew'), job('sew', { status: 'conditional' }))).toMatchObject([{ kind: 'conditional-now' }]);
    expect(between(job('sew', { status: 'conditional' }), job('sew'))).toMatchObject([{ kind: 'known-now' }]);
  });

  test('done: said once', () => {
    const done = job('sew', { status: 'done' });
    expect(said(between(job('sew'), done))).toEqual(['Do sew: done.']);
    expect(between(done, done)).toEqual([]);
  });

  test('new in the list and no longer in it, in the order of the newer plan', () => {
    const changes = planChanges(plan([job('a'), job('b')]), plan([job('c'), job('b'), unplanned('d', '')]));
    expect(changes.map(({ kind, jobId }) => `${jobId} ${kind}`)).toEqual([
      'c listed',
      'c newly-planned',
      'd listed',
      'a not-listed',
    ]);
  });

  test('the whole comes first', () => {
    const changes = planChanges(plan([job('a')], 0.88), plan([job('a', { probability: 0.5 })], null));
    expect(said(changes)[0]).toBe('All planned jobs together: an unknown share, it was 88 of 100.');
    expect(planChanges(plan([], 0.88), plan([], 0.885))).toEqual([]);
  });
});

describe('slatch compare', () => {
  const files: Readonly<Record<string, string>> = {
    'old.json': JSON.stringify({ ...plan([job('sew')]), seed: 1, later: 'key' }),
    'new.json': JSON.stringify({
      ...plan([job('sew', { startUtc: '2026-05-28T19:00Z' })]),
      madeAtUtc: '2026-05-28T12:00Z',
    }),
    'other.json': JSON.stringify({ ...plan([job('sew')]), passageName: 'another' }),
    'wrong.json': JSON.stringify({ ...plan([{ ...job('sew'), startUtc: 'soon', probability: 2 }]), madeAtUtc: 3 }),
  };

  async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
    const written = { out: '', err: '' };
    const code = await compareCommand.run(args, {
      out: (text) => void (written.out += text),
      err: (text) => void (written.err += text),
      readFile: (path) => {
        const text = files[path];
        return text === undefined
          ? Promise.reject(Object.assign(new Error('none'), { code: 'ENOENT' }))
          : Promise.resolve(new TextEncoder().encode(text));
      },
      nowEpochMs: () => 0,
    });
    return { code, ...written };
  }

  test('text in UTC, or in the ship’s time given', async () => {
    expect((await run('old.json', 'new.json')).out).toBe(
      'demo: from the plan of Thu 28 May 06:00 to Thu 28 May 12:00 (UTC).\n  - Do sew: 1 h later, Thu 28 May 19:00 instead of Thu 28 May 18:00.\n',
    );
    expect((await run('old.json', 'new.json', '--ship-time-min', '720')).out).toContain('Fri 29 May 07:00');
  });

  test('--json holds the changes as data and in words', async () => {
    const { out, code } = await run('old.json', 'new.json', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual({
      fromPlanNumber: null,
      toPlanNumber: null,
      causes: [{ kind: 'time', byMin: 360, text: 'Nothing but the hour: 6 h later.' }],
      changes: [
        {
          kind: 'moved',
          jobId: 'sew',
          name: 'Do sew',
          byMin: 60,
          fromUtc: '2026-05-28T18:00Z',
          toUtc: '2026-05-28T19:00Z',
          text: 'Do sew: 1 h later, Thu 28 May 19:00 instead of Thu 28 May 18:00.',
          reason: null,
          because: null,
        },
      ],
    });
  });

  test('the same plan twice: nothing has changed', async () => {
    expect((await run('old.json', 'old.json')).out).toContain('Nothing has changed.');
  });

  test('plans of two passages: said on standard error', async () => {
    expect((await run('old.json', 'other.json')).err).toContain('plans of two passages: demo and another');
  });

  test('all that is wrong with a plan at once, exit code 1', async () => {
    const { code, err } = await run('wrong.json', 'none.json');
    expect(code).toBe(1);
    expect(err).toContain('wrong.json, madeAtUtc: 3 does not fit.');
    expect(err).toContain('wrong.json, jobs[0].startUtc: "soon" does not fit.');
    expect(err).toContain('wrong.json, jobs[0].probability: 2 does not fit.');
    expect(err).toContain('none.json: There is no such file.');
  });

  test.each([
    [['old.json']],
    [['old.json', 'new.json', 'other.json']],
    [['old.json', 'new.json', '--ship-time-min', 'x']],
  ])('wrong use %#: exit code 2 and the help', async (args) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toContain('slatch compare OLD.json NEW.json');
  });
});
