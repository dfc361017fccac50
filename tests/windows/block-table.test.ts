import { describe, expect, test } from 'vitest';
import type { LittleWeather } from '../planner/little-world.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { fairSlots, handling, range, SLOT_COUNT, slotOf, tableConditions, tableOf, withLight } from './table-world.ts';

// Minutes, shares and rules: design page §2 (reference period, limit levels) and §5.6 (time factors), worked by hand.

const steady = (windKn: number): LittleWeather => ({ windKn: () => windKn, seaHeightM: () => 1 });
const job = (lengthMin: number, limits: Parameters<typeof littleStep>[2] = {}) =>
  littleJob('job', [littleStep('step', lengthMin, limits)]);
const levels = { ideal: 10, caution: 15, noGo: 20 };

describe('length of the reference period', () => {
  test.each([
    // work, contingency max(half, 30), total, slots of 10 min rounded up
    { workMin: 60, slots: 9 },
    { workMin: 50, slots: 8 },
    { workMin: 55, slots: 9 },
    { workMin: 100, slots: 15 },
    { workMin: 101, slots: 16 },
    { workMin: 10, slots: 4 },
  ])('$workMin min of work hold the weather for $slots slots', ({ workMin, slots }) => {
    const table = tableOf(job(workMin), tableConditions([steady(5)]));
    expect(table.plannedMin[0]).toBeCloseTo(workMin, 4);
    expect(table.referenceSlots[0]).toBe(slots);
  });

  test('the last start leaves room for all of it before the forecast ends, and later ones are refused', () => {
    const table = tableOf(job(60), tableConditions([steady(5)]));
    expect(fairSlots(table)).toEqual(range(0, SLOT_COUNT - 1 - 9));
    expect(table.plannedMin[SLOT_COUNT - 9]).toBeNaN();
  });

  test('share and least contingency are settings', () => {
    const table = tableOf(job(60), tableConditions([steady(5)]), {
      settings: { contingencyShare: 1, contingencyLeastMin: 80 },
    });
    expect(table.referenceSlots[0]).toBe(14);
  });
});

describe('which starts hold', () => {
  const spikeAt = (slot: number): LittleWeather => ({
    windKn: (hourH) => (slotOf(hourH) === slot ? 21 : 5),
    seaHeightM: () => 1,
  });

  test('a limit broken at one instant bars every start whose period touches it, both ends included', () => {
    const table = tableOf(job(60, { deckWindKn: onlyNoGo(20) }), tableConditions([spikeAt(40)]));
    expect(fairSlots(table)).toEqual([...range(0, 30), ...range(41, 90)]);
  });

  test('a wind equal to the limit is inside, a hair above is outside', () => {
    const limited = job(60, { deckWindKn: onlyNoGo(20) });
    expect(fairSlots(tableOf(limited, tableConditions([steady(20)])))).toHaveLength(91);
    expect(fairSlots(tableOf(limited, tableConditions([steady(20.00001)])))).toEqual([]);
  });

  test('a tightened limit asks for less wind and leaves what does not tighten alone', () => {
    const limited = job(60, { deckWindKn: onlyNoGo(20), airLeastC: 15 });
    const settings = { limitRatio: 0.5 };
    expect(fairSlots(tableOf(limited, tableConditions([{ ...steady(10), airC: 15 }]), { settings }))).toHaveLength(91);
    expect(fairSlots(tableOf(limited, tableConditions([{ ...steady(10.001), airC: 15 }]), { settings }))).toEqual([]);
  });

  test('each step answers for its own part and the contingency after it', () => {
    const [first, second] = [
      littleStep('first', 60, { deckWindKn: onlyNoGo(20) }),
      littleStep('second', 60, { deckWindKn: onlyNoGo(10) }),
    ];
    const chain = littleJob('chain', [{ ...first, safePointAfter: false }, second]);
    // From slot 30 on the second step's limit holds; it begins 6 slots after the start. Started before, it is slowed 1.8
    // times by the wind at the start: 60 + 108 min and half of it more, 26 slots.
    const falling: LittleWeather = { windKn: (hourH) => (slotOf(hourH) < 30 ? 15 : 8), seaHeightM: () => 1 };
    const table = tableOf(chain, tableConditions([falling]));
    expect(fairSlots(table)).toEqual(range(24, SLOT_COUNT - 1 - 18));
    expect(table.referenceSlots[24]).toBe(26);
    expect(table.referenceSlots[30]).toBe(18);
  });

  test('the first step may be pushed back by all of the contingency, but not beyond', () => {
    const [first, second] = [littleStep('first', 60, { deckWindKn: onlyNoGo(10) }), littleStep('second', 60)];
    const chain = littleJob('chain', [{ ...first, safePointAfter: false }, second]);
    // 60 min of work + 60 min of contingency: slots start .. start + 12.
    const table = tableOf(chain, tableConditions([spikeAt(60)]));
    expect(fairSlots(table)).toEqual([...range(0, 47), ...range(61, SLOT_COUNT - 1 - 18)]);
  });

  test('the sets hold the scenarios in which all of it stays inside, weighed', () => {
    const conditions = tableConditions([steady(5), steady(25), steady(5), steady(5)]);
    const table = tableOf(job(60, { deckWindKn: onlyNoGo(20) }), conditions, {
      settings: { weights: Int32Array.of(1, 20, 300, 4000) },
    });
    expect(table.masks[0]).toBe(0b1101);
    expect(table.weight[0]).toBe(4301);
  });
});

describe('pace', () => {
  test.each([
    { windKn: 10, ratio: 1 },
    { windKn: 12.5, ratio: 1.125 },
    { windKn: 15, ratio: 1.25 },
    { windKn: 17.5, ratio: 1.525 },
    { windKn: 20, ratio: 1.8 },
  ])('between ideal, caution and no-go of 10, 15, 20 kn, $windKn kn take $ratio times as long', ({ windKn, ratio }) => {
    const table = tableOf(job(60, { deckWindKn: levels }), tableConditions([steady(windKn)]));
    expect(table.plannedMin[0]).toBeCloseTo(60 * ratio, 3);
    expect(table.referenceSlots[0]).toBe(Math.ceil(Math.max(90 * ratio, 60 * ratio + 30) / 10 - 1e-6));
  });

  test('the worse of wind and sea sets it', () => {
    const sea = { ideal: 0.5, caution: 1, noGo: 2 };
    const table = tableOf(
      job(60, { deckWindKn: levels, seaHeightM: sea }),
      tableConditions([{ windKn: () => 12.5, seaHeightM: () => 1.5 }]),
    );
    expect(table.plannedMin[0]).toBeCloseTo(60 * 1.525, 3);
  });

  test('it is that of the median scenario at the start, and a scenario that outruns the period has failed', () => {
    // Median 10 kn: 60 + 30 min. At 17.25 kn pace is 1.25 + 0.55 · 0.45 = 1.4975 (89.85 min), at 17.3 kn 1.503 (90.18 min).
    const table = (lastKn: number) =>
      tableOf(job(60, { deckWindKn: levels }), tableConditions([steady(10), steady(10), steady(lastKn)]));
    expect(table(17.25).masks[0]).toBe(0b111);
    expect(table(17.3).masks[0]).toBe(0b011);
    expect(table(17.3).plannedMin[0]).toBeCloseTo(60, 4);
  });

  test('an unknown sea slows nothing', () => {
    const table = tableOf(
      job(60, { seaHeightM: levels }),
      tableConditions([{ windKn: () => 5, seaHeightM: () => Number.NaN }]),
    );
    expect(table.plannedMin[0]).toBeCloseTo(60, 4);
  });

  test('light air over an old swell slows deck work as caution does, and only with the rule on', () => {
    const rolling = tableConditions([{ windKn: () => 4.9, seaHeightM: () => 0.9 }]);
    expect(tableOf(job(60), rolling, { settings: { steadyingWindRule: true } }).plannedMin[0]).toBeCloseTo(75, 4);
    expect(tableOf(job(60), rolling).plannedMin[0]).toBeCloseTo(60, 4);
    const steadied = tableConditions([{ windKn: () => 5, seaHeightM: () => 0.9 }]);
    expect(tableOf(job(60), steadied, { settings: { steadyingWindRule: true } }).plannedMin[0]).toBeCloseTo(60, 4);
  });
});

describe('other time factors', () => {
  const dark = (ratio: number) => littleJob('dark', [{ ...littleStep('step', 60), darkFactorRatio: ratio }]);

  test.each([
    { light: 0, ratio: 1 },
    { light: 1, ratio: 1 },
    { light: 2, ratio: 1.4 },
    { light: 3, ratio: 1.4 },
  ])('darkness counts from nautical twilight on (light $light: $ratio)', ({ light, ratio }) => {
    const table = tableOf(
      dark(1.4),
      withLight(tableConditions([steady(5)]), () => light),
    );
    expect(table.plannedMin[0]).toBeCloseTo(60 * ratio, 3);
  });

  test('tiredness and own pace multiply', () => {
    const table = tableOf(job(60), tableConditions([steady(5)]), {
      settings: { ownPaceRatioOf: () => 1.2 },
      work: { tiredRatio: 1.15 },
    });
    expect(table.plannedMin[0]).toBeCloseTo(60 * 1.2 * 1.15, 3);
  });

  test('cold hands: wind chill of 2001 (Environment Canada) through 1 + 0.01 · (10 − chill) · √(share of an hour)', () => {
    const conditions = tableConditions([{ ...steady(20 / 1.852), airC: 0 }]);
    // Published table: 0 °C and 20 km/h feel like −5 (−5.24 by its formula).
    const chillC = 13.12 - 11.37 * 20 ** 0.16;
    expect(Math.round(chillC)).toBe(-5);
    expect(tableOf(job(60), conditions).plannedMin[0]).toBeCloseTo(60 * (1 + 0.01 * (10 - chillC)), 2);
    expect(tableOf(job(15), conditions).plannedMin[0]).toBeCloseTo(15 * (1 + 0.01 * (10 - chillC) * 0.5), 2);
    const below = littleJob('below', [{ ...littleStep('step', 60), place: 'below' as const }]);
    expect(tableOf(below, conditions).plannedMin[0]).toBeCloseTo(60, 4);
  });

  test('a product of 3 is worked, anything above is refused', () => {
    const night = withLight(tableConditions([steady(5)]), () => 3);
    expect(tableOf(dark(3), night).plannedMin[0]).toBeCloseTo(180, 3);
    expect(tableOf(dark(3.001), night).plannedMin[0]).toBeNaN();
    expect(fairSlots(tableOf(dark(3.001), night))).toEqual([]);
  });
});

describe('work that can be stopped anywhere', () => {
  const session = { longestMin: 90, restMin: 20, leastUsefulMin: 30, resumeMin: 5, makeSafeMin: 10 };
  const sewing = littleJob('sewing', [
    { ...littleStep('sew', 300, { deckWindKn: levels }), stop: 'anywhere' as const, session },
  ]);

  test('asks for the session and making safe, not for the contingency of a core', () => {
    const table = tableOf(sewing, tableConditions([steady(5)]), { work: { workMin: 30 } });
    expect(table.plannedMin[0]).toBeCloseTo(30, 4);
    expect(table.referenceSlots[0]).toBe(4);
  });

  test('getting the work out again comes on top and is not slowed', () => {
    const table = tableOf(sewing, tableConditions([steady(15)]), { work: { workMin: 60, resumeMin: 5 } });
    expect(table.plannedMin[0]).toBeCloseTo(5 + 75, 3);
    expect(table.referenceSlots[0]).toBe(9);
  });
});

describe('unknown limits', () => {
  const bits = (table: ReturnType<typeof tableOf>, slot: number): number => table.unknownBits[slot] ?? 0;
  const silentFrom = (slot: number): LittleWeather => ({
    windKn: () => 5,
    seaHeightM: (hourH) => (slotOf(hourH) < slot ? 1 : Number.NaN),
  });

  test('a sea unknown at one instant of the period makes the start unknown, and the sea never stands against it', () => {
    const table = tableOf(job(60, { seaHeightM: onlyNoGo(2) }), tableConditions([silentFrom(50)]));
    expect(range(0, 90).filter((i) => bits(table, i) !== 0)).toEqual(range(41, 90));
    expect(fairSlots(table)).toHaveLength(91);
  });

  test('an unknown wind is never fair', () => {
    const silent: LittleWeather = { windKn: (hourH) => (slotOf(hourH) < 50 ? 5 : Number.NaN), seaHeightM: () => 1 };
    expect(fairSlots(tableOf(job(60), tableConditions([silent])))).toEqual(range(0, 40));
  });

  test('a limit of the handling is unknown too', () => {
    const table = tableOf(job(60), tableConditions([silentFrom(0)]), { work: { handling: handling('run-off') } });
    expect(bits(table, 0)).not.toBe(0);
  });
});
