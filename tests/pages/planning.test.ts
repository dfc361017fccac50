/** The real processes on the demo's forecast, with one small job so that it is quickly planned. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { NumberedEntry } from '../../lib/log/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { PlanProgress, PlanRun } from '../../server/plan-run.ts';
import { planInOwnProcess } from '../../server/planning.ts';
import type { DocumentText } from '../../server/documents/index.ts';

import { plan as stood } from './fixture-plan.ts';

const samples = resolve(import.meta.dirname, '../../sample-forecasts');
/** One small job. */
let small = '';
/** Some jobs of the demo, a day and more. */
let several = '';

beforeAll(() => {
  const demo: unknown = JSON.parse(readFileSync(join(samples, 'demo-passage.json'), 'utf8'));
  if (typeof demo !== 'object' || demo === null) throw new Error('the demo is no passage');
  small = JSON.stringify({
    ...demo,
    jobs: [{ id: 'oil', from: 'fastener-oil', handlings: ['hold-course'] }],
    forecasts: ['demo-control.grib2'],
    settings: { horizonH: 12, errorModel: 'none' },
  });
  const wanted = ['oil', 'drop', 'halyard', 'box'];
  const jobs = (demo as { jobs: readonly { id: string }[] }).jobs.filter(({ id }) => wanted.includes(id));
  const settings = { horizonH: 26, wantedProbability: 0.65 };
  several = JSON.stringify({ ...demo, jobs, settings });
});

/** Its forecasts are named as in the demo, and lie in its folder. */
const passageOf = (text: string): DocumentText => ({
  number: 1,
  version: 1,
  text,
  where: 'passage 1',
  folder: samples,
  storeFolder: null,
  fileName: 'passage.json',
});

const started = (standing: Plan | null = null): { run: PlanRun; progress: PlanProgress[] } => {
  const progress: PlanProgress[] = [];
  return {
    run: planInOwnProcess(() => Date.UTC(2026, 4, 27, 18))({
      passage: passageOf(small),
      log: [],
      plans: [],
      onProgress: (one) => void progress.push(one),
      standing,
    }),
    progress,
  };
};

describe('planning in a process of its own', () => {
  it('questions asked before the plan is there wait for it; later ones are answered too; then it ends', async () => {
    const { run, progress } = started(stood);
    const block = { jobId: 'oil', blockIndex: 0, handlingId: 'hold-course' };
    const early = run.ask({ kind: 'windows', ...block });
    const plan = await run.finished;
    if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
    expect(plan.value.names.jobs.map(({ jobId }) => jobId)).toEqual(['oil']);
    // Nothing of it can be done on this passage: it is shown as the plan before, and not kept.
    expect([plan.value.before, plan.value.plan.standing?.kept]).toEqual([stood, false]);
    expect(plan.value.isStoppedEarly).toBe(false);
    expect(progress.some(({ readShare }) => readShare === 1)).toBe(true);

    const answer = await early;
    if (!answer.ok || answer.value.kind !== 'windows') throw new Error('no windows');
    expect(answer.value.picture.slotEpochMs.length).toBeGreaterThan(100);
    const [window] = answer.value.windows.windows;

    const { firstEpochMs, slotMin } = answer.value.grid;
    const startEpochMs = firstEpochMs + (window?.bestStartSlot ?? 0) * slotMin * 60_000;
    // Nine minutes into a slot of ten: the slot it lies in.
    const look = await run.ask({ kind: 'look', ...block, startEpochMs: startEpochMs + 9 * 60_000 });
    if (!look.ok || look.value.kind !== 'look') throw new Error('no look');
    expect(look.value.look.startEpochMs).toBe(startEpochMs);
    expect(look.value.look.probability).toBe(window?.probability);

    const asked = { nowEpochMs: Date.UTC(2026, 4, 27, 18), aheadH: 24, mostCharacterCount: 400 };
    const weather = await run.ask({ kind: 'digest', ...asked });
    if (!weather.ok || weather.value.kind !== 'digest') throw new Error('no digest');
    // Every three hours of a day, both ends.
    expect(weather.value.digest.windKn).toHaveLength(9);
    const noRoom = await run.ask({ kind: 'digest', ...asked, mostCharacterCount: 20 });
    expect(noRoom.ok ? null : noRoom.problems[0].code).toBe('message.digest-too-long');

    const wrong = await run.ask({ kind: 'windows', ...block, jobId: 'oyl' });
    expect(wrong.ok ? null : wrong.problems[0].code).toBe('windows.job-unknown');

    run.close();
    const late = await run.ask({ kind: 'windows', ...block });
    expect(late.ok ? null : late.problems[0].code).toBe('plan.closed');
  });

  it('with a log: planned from where she is, with what was seen, and what was taken from it is told', async () => {
    const at = '2026-05-27T18:00Z';
    const log: readonly NumberedEntry[] = [
      { number: 1, entry: { kind: 'observation', atUtc: at, lat: -36.31, lon: 178.2, pressureHpa: 1008 } },
      { number: 2, entry: { kind: 'sleep', atUtc: '2026-05-27T12:00Z', endUtc: '2026-05-27T15:00Z' } },
      { number: 3, entry: { kind: 'job', atUtc: at, jobId: 'oil', event: 'done', workedMin: 20 } },
    ];
    const run = planInOwnProcess(() => Date.UTC(2026, 4, 27, 18))({
      passage: passageOf(small),
      log,
      plans: [],
      onProgress: () => undefined,
      standing: null,
    });
    const made = await run.finished;
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    run.close();
    const { plan, fromLog } = made.value;
    expect(plan.jobs.map(({ jobId, status }) => [jobId, status])).toEqual([['oil', 'done']]);
    expect(fromLog?.notes.join(' ')).toContain("36°18.6'S 178°12.0'E");
    expect(fromLog?.match[0]).toMatch(/barometer reads .* agreement \w+ \(n = 1\)/i);
    expect(fromLog?.pace.join(' ')).toMatch(/factor/);
  });

  it('stopped once a first plan is found: that plan, judged, without what else would be searched beside it', async () => {
    const found: PlanProgress[] = [];
    const run = planInOwnProcess(() => 0)({
      passage: passageOf(several),
      log: [],
      plans: [],
      onProgress: (one) => {
        if (one.found === undefined) return;
        found.push(one);
        run.stop();
      },
      standing: null,
    });
    const plan = await run.finished;
    if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
    run.close();
    expect(found[0]?.found?.jobCount).toBeGreaterThan(0);
    expect(plan.value.isStoppedEarly).toBe(true);
    expect(plan.value.plan.entries.some(({ kind }) => kind === 'work')).toBe(true);
    expect(plan.value.plan.totals.allDoneProbability).toBeGreaterThan(0.5);
    expect(plan.value.plan.waiting).toBeNull();
    expect(plan.value.plan.jobs.every(({ fallbackPlan }) => fallbackPlan === null)).toBe(true);
  }, 60_000);

  it('stopped at once: no plan, and the reason', async () => {
    const { run } = started();
    run.stop();
    const plan = await run.finished;
    expect(plan.ok ? null : plan.problems[0].code).toBe('plan.stopped');
    run.close();
  });
});
