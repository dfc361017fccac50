import { describe, expect, it } from 'vitest';
import { lookAtStart, windowsPicture, type WindowsPicture } from '../../lib/planner/index.ts';
import { prepare } from '../../lib/planner/prepare.ts';
import type { Job } from '../../lib/jobs/index.ts';
import { littleJob, littlePassage, littleStep, littleWeather, type LittleWeather, onlyNoGo } from './little-world.ts';

const scenario = (windKn: number, seaHeightM: number): LittleWeather => ({
  windKn: () => windKn,
  seaHeightM: () => seaHeightM,
});

const drawn = (
  job: Job,
  scenarios: readonly LittleWeather[],
  handlingId = 'hold-course',
  blockIndex = 0,
): WindowsPicture => {
  const passage = littlePassage([job]);
  const preparation = prepare(passage, littleWeather(scenarios, 48), passage.fixedNowEpochMs ?? 0);
  const picture = windowsPicture(preparation, { jobId: job.id, blockIndex, handlingId });
  if (!picture.ok) throw new Error(picture.problems[0].what);
  return picture.value;
};

const job = littleJob('job', [
  littleStep('one', 30, { seaHeightM: onlyNoGo(2), deckWindKn: { ideal: 20, caution: 30, noGo: 40 } }),
  littleStep('two', 30, { seaHeightM: onlyNoGo(1.5), airLeastC: 5, daylight: 'required' }),
]);
const oneBlock = { ...job, steps: job.steps.map((step, i) => ({ ...step, safePointAfter: i === 1 })) };

describe('windowsPicture', () => {
  it('arrays stand on one axis that begins at the first slot of the plan', () => {
    const picture = drawn(oneBlock, [scenario(8, 1)]);
    const lengths = [picture.light, picture.moon, picture.deckWindKn.p50, picture.airC, picture.startProbability];
    expect(new Set(lengths.map((values) => values.length))).toEqual(new Set([picture.slotEpochMs.length]));
    expect(new Date(picture.slotEpochMs[0] ?? 0).toISOString()).toBe('2026-06-01T12:00:00.000Z');
  });

  it('limits of the block: the strictest of its steps', () => {
    const { limits } = drawn(oneBlock, [scenario(8, 1)]);
    expect([limits.seaHeightM?.noGo, limits.deckWindKn?.noGo, limits.airLeastC, limits.daylight]).toEqual([
      1.5,
      40,
      5,
      'required',
    ]);
  });

  it('blocks stand apart: the second has its own limits', () => {
    const { limits } = drawn(job, [scenario(8, 1)], 'hold-course', 0);
    expect([limits.seaHeightM?.noGo, limits.daylight]).toEqual([2, 'not-needed']);
  });

  it('sea of 1 m and 1.8 m in two scenarios: percentiles by weight, and half of the starts’ weight by day', () => {
    const picture = drawn(oneBlock, [scenario(8, 1), scenario(8, 1.8)]);
    // Each is half of the weight: only the median lies between them.
    expect(picture.seaHeightM.p10[0]).toBeCloseTo(1, 5);
    expect(picture.seaHeightM.p50[0]).toBeCloseTo(1.4, 5);
    expect(picture.seaHeightM.p90[0]).toBeCloseTo(1.8, 5);
    const byDay = picture.startProbability.filter(
      (_, i) => picture.light[i] === 'day' && picture.light[i + 12] === 'day',
    );
    expect(new Set(byDay)).toEqual(new Set([0.5]));
  });

  it('start so late that the work would outlast the forecast: no probability at all', () => {
    expect(drawn(oneBlock, [scenario(8, 1)]).startProbability.at(-1)).toBeNaN();
  });

  it('sea 2 m, waves of 8 s: steepness 2 / (g · 8² / 2π), true wind and water as the forecast has them', () => {
    // Deep-water wave length g T² / 2π = 99.9 m at 8 s: WMO-No. 702, Guide to wave analysis and forecasting, §1.2.
    const weather = { ...scenario(8, 2), wavePeriodS: 8, seaWaterC: 14.5, windFromDegTrue: () => 210 };
    const { hours } = drawn(oneBlock, [weather]);
    expect(hours.steepnessRatio.p50[0]).toBeCloseTo(2 / 99.9, 4);
    expect([hours.trueWindKn.p50[0], hours.trueWindFromDegTrue[0], hours.seaWaterC[0]]).toEqual([8, 210, 14.5]);
  });

  it('limits that few steps have: warmest water, flattest sea, longest dry spell', () => {
    const rare = littleJob('rare', [
      littleStep('one', 30, { seaWaterLeastC: 12, steepnessNoGoRatio: 0.04, dryBeforeH: 2 }),
      littleStep('two', 30, { seaWaterLeastC: 20, steepnessNoGoRatio: 0.03, dryBeforeH: 6 }),
    ]);
    const block = { ...rare, steps: rare.steps.map((step, i) => ({ ...step, safePointAfter: i === 1 })) };
    const { limits } = drawn(block, [scenario(8, 1)]);
    expect([limits.seaWaterLeastC, limits.steepnessNoGoRatio, limits.dryBeforeH]).toEqual([20, 0.03, 6]);
  });

  it('starts at full hours: the same tightest limit as a look at each of them has', () => {
    const rising: LittleWeather = { windKn: (hourH) => 5 + hourH, seaHeightM: () => 1.2 };
    const passage = littlePassage([oneBlock]);
    const preparation = prepare(passage, littleWeather([rising, scenario(10, 1)], 48), passage.fixedNowEpochMs ?? 0);
    const asked = { jobId: oneBlock.id, blockIndex: 0, handlingId: 'hold-course' };
    const picture = windowsPicture(preparation, asked);
    if (!picture.ok) throw new Error(picture.problems[0].what);
    const { hourStarts } = picture.value;
    expect(picture.value.surestStart?.probability).toBeCloseTo(
      Math.max(...hourStarts.map((start) => start.probability)),
      6,
    );
    expect(hourStarts.length).toBeGreaterThan(20);
    expect(new Set(hourStarts.map(({ binding }) => binding?.limit)).size).toBeGreaterThan(1);
    for (const { atEpochMs, probability, binding, unknownLimits } of hourStarts) {
      const startSlot = Math.round((atEpochMs - preparation.grid.firstEpochMs) / 60_000 / preparation.grid.slotMin);
      const look = lookAtStart(preparation, { ...asked, startSlot });
      if (!look.ok) throw new Error(look.problems[0].what);
      expect(look.value.limits[0]).toMatchObject({ ...binding });
      expect(look.value.probability).toBe(probability);
      expect(look.value.unknownLimits).toEqual(unknownLimits);
    }
  });

  it('moon: down at times and up at times in two days', () => {
    const seen = new Set(drawn(oneBlock, [scenario(8, 1)]).moon);
    expect(seen.has('down')).toBe(true);
    expect(seen.size).toBeGreaterThan(1);
  });

  it('handling without the sail that is set: refused, and the sails it has are named', () => {
    const passage = littlePassage([
      littleJob('bare', [littleStep('all', 30)], { handlings: ['close-reach-headsail'] }),
    ]);
    const preparation = prepare(passage, littleWeather([scenario(8, 1)], 24), passage.fixedNowEpochMs ?? 0);
    const picture = windowsPicture(preparation, { jobId: 'bare', blockIndex: 0, handlingId: 'close-reach-headsail' });
    expect(picture.ok ? null : picture.problems[0].code).toBe('windows.handling-without-sail');
    expect(picture.ok ? null : picture.problems[0].expected).toContain('headsail');
  });
});
