/**
 * The planner's engine beside HiGHS, a mixed-integer solver, on the same problems at one place, in the same run.
 *
 *     npm run compare-highs -- [--limit SECONDS] [--only TEXT] [--json FILE]
 *
 * Worth is priority weight / joint weight / cost. HiGHS has the time limit (60 s) for each of at most three
 * solves. `--only` takes the cases whose title holds the text. Ends with 1 when ours is worse than a plan of HiGHS, or
 * differs from its optimum.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { DEFAULT_SCHEDULE_SETTINGS } from '../lib/schedule/index.ts';
import { COMPARE_CASES } from './compare-highs/cases.ts';
import { compareCase, type Compared, isFailure } from './compare-highs/compare-case.ts';
import { formatHeading, formatRow, formatTotals } from './compare-highs/table.ts';
import { makeInstance } from './schedule-instances/make-instance.ts';

async function main(limitS: number, only: string, jsonPath: string | undefined): Promise<void> {
  console.log(formatHeading());
  const rows: Compared[] = [];
  for (const { title, spec } of COMPARE_CASES.filter((one) => one.title.includes(only))) {
    const row = await compareCase(title, makeInstance(spec), {
      limitS,
      settings: DEFAULT_SCHEDULE_SETTINGS,
      clock: () => performance.now(),
    });
    rows.push(row);
    console.log(formatRow(row));
  }
  console.log(`\n${formatTotals(rows)}`);
  if (jsonPath !== undefined) writeFileSync(jsonPath, `${JSON.stringify(rows, null, 2)}\n`);
  if (rows.some(isFailure)) process.exitCode = 1;
}

const { values } = parseArgs({
  options: { limit: { type: 'string' }, only: { type: 'string' }, json: { type: 'string' } },
});
await main(Number(values.limit ?? 60), values.only ?? '', values.json);
