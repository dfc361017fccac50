import { describe, expect, test } from 'vitest';
import type { Place, StepLimits } from '../../lib/jobs/index.ts';
import { blocksOf } from '../../lib/jobs/index.ts';
import { LIMIT_IDS, lookBackSlots } from '../../lib/windows/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { fairSlots, handling, range, slotOf, tableConditions, tableOf, withLight } from './table-world.ts';

// Each limit alone, with a value just inside and one just outside. Limits: design page §2 (limit levels, overside, light
// air) and §5.6; 9.80665 m/s² and deep water L = g T² / 2π as in any handbook of waves.

interface Case {
  readonly limits?: Partial<StepLimits>;
  readonly weather?: Partial<LittleWeather>;
  readonly place?: Place;
  readonly handlingId?: string;
  readonly lightIndex?: number;
  readonly steadyingWindRule?: boolean;
}

const calm: LittleWeather = { windKn: () => 8, gustKn: () => 9, seaHeightM: () => 0.5 };

function tableFor(of: Case) {
  const job = littleJob('job', [{ ...littleStep('step', 60, of.limits), place: of.place ?? 'deck' }]);
  const conditions = withLight(tableConditions([{ ...calm, ...of.weather }]), () => of.lightIndex ?? 0);
  return tableOf(job, conditions, {
    settings: { steadyingWindRule: of.steadyingWindRule ?? false },
    work: { handling: handling(of.handlingId ?? 'hold-course') },
  });
}

const holds = (of: Case): boolean => fairSlots(tableFor(of)).length > 0;

/** Deep-water length of a 9 s wave. */
const LENGTH_M = (9.80665 * 81) / (2 * Math.PI);
/** Waves of 4 s in an hour: 900; the highest of them is 1.844 times the significant height. */
const HIGHEST_RATIO = Math.sqrt(Math.log(900) / 2);

const cases: readonly { name: string; inside: Case; outside: Case }[] = [
  {
    name: 'mean wind over the deck',
    inside: { limits: { deckWindKn: onlyNoGo(8) } },
    outside: { limits: { deckWindKn: onlyNoGo(7.99999) } },
  },
  {
    name: 'gust over the deck',
    inside: { limits: { deckGustNoGoKn: 9 } },
    outside: { limits: { deckGustNoGoKn: 8.99999 } },
  },
  {
    name: 'sea',
    inside: { limits: { seaHeightM: onlyNoGo(0.5) } },
    outside: { limits: { seaHeightM: onlyNoGo(0.49999) } },
  },
  {
    name: 'steepness',
    inside: { limits: { steepnessNoGoRatio: 0.02 }, weather: { seaHeightM: () => 0.02 * LENGTH_M - 0.0001 } },
    outside: { limits: { steepnessNoGoRatio: 0.02 }, weather: { seaHeightM: () => 0.02 * LENGTH_M + 0.0001 } },
  },
  {
    name: 'true wind for the handling',
    inside: { handlingId: 'run-off', weather: { windKn: () => 30 } },
    outside: { handlingId: 'run-off', weather: { windKn: () => 30.00001 } },
  },
  {
    name: 'sea for the handling',
    inside: { handlingId: 'run-off', weather: { seaHeightM: () => 4.5 } },
    outside: { handlingId: 'run-off', weather: { seaHeightM: () => 4.50001 } },
  },
  {
    name: 'daylight, which lasts to the end of civil twilight',
    inside: { limits: { daylight: 'required' }, lightIndex: 1 },
    outside: { limits: { daylight: 'required' }, lightIndex: 2 },
  },
  {
    name: 'rain',
    inside: { limits: { rain: 'none' }, weather: { rainMmPerH: 0.099 } },
    outside: { limits: { rain: 'none' }, weather: { rainMmPerH: 0.101 } },
  },
  {
    name: 'air temperature',
    inside: { limits: { airLeastC: 12 }, weather: { airC: 12 } },
    outside: { limits: { airLeastC: 12 }, weather: { airC: 11.99999 } },
  },
  {
    name: 'sea temperature',
    inside: { limits: { seaWaterLeastC: 12 }, weather: { seaWaterC: 12 } },
    outside: { limits: { seaWaterLeastC: 12 }, weather: { seaWaterC: 11.99999 } },
  },
  {
    name: 'visibility',
    inside: { limits: { visibilityLeastNm: 2 }, weather: { visibilityNm: 2 } },
    outside: { limits: { visibilityLeastNm: 2 }, weather: { visibilityNm: 1.99999 } },
  },
  {
    name: 'wind that steadies the boat aloft',
    inside: { place: 'aloft', steadyingWindRule: true, weather: { windKn: () => 5, seaHeightM: () => 0.9 } },
    outside: { place: 'aloft', steadyingWindRule: true, weather: { windKn: () => 4.99999, seaHeightM: () => 0.9 } },
  },
  {
    name: 'sea that needs steadying overside',
    inside: { place: 'overside', steadyingWindRule: true, weather: { windKn: () => 4, seaHeightM: () => 0.79999 } },
    outside: { place: 'overside', steadyingWindRule: true, weather: { windKn: () => 4, seaHeightM: () => 0.80001 } },
  },
  {
    name: 'highest wave of an hour overside, 1.8 times the no-go sea',
    inside: {
      place: 'overside',
      limits: { seaHeightM: onlyNoGo(1) },
      weather: { wavePeriodS: 4, seaHeightM: () => 1.8 / HIGHEST_RATIO - 0.0001 },
    },
    outside: {
      place: 'overside',
      limits: { seaHeightM: onlyNoGo(1) },
      weather: { wavePeriodS: 4, seaHeightM: () => 1.8 / HIGHEST_RATIO + 0.0001 },
    },
  },
];

describe('each limit alone', () => {
  test.each(cases)('$name: just inside holds', ({ inside }) => expect(holds(inside)).toBe(true));
  test.each(cases)('$name: just outside does not', ({ outside }) => expect(holds(outside)).toBe(false));
});

describe('what does not bind', () => {
  test('daylight that is only preferred, rain on work that stands it, light air on deck', () => {
    expect(holds({ limits: { daylight: 'preferred' }, lightIndex: 3 })).toBe(true);
    expect(holds({ limits: { rain: 'any' }, weather: { rainMmPerH: 5 } })).toBe(true);
    expect(holds({ steadyingWindRule: true, weather: { windKn: () => 1, seaHeightM: () => 2 } })).toBe(true);
    expect(holds({ place: 'aloft', steadyingWindRule: false, weather: { windKn: () => 1, seaHeightM: () => 2 } })).toBe(
      true,
    );
  });

  test('the highest wave on deck', () => {
    const limits = { seaHeightM: onlyNoGo(1) };
    expect(holds({ limits, weather: { wavePeriodS: 4, seaHeightM: () => 0.99 } })).toBe(true);
  });

  test('a sea of 1.2 m under a limit of 1.2 m, though neither is exact in binary', () => {
    expect(holds({ limits: { seaHeightM: onlyNoGo(1.2) }, weather: { seaHeightM: () => 1.2 } })).toBe(true);
  });
});

describe('what the forecast does not hold', () => {
  const nothing = (): number => Number.NaN;
  const unknownOf = (of: Case): string[] =>
    LIMIT_IDS.filter((_, bit) => (((tableFor(of).unknownBits[0] ?? 0) >>> bit) & 1) === 1);

  test.each([
    {
      name: 'sea',
      of: { limits: { seaHeightM: onlyNoGo(1) }, weather: { seaHeightM: nothing } },
      unknown: ['sea-height', 'handling-sea'],
    },
    {
      name: 'sea overside',
      of: { place: 'overside', limits: { seaHeightM: onlyNoGo(1) }, weather: { seaHeightM: nothing } },
      unknown: ['sea-height', 'handling-sea', 'highest-wave'],
    },
    {
      name: 'wave period',
      of: { limits: { steepnessNoGoRatio: 0.02 }, weather: { wavePeriodS: Number.NaN } },
      unknown: ['steepness'],
    },
    { name: 'rain', of: { limits: { rain: 'none' }, weather: { rainMmPerH: nothing } }, unknown: ['rain'] },
    { name: 'air', of: { limits: { airLeastC: 5 }, weather: { airC: nothing } }, unknown: ['air-temperature'] },
    {
      name: 'water',
      of: { limits: { seaWaterLeastC: 5 }, weather: { seaWaterC: nothing } },
      unknown: ['sea-temperature'],
    },
    {
      name: 'visibility',
      of: { limits: { visibilityLeastNm: 1 }, weather: { visibilityNm: nothing } },
      unknown: ['visibility'],
    },
    {
      name: 'the sea that light air would not steady',
      of: { place: 'aloft', steadyingWindRule: true, weather: { windKn: () => 4, seaHeightM: nothing } },
      unknown: ['handling-sea', 'steadying-wind'],
    },
    {
      name: 'the sea under a wind that steadies',
      of: { place: 'aloft', steadyingWindRule: true, weather: { windKn: () => 6, seaHeightM: nothing } },
      unknown: ['handling-sea'],
    },
  ] satisfies { name: string; of: Case; unknown: string[] }[])(
    '$name: named as unknown, and never stands for fair',
    ({ of, unknown }) => {
      expect(unknownOf(of)).toEqual(unknown);
    },
  );

  test('a limit the step does not have is never unknown', () => {
    expect(
      unknownOf({
        weather: {
          rainMmPerH: nothing,
          airC: nothing,
          seaWaterC: nothing,
          visibilityNm: nothing,
          wavePeriodS: Number.NaN,
        },
      }),
    ).toEqual([]);
  });

  test('a wind unknown breaks every wind limit', () => {
    expect(holds({ limits: { deckWindKn: onlyNoGo(20) }, weather: { windKn: nothing, gustKn: nothing } })).toBe(false);
  });

  test('a gust unknown under a gust limit is broken, not fair', () => {
    expect(holds({ limits: { deckGustNoGoKn: 20 }, weather: { gustKn: nothing } })).toBe(false);
  });
});

describe('drying spell', () => {
  // 60 min of work and 30 of contingency: 9 slots from the start, and the hours before it.
  const table = (dryBeforeH: number, rainMmPerH: (slot: number) => number) =>
    tableFor({
      limits: { dryBeforeH },
      weather: { rainMmPerH: (hourH) => rainMmPerH(slotOf(hourH)) },
    });
  const shower = (slot: number): number => (slot === 40 ? 0.2 : 0);
  const unknownStarts = (of: ReturnType<typeof tableFor>): number[] =>
    range(0, 90).filter((i) => (of.unknownBits[i] ?? 0) !== 0);

  test('no rain during the step, and none for so many hours before it', () => {
    expect(fairSlots(table(2, shower))).toEqual([...range(0, 30), ...range(53, 90)]);
  });

  test('part of a slot before the start counts whole', () => {
    expect(fairSlots(table(1.1, shower))).toEqual([...range(0, 30), ...range(48, 90)]);
  });

  test('hours before the first value are unknown, and that alone makes a start conditional', () => {
    expect(unknownStarts(table(2, () => 0))).toEqual(range(0, 11));
    expect(fairSlots(table(2, () => 0))).toEqual(range(0, 90));
  });

  test('rain seen in hours partly unknown is rain', () => {
    const early = table(2, (slot) => (slot === 3 ? 1 : 0));
    expect(fairSlots(early)).toEqual(range(16, 90));
    expect(unknownStarts(early).filter((i) => i > 11)).toEqual([]);
  });

  test('an hour the forecast leaves out is unknown for every step after which it still counts', () => {
    expect(unknownStarts(table(2, (slot) => (slot === 50 ? Number.NaN : 0))).filter((i) => i > 11)).toEqual(
      range(41, 62),
    );
  });

  test('what a gauge does not show is no rain', () => {
    expect(fairSlots(table(2, () => 0.1))).toEqual(range(0, 90));
    expect(fairSlots(table(2, () => 0.101))).toEqual([]);
  });

  test('a later step of a chain looks back from its own beginning', () => {
    const [first, second] = [littleStep('first', 60), littleStep('second', 60, { dryBeforeH: 1 })];
    const chain = littleJob('chain', [{ ...first, safePointAfter: false }, second]);
    const weather = { ...calm, rainMmPerH: (hourH: number) => shower(slotOf(hourH)) };
    // The second step is worked from slot 6 after the start to slot 18; the hour before it begins with the start.
    expect(fairSlots(tableOf(chain, tableConditions([weather])))).toEqual([...range(0, 21), ...range(41, 81)]);
  });

  test('conditions cut out of a course must begin so many slots earlier', () => {
    const [block] = blocksOf(littleJob('job', [littleStep('a', 60, { dryBeforeH: 1.1 })]));
    expect(block && lookBackSlots(block, 10)).toBe(7);
    const [plain] = blocksOf(littleJob('job', [littleStep('a', 60)]));
    expect(plain && lookBackSlots(plain, 10)).toBe(0);
  });
});

describe('wind over the deck', () => {
  // Brought to 2 m by (2 / 10)^0.11 = 0.838 (Hsu, Meindl & Gilhousen 1994), then added to the boat's velocity.
  const moving = (handlingId: string, boatSpeedKn: number, fromDegTrue: number, noGoKn: number): boolean => {
    const job = littleJob('job', [littleStep('step', 60, { deckWindKn: onlyNoGo(noGoKn) })]);
    const weather = { ...calm, windKn: () => 20, windFromDegTrue: () => fromDegTrue };
    const conditions = tableConditions([weather], { boatSpeedKn, deckHeightM: 2, courseTowardDegTrue: 90 });
    return fairSlots(tableOf(job, conditions, { work: { handling: handling(handlingId) } })).length > 0;
  };
  const atDeckKn = 20 * 0.2 ** 0.11;

  test.each([
    { name: 'from dead astern less her speed', boatKn: 6, fromDeg: 270, deckKn: atDeckKn - 6 },
    { name: 'from abeam by Pythagoras', boatKn: 6, fromDeg: 180, deckKn: Math.hypot(atDeckKn, 6) },
    { name: 'as it is when she lies still', boatKn: 0, fromDeg: 0, deckKn: atDeckKn },
  ])('$name', ({ boatKn, fromDeg, deckKn }) => {
    expect(moving('hold-course', boatKn, fromDeg, deckKn + 0.001)).toBe(true);
    expect(moving('hold-course', boatKn, fromDeg, deckKn - 0.001)).toBe(false);
  });

  test('running off at 170° is running off whatever the course', () => {
    const rad = (170 * Math.PI) / 180;
    const deckKn = Math.hypot(atDeckKn * Math.cos(rad) + 6, atDeckKn * Math.sin(rad));
    for (const fromDeg of [0, 90, 180, 270]) {
      expect(moving('run-off', 6, fromDeg, deckKn + 0.001)).toBe(true);
      expect(moving('run-off', 6, fromDeg, deckKn - 0.001)).toBe(false);
    }
  });

  test('the gust is felt at the speed the mean wind gives', () => {
    const job = littleJob('job', [littleStep('step', 60, { deckGustNoGoKn: 30 * 0.2 ** 0.11 - 6 + 0.001 })]);
    const weather = { ...calm, windKn: () => 20, gustKn: () => 30, windFromDegTrue: () => 270 };
    const conditions = tableConditions([weather], { boatSpeedKn: 6, deckHeightM: 2 });
    expect(fairSlots(tableOf(job, conditions)).length).toBeGreaterThan(0);
  });

  test('changes with the instant it is asked for', () => {
    const job = littleJob('job', [littleStep('step', 60, { deckWindKn: onlyNoGo(10) })]);
    const rising = { ...calm, windKn: (hourH: number) => (slotOf(hourH) < 50 ? 10 : 10.1) };
    expect(fairSlots(tableOf(job, tableConditions([rising])))).toEqual(Array.from({ length: 41 }, (_, i) => i));
  });
});
