/**
 * How fast the planner's engine proves its plans, on synthetic problems of 48 h with fatigue, and how it grows.
 *
 *     npm run bench:plan -- [--parts main,fine,highs,growth,replan] [--seeds N] [--highs N] [--limit SECONDS]
 *                           [--budget EXTENSIONS] [--clock wall|processor] [--json FILE]
 *
 * main    10 tasks × 30 members × 15 min, both families, at one place and with 24 lags: 200 problems (25 seeds)
 * fine    the same in slots of 10 min
 * highs   N problems at one place beside HiGHS, in the same run: times as ratios (12)
 * growth  more tasks, hours and members, with the gap between worth and bound
 * replan  again after the first job is done, with the old plan as the first incumbent
 *
 * Budgets count extensions; the clock only looks on. "First" is the first plan with all the jobs of the best. Tables are
 * made before the clock starts, and one problem of each family is solved before. Seconds hold for this machine; a claim
 * is a ratio. On a busy machine `--clock processor` counts what the process got of it, all its threads together.
 */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { DEFAULT_SCHEDULE_SETTINGS, type ScheduleSettings } from '../lib/schedule/index.ts';
import { type Clock, processorMs, wallMs } from './bench-plan/clock.ts';
import { benchGroups, GROWTH_SPECS } from './bench-plan/cases.ts';
import { type Measured, measureSpec, timeSolve } from './bench-plan/measure.ts';
import { replan, type Replanned } from './bench-plan/replan.ts';
import { quantile } from './bench-plan/statistics.ts';
import { groupHeading, groupRow, growthHeading, growthRow } from './bench-plan/table.ts';
import { compareCase, type Compared } from './compare-highs/compare-case.ts';
import { formatHeading, formatRow, formatTotals } from './compare-highs/table.ts';
import { makeInstance } from './schedule-instances/make-instance.ts';

interface Asked {
  readonly seedCount: number;
  readonly highsCount: number;
  readonly limitS: number;
  readonly settings: ScheduleSettings;
  readonly clock: Clock;
}

function runGroups(slotMin: number, { seedCount, ...timing }: Asked): readonly Measured[] {
  console.log(`\nslots of ${slotMin} min\n${groupHeading()}`);
  return benchGroups(slotMin, seedCount).flatMap(({ title, specs }) => {
    const measured = specs.map((spec) => measureSpec(spec, timing));
    console.log(groupRow(title, measured));
    return measured;
  });
}

/** Problems at one place, taken from both families by turns. */
async function runHighs({ highsCount, ...limits }: Asked): Promise<readonly Compared[]> {
  console.log(`\n${formatHeading()}`);
  const [random, repair] = benchGroups(15);
  const specs = (random?.specs ?? []).flatMap((spec, i) => [spec, ...(repair?.specs.slice(i, i + 1) ?? [])]);
  const rows: Compared[] = [];
  for (const spec of specs.slice(0, highsCount)) {
    const title = `${spec.family} ${spec.seed}, limits × ${spec.limitRatio}`;
    const row = await compareCase(title, makeInstance(spec), limits);
    rows.push(row);
    console.log(formatRow(row));
  }
  console.log(formatTotals(rows));
  return rows;
}

function runGrowth(asked: Asked): readonly Measured[] {
  console.log(`\n${growthHeading()}`);
  return GROWTH_SPECS.map((spec) => {
    const measured = measureSpec(spec, asked);
    console.log(growthRow(measured));
    return measured;
  });
}

function runReplan({ seedCount, ...timing }: Asked): readonly Replanned[] {
  console.log('\nafter the first job is done');
  return benchGroups(15, seedCount).flatMap(({ title, specs }) => {
    const rows = specs.flatMap((spec) => replan(spec, timing) ?? []);
    const median = (values: readonly number[]): string => `${(quantile(values, 0.5) / 1000).toFixed(2)} s`;
    const warm = median(rows.map(({ warmMs }) => warmMs));
    const fresh = median(rows.map(({ freshMs }) => freshMs));
    const different = rows.filter(({ differs }) => differs).length;
    console.log(
      `${title.padEnd(34)} ${rows.length}: median ${warm} with the old plan, ${fresh} without; ${different} differ`,
    );
    return rows;
  });
}

/** One problem of each family before the clock counts: no time goes to compiling the engine. */
function warmUp(asked: Asked): void {
  for (const { specs } of benchGroups(15, 1))
    for (const spec of specs.slice(0, 1)) timeSolve(makeInstance(spec), asked);
}

async function main(parts: readonly string[], asked: Asked, jsonPath: string | undefined): Promise<void> {
  const machine = `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model.trim() ?? '?'}`;
  const load = (): number => Math.round((loadavg()[0] ?? 0) * 10) / 10;
  console.log(`${machine}, load ${load()}`);
  const has = (part: string): boolean => parts.includes(part);
  warmUp(asked);
  const document = {
    machine,
    main: has('main') ? runGroups(15, asked) : null,
    fine: has('fine') ? runGroups(10, asked) : null,
    highs: has('highs') ? await runHighs(asked) : null,
    growth: has('growth') ? runGrowth(asked) : null,
    replan: has('replan') ? runReplan(asked) : null,
  };
  const residentMb = Math.round(process.resourceUsage().maxRSS / 1024);
  console.log(
    `\nload ${load()} at the end; the process never held more than ${residentMb} MiB, instances and HiGHS included`,
  );
  if (jsonPath !== undefined) writeFileSync(jsonPath, `${JSON.stringify(document, null, 2)}\n`);
}

const { values } = parseArgs({
  options: {
    parts: { type: 'string' },
    seeds: { type: 'string' },
    highs: { type: 'string' },
    limit: { type: 'string' },
    budget: { type: 'string' },
    clock: { type: 'string' },
    json: { type: 'string' },
  },
});
const budget = values.budget === undefined ? {} : { extensionBudget: Number(values.budget) };
await main(
  (values.parts ?? 'main,fine,highs,growth,replan').split(','),
  {
    seedCount: Number(values.seeds ?? 25),
    highsCount: Number(values.highs ?? 12),
    limitS: Number(values.limit ?? 60),
    settings: { ...DEFAULT_SCHEDULE_SETTINGS, ...budget },
    clock: values.clock === 'processor' ? processorMs : wallMs,
  },
  values.json,
);
