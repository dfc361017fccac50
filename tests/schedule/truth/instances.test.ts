/** The synthetic instances: the same every time, and what their tables say is what the weather says. */
import { describe, expect, it } from 'vitest';
import type { ScheduleProblem } from '../../../lib/schedule/index.ts';
import { type InstanceSpec, isLight, slotCountOf } from '../../../scripts/schedule-instances/instance-spec.ts';
import { makeInstance } from '../../../scripts/schedule-instances/make-instance.ts';
import { makeSmallInstance } from '../../../scripts/schedule-instances/small-instance.ts';
import { synthesiseWeather } from '../../../scripts/schedule-instances/synthetic-weather.ts';
import { HANDLINGS, REPAIR_KINDS } from '../../../scripts/schedule-instances/task-kinds.table.ts';
import { uniformDraws } from '../../../scripts/sample-forecasts/random.ts';

const SPEC: InstanceSpec = {
  seed: 5,
  family: 'repair',
  hourCount: 24,
  slotMin: 30,
  taskCount: 10,
  memberCount: 40,
  lagCount: 4,
  isTiring: true,
  limitRatio: 0.9,
};

/** Every number of the tables, in one text. */
const textOf = (problem: ScheduleProblem): string => JSON.stringify(problem.tasks);

describe('synthetic instances', () => {
  it('the same specification twice: the same tables; another seed: others', () => {
    const spec = { ...SPEC, hourCount: 12 };
    expect(textOf(makeInstance(spec))).toBe(textOf(makeInstance(spec)));
    expect(textOf(makeInstance({ ...spec, seed: 6 }))).not.toBe(textOf(makeInstance(spec)));
    expect(textOf(makeSmallInstance(3).problem)).toBe(textOf(makeSmallInstance(3).problem));
  });

  it('a mask: the members that stay inside every limit in every slot of the work, found slot by slot', () => {
    const slotCount = slotCountOf(SPEC);
    const weather = synthesiseWeather(SPEC, uniformDraws(SPEC.seed));
    const inspect = REPAIR_KINDS[1];
    const choice = makeInstance(SPEC).tasks[1]?.choices[0];
    const isInside = (member: number, cell: number): boolean =>
      (weather.windKn[member]?.[cell] ?? NaN) * HANDLINGS[0].windRatio <= inspect.windLimitKn * SPEC.limitRatio &&
      (weather.windKn[member]?.[cell] ?? NaN) * HANDLINGS[0].windRatio * 1.25 <=
        inspect.windLimitKn * SPEC.limitRatio * 1.35 &&
      (weather.waveM[member]?.[cell] ?? NaN) * HANDLINGS[0].seaRatio <= inspect.waveLimitM * SPEC.limitRatio &&
      isLight(cell % slotCount, SPEC);
    let goodCount = 0;
    for (let cell = 0; cell < SPEC.lagCount * slotCount; cell++) {
      for (let member = 0; member < SPEC.memberCount; member++) {
        const bit = ((choice?.table.masks[member >> 5]?.[cell] ?? 0) >>> (member & 31)) & 1;
        expect(bit === 1).toBe(isInside(member, cell));
        goodCount += bit;
      }
    }
    // One slot of work, so both answers must be there.
    expect(goodCount).toBeGreaterThan(100);
    expect(goodCount).toBeLessThan(SPEC.lagCount * slotCount * SPEC.memberCount - 100);
  });

  it('spread of the members: grows with lead time', () => {
    const weather = synthesiseWeather({ ...SPEC, hourCount: 96, memberCount: 400 }, uniformDraws(1));
    const sdAt = (t: number): number => {
      const winds = weather.windKn.map((wind) => wind[t] ?? NaN);
      const mean = winds.reduce((sum, wind) => sum + wind, 0) / winds.length;
      return Math.sqrt(winds.reduce((sum, wind) => sum + (wind - mean) ** 2, 0) / winds.length);
    };
    // 0.6 kn at the start and 0.055 kn for each hour; 400 members, so within a tenth.
    expect(sdAt(0)).toBeCloseTo(0.6, 0.5);
    expect(sdAt(96) / (0.6 + 0.055 * 48)).toBeGreaterThan(0.9);
    expect(sdAt(96) / (0.6 + 0.055 * 48)).toBeLessThan(1.1);
  });

  it('the main down: two slots of way lost in five, in tables and in waiting', () => {
    const problem = makeInstance(SPEC);
    const drop = problem.tasks[0]?.choices[0];
    const stitch = problem.tasks[2]?.choices.filter(({ unitCount }) => unitCount === 2);
    const down = problem.configs.waitQuanta.subarray(slotCountOf(SPEC) + 1);
    expect(drop?.configFinished).toBe(1);
    expect([down[0], down[5], down[10]]).toEqual([0, 2, 4]);
    // Holding course loses nothing itself: laying out and two units, three slots, from instant 2 to 5.
    const [up, held] = stitch ?? [];
    expect(up?.table.lossQuanta[2]).toBe(0);
    expect(held?.table.lossQuanta[2]).toBe(2);
  });
});
