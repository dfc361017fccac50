/**
 * How long the window table of one job takes, all limits, under one handling.
 *
 *     npm run bench:windows -- [--scenarios 30] [--hours 48] [--lags 24] [--json FILE]
 *
 * At lag 0 and for all lags, in slots of 15 and of 10 minutes, beside a plain evaluation at lag 0 in the same run. What all
 * jobs of a lag share is reported apart: wind over the deck, medians over the scenarios. Each table is timed by itself and its
 * best of several rounds counts; figures for all lags are sums of these, so that other work on the machine shows little.
 */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { BENCH_STEP_COUNT, measureWindows } from './bench-windows/measure.ts';

const TITLES: Readonly<Record<string, string>> = {
  sharedMs: 'shared by all jobs under a handling, each lag: wind over the deck, medians',
  firstJobMs: 'first job, lag 0',
  firstJobAllLagsMs: 'first job, all lags',
  nextJobMs: 'any further job, lag 0',
  nextJobAllLagsMs: 'any further job, all lags',
  listingMs: 'listing of windows and nearest misses, lag 0, both handlings',
  plainMs: 'plain evaluation, lag 0',
  timesFaster: 'times faster than plain',
};

const { values } = parseArgs({
  options: {
    scenarios: { type: 'string', default: '30' },
    hours: { type: 'string', default: '48' },
    lags: { type: 'string', default: '24' },
    json: { type: 'string' },
  },
});
const size = { scenarioCount: Number(values.scenarios), horizonH: Number(values.hours), lagCount: Number(values.lags) };
console.log(
  `${cpus()[0]?.model ?? 'unknown processor'}, load ${loadavg()[0]?.toFixed(1) ?? '?'}, Node ${process.version}`,
);
console.log(`${size.scenarioCount} scenarios, ${size.horizonH} h, ${size.lagCount} lags, ${BENCH_STEP_COUNT} steps`);
const results = [15, 10].map((slotMin) => measureWindows(size, slotMin));
for (const row of results) {
  console.log(`slots of ${row['slotMin'] ?? 0} min`);
  for (const [key, title] of Object.entries(TITLES)) {
    const unit = key === 'timesFaster' ? '' : ' ms';
    console.log(`  ${(row[key] ?? Number.NaN).toFixed(2).padStart(9)}${unit.padEnd(3)}  ${title}`);
  }
}
if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify({ size, results }, null, 2)}\n`);
