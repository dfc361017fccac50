import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  detectionRange,
  horizonNm,
  LIGHT_RANGES_NM,
  lightRangeNm,
  LOOK_OUT,
  lookoutFactorRatio,
  lookoutInterval,
  lookoutIntervalMin,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Golden {
  readonly tolerance: Readonly<
    Record<'ownNm' | 'ownMin' | 'printedMin' | 'printedTableNm' | 'tableShareNearer', number>
  >;
  readonly horizon: readonly { eye_m: number; object_m: number; expect_nm: number }[];
  readonly horizon_table: readonly { ft: number; nm: number }[];
  readonly interval: readonly { D: number; V: number; expect_min: number }[];
  readonly to_meeting: readonly { D: number; V: number; expect_min: number }[];
  readonly practice: readonly {
    what: string;
    visibility_nm: number;
    dark: boolean;
    own_kn: number;
    least_min: number;
    most_min: number;
  }[];
  readonly rule22: readonly { length_m: number; masthead: number; side: number; stern: number }[];
  readonly annex1: {
    readonly factor: number;
    readonly threshold_lux: number;
    readonly K: number;
    readonly clear_visibility_nm: number;
    readonly candela: readonly { nm: number; cd: number }[];
    readonly candelaShare: number;
  };
}

const file = golden('look-out') as Golden;
const { tolerance, annex1 } = file;
const EYE_M = 2.5;
const clearDay = { eyeM: EYE_M, visibilityNm: 15, isDark: false } as const;
const clearNight = { ...clearDay, isDark: true } as const;

describe('horizonNm', () => {
  it.each(file.horizon)('eye $eye_m m, lights $object_m m: $expect_nm nm (own arithmetic)', (given) => {
    const rangeNm = horizonNm({ eyeM: given.eye_m, objectM: given.object_m });
    expect(Math.abs(rangeNm - given.expect_nm)).toBeLessThanOrEqual(tolerance.ownNm);
  });

  it.each(file.horizon_table)('$ft ft: not beyond $nm nm of the Light List, nor much nearer', ({ ft, nm }) => {
    const rangeNm = horizonNm({ eyeM: 0, objectM: ft * 0.3048 });
    expect(rangeNm).toBeLessThan(nm + tolerance.printedTableNm);
    expect(rangeNm).toBeGreaterThan(nm * (1 - tolerance.tableShareNearer));
  });

  it('a height below the water or not known: our mistake', () => {
    expect(() => horizonNm({ eyeM: -1, objectM: 8 })).toThrow('heights');
    expect(() => horizonNm({ eyeM: Number.NaN, objectM: 8 })).toThrow('heights');
  });
});

describe('lightRangeNm (COLREG Annex I, section 8)', () => {
  /** Candela a light needs to be seen so far in air of transmissivity K. */
  const candela = (rangeNm: number, transmissivity: number): number =>
    annex1.factor * annex1.threshold_lux * rangeNm ** 2 * transmissivity ** -rangeNm;
  const transmissivityAt = (visibilityNm: number): number => annex1.K ** (annex1.clear_visibility_nm / visibilityNm);
  const hazy = annex1.candela.flatMap(({ nm, cd }) =>
    [1.5, 3, 5, 8, 10, 12.9]
      .filter((visibilityNm) => visibilityNm > nm)
      .map((visibilityNm) => ({ nm, cd, visibilityNm })),
  );

  it.each(hazy)('$cd cd, $nm nm in clear air, visibility $visibilityNm nm: seen where the formula says', (given) => {
    const rangeNm = lightRangeNm({ lightNm: given.nm, visibilityNm: given.visibilityNm });
    const needed = candela(rangeNm, transmissivityAt(given.visibilityNm));
    expect(Math.abs(needed / given.cd - 1)).toBeLessThan(annex1.candelaShare);
    expect(rangeNm).toBeLessThan(given.nm);
  });

  it.each(annex1.candela)('$nm nm in clear air or better: no further than that', ({ nm }) => {
    expect(lightRangeNm({ lightNm: nm, visibilityNm: annex1.clear_visibility_nm })).toBeCloseTo(nm, 9);
    expect(lightRangeNm({ lightNm: nm, visibilityNm: 40 })).toBe(nm);
  });

  it('fog: no further than the visibility; none: nothing', () => {
    expect(lightRangeNm({ lightNm: 6, visibilityNm: 0.5 })).toBe(0.5);
    expect(lightRangeNm({ lightNm: 6, visibilityNm: 0 })).toBe(0);
  });

  it('ranges by length: those of Rule 22', () => {
    expect(LIGHT_RANGES_NM).toEqual(
      file.rule22.map((row) => ({
        lengthM: row.length_m,
        mastheadNm: row.masthead,
        sideNm: row.side,
        sternNm: row.stern,
      })),
    );
  });
});

describe('detectionRange', () => {
  it('clear day: the hull over the horizon', () => {
    expect(detectionRange(clearDay)).toEqual({
      detectionNm: horizonNm({ eyeM: EYE_M, objectM: LOOK_OUT.shipHeight.value }),
      isVisibilityKnown: true,
      limitedBy: 'horizon',
    });
  });

  it('clear night: the masthead light, six miles', () => {
    expect(detectionRange(clearNight)).toEqual({ detectionNm: 6, isVisibilityKnown: true, limitedBy: 'light' });
  });

  it('haze of five miles: five by day, less in the dark', () => {
    expect(detectionRange({ ...clearDay, visibilityNm: 5 })).toMatchObject({ detectionNm: 5, limitedBy: 'visibility' });
    const dark = detectionRange({ ...clearNight, visibilityNm: 5 });
    expect(dark.limitedBy).toBe('visibility');
    expect(dark.detectionNm).toBeCloseTo(lightRangeNm({ lightNm: 6, visibilityNm: 5 }), 12);
    expect(dark.detectionNm).toBeLessThan(5);
  });

  it.each([null, Number.NaN])('visibility %s: the default, and said to be unknown', (visibilityNm) => {
    expect(detectionRange({ ...clearDay, visibilityNm })).toEqual({
      detectionNm: 8,
      isVisibilityKnown: false,
      limitedBy: 'visibility',
    });
    const dark = detectionRange({ ...clearNight, visibilityNm });
    expect(dark).toEqual({ detectionNm: 6, isVisibilityKnown: false, limitedBy: 'light' });
  });
});

describe('lookoutIntervalMin', () => {
  it.each(file.interval)(
    'seen at $D nm, closing at $V kn: $expect_min min (own arithmetic)',
    ({ D, V, expect_min }) => {
      const intervalMin = lookoutIntervalMin({ detectionNm: D, closingKn: V });
      expect(Math.abs(intervalMin - expect_min)).toBeLessThanOrEqual(tolerance.ownMin);
    },
  );

  it.each(file.to_meeting)('$D nm at $V kn, nothing held back: $expect_min min to the meeting', (given) => {
    const meetingMin = lookoutIntervalMin({ detectionNm: given.D, closingKn: given.V, actNm: 0, wakeMin: 0 });
    expect(Math.abs(meetingMin - given.expect_min)).toBeLessThanOrEqual(tolerance.printedMin);
  });

  it('seen too late to act or to wake: no time at all', () => {
    expect(lookoutIntervalMin({ detectionNm: 1.5, closingKn: 20 })).toBe(0);
    expect(lookoutIntervalMin({ detectionNm: 0.3, closingKn: 0 })).toBe(0);
    expect(lookoutIntervalMin({ detectionNm: 2, closingKn: 20 })).toBe(0);
  });

  it('a speed that is not a number: our mistake, not a long interval', () => {
    expect(() => lookoutIntervalMin({ detectionNm: 9, closingKn: Number.NaN })).toThrow('numbers');
  });
});

describe('lookoutInterval', () => {
  it.each(file.practice)('$what: $least_min to $most_min min (common practice, no source)', (given) => {
    const { intervalMin } = lookoutInterval({
      eyeM: EYE_M,
      visibilityNm: given.visibility_nm,
      isDark: given.dark,
      ownKn: given.own_kn,
    });
    expect(intervalMin).toBeGreaterThanOrEqual(given.least_min);
    expect(intervalMin).toBeLessThanOrEqual(given.most_min);
  });

  it('own 6 kn, other not given: closing at 26', () => {
    expect(lookoutInterval({ ...clearDay, ownKn: 6 })).toMatchObject({ closingKn: 26, limitedBy: 'horizon' });
    expect(lookoutInterval({ ...clearDay, ownKn: 6, otherKn: 30 }).closingKn).toBe(36);
  });

  it('slow ships in clear air: the cap, which can be edited', () => {
    const slow = { ...clearDay, ownKn: 0, otherKn: 8 };
    expect(lookoutInterval(slow)).toMatchObject({ intervalMin: 20, limitedBy: 'cap' });
    expect(lookoutInterval({ ...slow, longestMin: 12 })).toMatchObject({ intervalMin: 12, limitedBy: 'cap' });
    expect(lookoutInterval({ ...slow, longestMin: 60 }).limitedBy).toBe('horizon');
  });

  it('fog: no interval', () => {
    expect(lookoutInterval({ ...clearDay, visibilityNm: 0.2, ownKn: 5 })).toMatchObject({
      intervalMin: 0,
      limitedBy: 'visibility',
    });
  });

  it('own distance to act and own waking: taken', () => {
    const quick = lookoutInterval({ ...clearNight, ownKn: 6, actNm: 1, wakeMin: 1 });
    expect(quick.intervalMin).toBeCloseTo((60 * 5) / 26 - 1, 12);
  });

  it('less visibility, more speed or darkness: never a longer interval, never NaN', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (visibilityNm, ownKn, otherKn) => {
          const day = { eyeM: EYE_M, visibilityNm, isDark: false, ownKn, otherKn };
          const { intervalMin } = lookoutInterval(day);
          expect(intervalMin).toBeGreaterThanOrEqual(0);
          expect(intervalMin).toBeLessThanOrEqual(20);
          for (const worse of [
            { ...day, visibilityNm: visibilityNm / 2 },
            { ...day, ownKn: ownKn + 3 },
            { ...day, isDark: true },
            { ...day, isDark: true, visibilityNm: visibilityNm / 2 },
          ])
            expect(lookoutInterval(worse).intervalMin).toBeLessThanOrEqual(intervalMin);
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });
});

describe('lookoutFactorRatio (common practice, no source)', () => {
  it('on deck: 20 s every interval, and every ten minutes at the longest', () => {
    expect(lookoutFactorRatio({ place: 'deck', intervalMin: 5 })).toBeCloseTo(1 + 20 / 300, 12);
    expect(lookoutFactorRatio({ place: 'aloft', intervalMin: 20 })).toBeCloseTo(1 + 20 / 600, 12);
  });

  it('below: two and a half minutes each time', () => {
    expect(lookoutFactorRatio({ place: 'below', intervalMin: 15 })).toBeCloseTo(1 + 2.5 / 15, 12);
    expect(lookoutFactorRatio({ place: 'below', intervalMin: 20 })).toBe(1.125);
  });

  it('looking takes half of the time: twice as long; more than half: no room for a look-out', () => {
    expect(lookoutFactorRatio({ place: 'below', intervalMin: 2.5 })).toBe(2);
    expect(lookoutFactorRatio({ place: 'below', intervalMin: 2.4 })).toBeNull();
    expect(lookoutFactorRatio({ place: 'deck', intervalMin: 0.3 })).toBeNull();
    expect(lookoutFactorRatio({ place: 'deck', intervalMin: 0 })).toBeNull();
    expect(lookoutFactorRatio({ place: 'deck', intervalMin: Number.NaN })).toBeNull();
  });
});
