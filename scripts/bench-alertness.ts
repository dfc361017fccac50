/**
 * How fast alertness is worked out along a plan of ten days in slots of ten minutes, both models at every slot.
 *
 * node --import tsx scripts/bench-alertness.ts [--json FILE]
 *
 * Beside it, in the same run, the same figures worked out anew from the first sleep for every slot: the ratio of the two
 * does not depend on the machine. Calls are of one whole plan.
 */
import { writeFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import {
  bodyClockAlong,
  circadianC,
  DEFAULT_TIME_FACTORS,
  lapsesRhythm,
  simulateAlertness,
  startState,
  ultradianU,
  type Watchkeeper,
} from '../lib/person/index.ts';
import { personBySlot, type Followed } from '../lib/planner/index.ts';
import { MS_PER_H, MS_PER_MIN, utcInterval } from '../lib/time/index.ts';

const SLOT_MIN = 10;
const SLOT_COUNT = (10 * 24 * 60) / SLOT_MIN + 1;
const ROUND_MS = 1500;

/** Three sleeps a day for ten days, after three nights; the boat sails east over the date line. */
const start = Date.UTC(2026, 4, 27);
const sleeps = Array.from({ length: 13 }, (_, day) => day - 3).flatMap((day) =>
  (day < 0
    ? [[0, 7]]
    : [
        [1, 4],
        [5, 6.5],
        [14, 15.5],
      ]
  ).map(([fromH = 0, toH = 0]) =>
    utcInterval(start + (24 * day + fromH) * MS_PER_H, start + (24 * day + toH) * MS_PER_H),
  ),
);
const atEpochMs = Array.from({ length: SLOT_COUNT }, (_, slot) => start + slot * SLOT_MIN * MS_PER_MIN);
const todH = bodyClockAlong(
  atEpochMs.map((epochMs, slot) => ({ epochMs, lon: ((170 + (20 * slot) / SLOT_COUNT + 180) % 360) - 180 })),
  0,
);
const bodyClock = (epochMs: number): number => todH[Math.round((epochMs - start) / (SLOT_MIN * MS_PER_MIN))] ?? 0;

const slotAt = (epochMs: number): number => Math.round((epochMs - start) / (SLOT_MIN * MS_PER_MIN));
const history = sleeps.filter(({ endEpochMs }) => endEpochMs <= start);
const planned = sleeps
  .filter(({ startEpochMs }) => startEpochMs >= start)
  .map(({ startEpochMs, endEpochMs }) => ({ fromSlot: slotAt(startEpochMs), toSlot: slotAt(endEpochMs) }));
const watchkeeper: Watchkeeper = {
  sleeps: history,
  wantedSleepHPer24H: 6,
  usualSleepSolarH: 22,
  sleepEfficiencyRatio: 0.85,
  paceRatio: 1,
  bodyClockLagMin: 0,
  gloves: 'none',
  timeFactors: DEFAULT_TIME_FACTORS,
  leastSleepHPer24H: 4,
  bodyKg: 80,
};
const begin = startState(watchkeeper, { epochMs: start, lon: 170 });
const followed: Followed = {
  grid: { slotMin: SLOT_MIN, slotCount: SLOT_COUNT },
  fromSlot: 0,
  start: {
    slot: 0,
    s: begin.s,
    unified: begin.unified,
    awakeSinceSlot: slotAt(begin.awakeSinceEpochMs),
    lastSleepMin: 0,
    wokeTodH: 0,
    sleeps: null,
  },
  facts: {
    watchkeeper,
    todH,
    rhythm: todH.map((hourH) => circadianC(hourH) + ultradianU(hourH)),
    lapsesRhythm: todH.map(lapsesRhythm),
    longestSleepSlots: 18,
  },
};
/** Person by slot, as the planner's report has it: alertness and lapses at every slot. */
function alongPlan(): number {
  const { facts } = followed;
  let last = 0;
  for (const person of personBySlot(followed, planned)) {
    last = person.s + (facts.rhythm[person.slot] ?? 0);
    if (Number.isNaN(person.unified.s + (facts.lapsesRhythm[person.slot] ?? 0))) throw new Error('no lapses');
  }
  return last;
}
const simulated = (): number =>
  simulateAlertness(sleeps, { atEpochMs, bodyClock, sleepEfficiencyRatio: 0.85 })[SLOT_COUNT - 1]?.alertnessPoints ?? 0;
const anew = (): number => {
  let last = 0;
  for (const epochMs of atEpochMs)
    last =
      simulateAlertness(sleeps, { atEpochMs: [epochMs], bodyClock, sleepEfficiencyRatio: 0.85 })[0]?.alertnessPoints ??
      last;
  return last;
};

/** Calls in a second, the best of three rounds. */
function callsPerSecond(call: () => number): number {
  let best = 0;
  for (let round = 0; round < 3; round++) {
    const from = performance.now();
    let count = 0;
    while (performance.now() - from < ROUND_MS / 3) {
      call();
      count++;
    }
    best = Math.max(best, count / ((performance.now() - from) / 1000));
  }
  return best;
}

const { values: options } = parseArgs({ options: { json: { type: 'string' } } });
const [fast, slow] = [alongPlan(), anew()];
if (Math.abs(fast - slow) > 1e-9 || Math.abs(simulated() - slow) > 1e-9)
  throw new Error(`they do not agree: ${fast}, ${simulated()}, ${slow}`);
const rates = { along: callsPerSecond(alongPlan), simulated: callsPerSecond(simulated), anew: callsPerSecond(anew) };
const rows = [
  ['slot by slot (the planner)', rates.along],
  ['state by state (slatch alertness)', rates.simulated],
  ['anew for every slot (reference)', rates.anew],
] as const;
process.stdout.write(`Alertness along ${SLOT_COUNT} slots and ${sleeps.length} sleeps, calls per second\n`);
for (const [name, rate] of rows)
  process.stdout.write(
    `  ${name.padEnd(36)} ${rate.toFixed(0).padStart(7)}/s   ${(1000 / rate).toFixed(3)} ms   ${(rate / rates.anew).toFixed(1)} times the reference\n`,
  );
if (options.json !== undefined)
  writeFileSync(
    options.json,
    `${JSON.stringify({ slotCount: SLOT_COUNT, sleepCount: sleeps.length, callsPerSecond: rates }, null, 2)}\n`,
  );
