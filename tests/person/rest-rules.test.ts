import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  LOOKOUT_RULE_TEXT,
  MLC_REST,
  REST_RULE_SCOPE_TEXT,
  restFigures,
  restRuleLines,
  STCW_EXCEPTION,
  STCW_REST,
  type RestFigures,
  type RestRuleId,
} from '../../lib/person/index.ts';
import { MS_PER_H, MS_PER_MIN, utcInterval, type UtcInterval } from '../../lib/time/index.ts';
import { golden } from './golden.ts';

interface Pattern {
  readonly name: string;
  readonly daily_rest_min: readonly (readonly [number, number])[];
  readonly min_rest_any_24h: number;
  readonly min_rest_any_7d: number;
  readonly max_gap_h: number;
  readonly ok_10_in_24: boolean;
  readonly ok_77_in_7d: boolean;
  readonly ok_two_periods_one_6h: boolean;
  readonly ok_gap_14h: boolean;
}

interface Golden {
  readonly tolerance: { readonly value: number };
  readonly limits: Readonly<Record<'stcw' | 'exceptions' | 'mlc', Readonly<Record<string, number>>>>;
  readonly cases: readonly Pattern[];
  readonly printed: {
    readonly rest_h: readonly (readonly [number, number])[];
    readonly record_h: readonly [number, number];
    readonly min_rest_any_24h: number;
  };
}

const file = golden('rest-rules') as Golden;
const DAYS = 9;
const byValue = (a: number, b: number): number => a - b;
const DAY_MIN = 24 * 60;
const hours = ([fromH, toH]: readonly [number, number]): UtcInterval => utcInterval(fromH * MS_PER_H, toH * MS_PER_H);
const minutes = (fromMin: number, toMin: number): UtcInterval => utcInterval(fromMin * MS_PER_MIN, toMin * MS_PER_MIN);
const nineDays = minutes(0, DAYS * DAY_MIN);
const tenDays = hours([0, 240]);

/** The days before and after the record too: their rests reach into it. */
const repeated = ({ daily_rest_min: daily }: Pick<Pattern, 'daily_rest_min'>): readonly UtcInterval[] =>
  Array.from({ length: DAYS + 2 }, (_, k) => (k - 1) * DAY_MIN).flatMap((dayMin) =>
    daily.map(([from, to]) => minutes(dayMin + from, dayMin + to)),
  );

const met = (figures: RestFigures, id: RestRuleId): boolean | null | undefined =>
  restRuleLines(figures).find(({ ruleId }) => ruleId === id)?.met;
const near = (observed: number | null, wanted: number): void => {
  expect(Math.abs((observed ?? Number.NaN) - wanted)).toBeLessThan(file.tolerance.value);
};

describe('restFigures (STCW A-VIII/1, MLC A2.3; independent program)', () => {
  it.each(file.cases)('$name every day for nine days: figures and verdicts', (pattern) => {
    const figures = restFigures(repeated(pattern), nineDays);
    near(figures.leastRest24H, pattern.min_rest_any_24h);
    near(figures.leastRest7DaysH, pattern.min_rest_any_7d);
    near(figures.longestIntervalH, pattern.max_gap_h);
    expect(figures.canMeetTwoPeriods).toBe(pattern.ok_two_periods_one_6h);
    for (const code of ['stcw', 'mlc'] as const) {
      expect(met(figures, `${code}-rest-24h`)).toBe(pattern.ok_10_in_24);
      expect(met(figures, `${code}-rest-7d`)).toBe(pattern.ok_77_in_7d);
      expect(met(figures, `${code}-interval`)).toBe(pattern.ok_gap_14h);
      const isDivided = met(figures, `${code}-two-periods`) === true && met(figures, `${code}-longest-period`) === true;
      expect(isDivided).toBe(pattern.ok_two_periods_one_6h);
    }
  });

  it('worked example in print, off duty 20-05 and 10-24: nine hours from six to six', () => {
    const figures = restFigures(file.printed.rest_h.map(hours), hours(file.printed.record_h));
    expect(figures.leastRest24H).toBe(file.printed.min_rest_any_24h);
    expect(met(figures, 'stcw-rest-24h')).toBe(false);
  });

  it('rests out of order, touching and overlapping: one rest', () => {
    const figures = restFigures([hours([30, 34]), hours([28, 30]), hours([33, 36]), hours([2, 8])], hours([0, 48]));
    expect(figures.restCount).toBe(2);
    expect(figures.longestIntervalH).toBe(20);
    expect(figures.leastLongestPeriodH).toBe(4);
  });

  it('a record of 23 h: too short for every figure of 24 h', () => {
    const figures = restFigures([hours([0, 8])], hours([0, 23]));
    expect(figures).toMatchObject({ leastRest24H: null, leastRest7DaysH: null, canMeetTwoPeriods: null, restCount: 1 });
    expect(met(figures, 'stcw-rest-24h')).toBeNull();
    expect(met(figures, 'stcw-two-periods')).toBeNull();
  });

  it('a record of exactly 7 days: told; a minute less: too short', () => {
    const rests = repeated({ daily_rest_min: [[0, 660]] });
    expect(restFigures(rests, hours([0, 168])).leastRest7DaysH).toBe(77);
    expect(restFigures(rests, minutes(1, 7 * DAY_MIN)).leastRest7DaysH).toBeNull();
  });

  it('one rest: no interval, but an open end of more than 14 h breaks the rule and one of 14 h leaves it open', () => {
    expect(restFigures([hours([4, 6])], hours([0, 20]))).toMatchObject({
      longestIntervalH: null,
      longestOpenIntervalH: 14,
    });
    expect(met(restFigures([hours([4, 6])], hours([0, 20])), 'stcw-interval')).toBeNull();
    expect(met(restFigures([hours([4, 6])], hours([0, 20.1])), 'stcw-interval')).toBe(false);
  });

  it('ten hours in two parts, however many minutes the first has: exactly ten', () => {
    for (let firstMin = 360; firstMin < 600; firstMin++) {
      const rests = [minutes(0, firstMin), minutes(800, 1400 - firstMin), minutes(1440, 1500)];
      expect(restFigures(rests, minutes(0, 1500)).canMeetTwoPeriods).toBe(true);
    }
  });

  it('no rest for ten days: nothing slept, no rule met', () => {
    const figures = restFigures([], tenDays);
    expect(figures).toMatchObject({ leastRest24H: 0, leastRest7DaysH: 0, longestOpenIntervalH: 240, restCount: 0 });
    expect(restRuleLines(figures).filter((line) => line.met === true)).toEqual([]);
  });
});

describe('restRuleLines', () => {
  const nightAndTwoNaps = restFigures(
    repeated({
      daily_rest_min: [
        [0, 360],
        [600, 720],
        [1080, 1200],
      ],
    }),
    nineDays,
  );

  it('6 h and twice 2 h: two periods fail, the exception of three holds, 70 h in 7 days just so', () => {
    expect(met(nightAndTwoNaps, 'stcw-two-periods')).toBe(false);
    expect(met(nightAndTwoNaps, 'stcw-longest-period')).toBe(true);
    expect(met(nightAndTwoNaps, 'stcw-exception-three-periods')).toBe(true);
    expect(met(nightAndTwoNaps, 'stcw-exception-rest-7d')).toBe(true);
  });

  it('a third rest under an hour: does not count for the exception', () => {
    const figures = restFigures(
      repeated({
        daily_rest_min: [
          [0, 420],
          [600, 725],
          [1080, 1135],
        ],
      }),
      nineDays,
    );
    expect(figures.leastRest24H).toBe(10);
    near(figures.leastThreePeriodsH, 7 + 125 / 60);
    expect(met(figures, 'stcw-exception-three-periods')).toBe(false);
  });

  it('limits: those of the codes', () => {
    const { stcw, exceptions, mlc } = file.limits;
    expect(Object.values(STCW_REST).map(({ value }) => value)).toEqual(Object.values(stcw));
    expect(
      Object.values(STCW_EXCEPTION)
        .map(({ value }) => value)
        .toSorted(byValue),
    ).toEqual(
      // The pause after an exception, twice its length, is not in the file.
      [...Object.values(exceptions), 2].toSorted(byValue),
    );
    expect(
      Object.values(MLC_REST)
        .map(({ value }) => value)
        .toSorted(byValue),
    ).toEqual(Object.values(mlc).toSorted(byValue));
  });

  it('whatever the record: the same lines in the same order', () => {
    const ids = (figures: RestFigures): readonly string[] => restRuleLines(figures).map(({ ruleId }) => ruleId);
    expect(ids(nightAndTwoNaps)).toHaveLength(12);
    expect(ids(restFigures([], hours([0, 1])))).toEqual(ids(nightAndTwoNaps));
  });

  it('names and texts: never call a record or a plan lawful', () => {
    const texts = [...restRuleLines(nightAndTwoNaps).map(({ name }) => name), REST_RULE_SCOPE_TEXT, LOOKOUT_RULE_TEXT];
    expect(texts.filter((text) => /compl[iy]/i.test(text))).toEqual([]);
  });
});

describe('any record of rests', () => {
  const SEED = 11;
  const FIVE_MIN = 5;
  /** Rests of up to half a day in ten days, on whole five minutes. */
  const someRests = fc.array(
    fc
      .tuple(fc.integer({ min: 0, max: 2736 }), fc.integer({ min: 1, max: 144 }))
      .map(([from, length]) => minutes(from * FIVE_MIN, (from + length) * FIVE_MIN)),
    { maxLength: 40 },
  );
  const run = { seed: SEED, numRuns: 60 };
  const shifted = (rest: UtcInterval, byMs: number): UtcInterval =>
    utcInterval(rest.startEpochMs + byMs, rest.endEpochMs + byMs);

  it('rests and record later by the same time: the same figures', () => {
    fc.assert(
      fc.property(someRests, fc.integer({ min: -1_000_000, max: 1_000_000 }), (rests, byMin) => {
        const byMs = byMin * MS_PER_MIN;
        const later = restFigures(
          rests.map((rest) => shifted(rest, byMs)),
          shifted(tenDays, byMs),
        );
        expect(later).toEqual(restFigures(rests, tenDays));
      }),
      run,
    );
  });

  it('rests alone later, none pushed out of the record: the same rests and intervals', () => {
    fc.assert(
      fc.property(someRests, fc.integer({ min: 0, max: 24 }), (rests, byH) => {
        const wide = hours([-24, 300]);
        const later = rests.map((rest) => shifted(rest, byH * MS_PER_H));
        const { longestIntervalH, restCount } = restFigures(rests, wide);
        expect(restFigures(later, wide)).toMatchObject({ longestIntervalH, restCount });
      }),
      run,
    );
  });

  it('one more rest: the least rest is never less', () => {
    fc.assert(
      fc.property(someRests, someRests, (rests, more) => {
        const before = restFigures(rests, tenDays);
        const after = restFigures([...rests, ...more], tenDays);
        expect(after.leastRest24H ?? -1).toBeGreaterThanOrEqual(before.leastRest24H ?? 0);
        expect(after.leastRest7DaysH ?? -1).toBeGreaterThanOrEqual(before.leastRest7DaysH ?? 0);
      }),
      run,
    );
  });

  it('every window in steps of five minutes: none has less rest than the least', () => {
    fc.assert(
      fc.property(someRests, (rests) => {
        const slots = Array.from({ length: 2880 }, (_, k) =>
          rests.some((rest) => rest.startEpochMs <= slotMs(k) && slotMs(k) < rest.endEpochMs),
        );
        const figures = restFigures(rests, tenDays);
        expect(figures.leastRest24H).toBeCloseTo(leastOfSlots(slots, 288) / 12, 9);
        expect(figures.leastRest7DaysH).toBeCloseTo(leastOfSlots(slots, 2016) / 12, 9);
      }),
      { seed: SEED, numRuns: 30 },
    );
  });

  it('no figure is NaN', () => {
    fc.assert(
      fc.property(someRests, fc.integer({ min: 1, max: 2880 }), (rests, slots) => {
        const figures = restFigures(rests, minutes(0, slots * FIVE_MIN));
        expect(Object.values(figures).filter((figure) => Number.isNaN(figure))).toEqual([]);
        expect(restRuleLines(figures).filter(({ observed }) => Number.isNaN(observed))).toEqual([]);
      }),
      run,
    );
  });

  const slotMs = (k: number): number => k * FIVE_MIN * MS_PER_MIN;
});

function leastOfSlots(slots: readonly boolean[], windowSlots: number): number {
  let rested = slots.slice(0, windowSlots).filter(Boolean).length;
  let least = rested;
  for (let k = windowSlots; k < slots.length; k++) {
    rested += Number(slots[k]) - Number(slots[k - windowSlots]);
    least = Math.min(least, rested);
  }
  return least;
}
