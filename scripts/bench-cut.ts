/**
 * How long a cut plan takes, and how many are proven best, on drawn lockers.
 *
 *     npm run bench:cut -- [--instances 50] [--steps N] [--json FILE]
 *
 * Forty pieces without joins and eight to twelve with, in shapes that are hard in different ways. The yardstick is first-fit
 * decreasing, what one would do by hand, in the same run: bars it opens beyond the plan's, where it makes as much.
 */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { cutPlan, type CutRequest } from '../lib/stock/index.ts';
import { drawFrom, JOINED_SHAPES, type Shape, WHOLE_SHAPES } from './bench-cut/drawn-requests.ts';
import { firstFit } from './bench-cut/first-fit.ts';

/** A plan within this counts as at once. */
const AT_ONCE_MS = 1000;

interface Row {
  readonly shape: string;
  readonly instanceCount: number;
  readonly provenCount: number;
  readonly provenAtOnceCount: number;
  /** Level not proven, by name. */
  readonly open: Readonly<Record<string, number>>;
  readonly medianMs: number;
  readonly worstMs: number;
  /** By hand: fewer pieces made, or more bars opened, in so many instances. */
  readonly byHandWorseCount: number;
}

function measure(shape: Shape, instanceCount: number, stepCount: number | undefined): Row {
  const runs = Array.from({ length: instanceCount }, (_, index) => {
    const request: CutRequest = shape.draw(drawFrom(index + 1));
    const fromMs = performance.now();
    const plan = cutPlan(request, stepCount);
    const tookMs = performance.now() - fromMs;
    const byHand = firstFit(request);
    const isByHandWorse =
      byHand.madeCount < plan.madeIds.length ||
      (byHand.madeCount === plan.madeIds.length && byHand.barCount > plan.barCount);
    return { tookMs, open: plan.open?.level ?? null, isByHandWorse };
  });
  const times = runs.map(({ tookMs }) => tookMs).toSorted((a, b) => a - b);
  const open: Record<string, number> = {};
  for (const run of runs) if (run.open !== null) open[run.open] = (open[run.open] ?? 0) + 1;
  return {
    shape: shape.name,
    instanceCount,
    provenCount: runs.filter((run) => run.open === null).length,
    provenAtOnceCount: runs.filter((run) => run.open === null && run.tookMs <= AT_ONCE_MS).length,
    open,
    medianMs: times[Math.floor(times.length / 2)] ?? Number.NaN,
    worstMs: times.at(-1) ?? Number.NaN,
    byHandWorseCount: runs.filter(({ isByHandWorse }) => isByHandWorse).length,
  };
}

function print(row: Row): void {
  const open = Object.entries(row.open)
    .map(([level, count]) => `${level} ${count}`)
    .join(', ');
  console.log(
    [
      row.shape.padEnd(52),
      `proven ${String(row.provenCount).padStart(3)} of ${row.instanceCount}`,
      `within 1 s ${String(row.provenAtOnceCount).padStart(3)}`,
      `median ${row.medianMs.toFixed(0).padStart(5)} ms`,
      `worst ${row.worstMs.toFixed(0).padStart(6)} ms`,
      `by hand worse ${String(row.byHandWorseCount).padStart(3)}`,
      open === '' ? '' : `not proven: ${open}`,
    ].join('  '),
  );
}

const { values } = parseArgs({
  options: { instances: { type: 'string', default: '50' }, steps: { type: 'string' }, json: { type: 'string' } },
});
const instanceCount = Math.max(1, Number(values.instances));
const stepCount = values.steps === undefined ? undefined : Number(values.steps);
console.log(`${cpus()[0]?.model ?? 'unknown processor'}, load ${loadavg()[0]?.toFixed(2) ?? '?'}`);
const rows = [...WHOLE_SHAPES, ...JOINED_SHAPES].map((shape) => {
  const row = measure(shape, instanceCount, stepCount);
  print(row);
  return row;
});
if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify(rows, null, 2)}\n`);
