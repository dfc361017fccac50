import { describe, expect, it } from 'vitest';
import { seenByLog } from '../../lib/log/index.ts';
import { planPassage, prepareWindows } from '../../lib/planner/index.ts';
import { MS_PER_MIN } from '../../lib/time/index.ts';
import { littleJob, littlePassage, littleStep, onlyNoGo, withBoatSpeed } from '../planner/little-world.ts';
import { LITTLE_SOLVE } from '../planner/plan-little.ts';
import { atHourEpochMs, everyH, laterFronts, readingsOf } from './match-readings.ts';

// A front is forecast 28 h after the base time and another at 70 h; the boat lies still and reads until 36 h.

const forecast = laterFronts(0);
const job = littleJob('lull', [littleStep('only', 60, { deckWindKn: onlyNoGo(12) })]);
const passageOf = (seed: number) => withBoatSpeed(littlePassage([job], { errorModel: 'default', seed }), 0);
const nowEpochMs = atHourEpochMs(36);

function planAfter(laterH: number | null, seed = 1) {
  const seen = laterH === null ? [] : readingsOf(laterFronts(laterH), everyH(12, 36, 3));
  return {
    passage: passageOf(seed),
    forecast,
    nowEpochMs,
    ...(laterH === null ? {} : { seenWeather: seenByLog(seen) }),
  };
}

/** End of the lull before the second front, and start of the next one behind it [h from the base time]. */
function lullH(laterH: number | null, seed = 1): { endH: number; nextH: number } {
  const found = prepareWindows(planAfter(laterH, seed));
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  const { grid } = found.value.preparation;
  const hourOf = (slot: number): number =>
    (grid.firstEpochMs + slot * grid.slotMin * MS_PER_MIN - atHourEpochMs(0)) / 3.6e6;
  const windows = found.value.windows
    .flatMap((one) => one.windows)
    .filter(({ handlingId }) => handlingId === 'hold-course');
  const before = windows.filter(({ lastStartSlot }) => hourOf(lastStartSlot) < 70);
  const behind = windows.filter(({ firstStartSlot }) => hourOf(firstStartSlot) > 68);
  return {
    endH: Math.max(...before.map(({ lastStartSlot }) => hourOf(lastStartSlot))),
    nextH: Math.min(...behind.map(({ firstStartSlot }) => hourOf(firstStartSlot))),
  };
}

describe('windows of a passage whose log saw the first front', () => {
  it('3 h early: the lull before the next front ends, and the next begins, about 3 h sooner than when on time', () => {
    const seeds = [1, 2];
    const shifts = seeds.map((seed) => {
      const [onTime, early] = [lullH(0, seed), lullH(-3, seed)];
      return { endH: onTime.endH - early.endH, nextH: onTime.nextH - early.nextH };
    });
    const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / seeds.length;
    // Sixty scenarios place an edge to an hour or two, and behind a front, where wind dies slowly, no better.
    expect(Math.abs(meanOf(shifts.map(({ endH }) => endH)) - 3)).toBeLessThan(1);
    expect(Math.abs(meanOf(shifts.map(({ nextH }) => nextH)) - 3)).toBeLessThan(1.5);
  });

  it('on time: the lull is surer, and so at least as long as without a log', () => {
    expect(lullH(0).endH).toBeGreaterThanOrEqual(lullH(null).endH);
  });

  it('the plan: made on the same weather for searching and for telling, and says what was seen', () => {
    const planned = planPassage(planAfter(-3), LITTLE_SOLVE);
    if (!planned.ok) throw new Error(JSON.stringify(planned.problems));
    const said = planned.value.plan.cautions.join('\n');
    expect(said).toMatch(/Front about 3 h early .* agreement good \(n = 9\)/);
    expect(said).toContain('Scenarios weighed and shifted by the log');
  });
});
