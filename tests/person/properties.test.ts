import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bodyClockAlong,
  bodyClockH,
  circadianC,
  coldHandsRatio,
  combinedFactorRatio,
  glovesRatio,
  heatFactorRatio,
  lookoutFactorRatio,
  restAfterHeavyMin,
  simulateAlertness,
  tiredFactorRatio,
  ultradianU,
  unifiedC,
  wbgtEstimateC,
  wetBulbC,
  windChillC,
  type AlertnessAt,
} from '../../lib/person/index.ts';
import { MS_PER_H, utcInterval, type UtcInterval } from '../../lib/time/index.ts';

const SEED = { seed: 20260527, numRuns: 300 };

const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** Up and asleep by turns, hours each; the first entry of a pair is time awake before a sleep. */
const pattern = fc.array(fc.tuple(number(0.2, 30), number(0.1, 14)), { minLength: 1, maxLength: 12 });

function sleepsOf(hours: readonly (readonly [number, number])[]): UtcInterval[] {
  let atH = 0;
  return hours.map(([upH, asleepH]) => {
    const startH = atH + upH;
    atH = startH + asleepH;
    return utcInterval(Math.round(startH * MS_PER_H), Math.round(atH * MS_PER_H));
  });
}

const stateAfter = (
  sleeps: readonly UtcInterval[],
  epochMs: number,
  of: { lon?: number; lagMin?: number; efficiency?: number } = {},
): AlertnessAt | null =>
  simulateAlertness(sleeps, {
    atEpochMs: [epochMs],
    bodyClock: (instantEpochMs) => bodyClockH(instantEpochMs, of.lon ?? 0, of.lagMin ?? 0),
    sleepEfficiencyRatio: of.efficiency ?? 1,
  })[0] ?? null;

describe('sleep and alertness, whatever the schedule', () => {
  it('more sleep, all else the same: never a lower S at any later hour', () => {
    fc.assert(
      fc.property(pattern, fc.nat(11), number(0, 1), number(0, 40), (hours, index, share, laterH) => {
        const less = sleepsOf(hours);
        const k = index % less.length;
        const own = less[k];
        if (own === undefined) return;
        // The same sleep goes on into what was time awake after it.
        const freeUntilEpochMs = less[k + 1]?.startEpochMs ?? own.endEpochMs + 6 * MS_PER_H;
        const endEpochMs = Math.round(own.endEpochMs + share * (freeUntilEpochMs - own.endEpochMs));
        const more = less.map((sleep, at) => (at === k ? utcInterval(sleep.startEpochMs, endEpochMs) : sleep));
        const atEpochMs = Math.max(endEpochMs, less.at(-1)?.endEpochMs ?? 0) + Math.round(laterH * MS_PER_H);
        const [before, after] = [stateAfter(less, atEpochMs), stateAfter(more, atEpochMs)];
        expect(after?.s ?? -1).toBeGreaterThanOrEqual((before?.s ?? 0) - 1e-12);
      }),
      SEED,
    );
  });

  it('a fixed state: alertness comes round again every 24 h of the body clock, its 12-hour part every 12', () => {
    fc.assert(
      fc.property(number(2.4, 14.3), number(-200, 200), fc.integer({ min: -5, max: 5 }), (s, todH, days) => {
        const at = (hourH: number): number => s + circadianC(hourH) + ultradianU(hourH);
        expect(at(todH + 24 * days)).toBeCloseTo(at(todH), 9);
        expect(ultradianU(todH + 12 * days)).toBeCloseTo(ultradianU(todH), 9);
        expect(unifiedC(todH + 24 * days)).toBeCloseTo(unifiedC(todH), 9);
      }),
      SEED,
    );
  });

  it('any valid record, longitude, lag and efficiency: numbers, S within 2.4 … 14.3', () => {
    const place = fc.record({ lon: number(-180, 180), lagMin: number(-720, 720), efficiency: number(0.3, 1) });
    fc.assert(
      fc.property(pattern, place, number(0, 400), (hours, of, laterH) => {
        const sleeps = sleepsOf(hours);
        const state = stateAfter(sleeps, (sleeps[0]?.startEpochMs ?? 0) + Math.round(laterH * MS_PER_H), of);
        if (state === null) throw new Error('an instant after the first sleep has a state');
        const { unified, asleep: _asleep, ...numbers } = state;
        for (const value of [...Object.values(numbers), unified.s, unified.debtLapses])
          expect(Number.isFinite(value)).toBe(true);
        expect(state.s).toBeGreaterThanOrEqual(2.4);
        expect(state.s).toBeLessThanOrEqual(14.3);
      }),
      SEED,
    );
  });

  it('over the date line either way: the body clock has no step in it', () => {
    fc.assert(
      fc.property(number(-9, 9), fc.boolean(), (lonPerDay, isFromWest) => {
        const start = isFromWest ? 178 : -178;
        const points = Array.from({ length: 97 }, (_, slot) => {
          const lon = start + (lonPerDay * slot) / 24;
          return { epochMs: slot * MS_PER_H, lon: ((lon + 540) % 360) - 180 };
        });
        const todH = bodyClockAlong(points, 0);
        for (let k = 1; k < todH.length; k++) {
          const stepH = ((todH[k] ?? 0) - (todH[k - 1] ?? 0) + 24) % 24;
          // An hour of time, and at most the 36 minutes a day the boat gains or loses.
          expect(Math.abs(stepH - 1)).toBeLessThan(0.04);
        }
      }),
      SEED,
    );
  });
});

describe('time factors, whatever the weather', () => {
  it('none of them is below 1 or no number', () => {
    const hands = fc.constantFrom('gross', 'medium', 'fine');
    const effort = fc.constantFrom('light', 'moderate', 'heavy');
    const place = fc.constantFrom('below', 'cockpit', 'deck', 'foredeck', 'aloft', 'overside');
    fc.assert(
      fc.property(
        fc.record({ airC: number(-40, 45), deckWindKn: number(0, 120), humidityRatio: number(0.05, 1) }),
        fc.record({ hands, effort, place, gloves: fc.constantFrom('none', 'thin', 'thick') }),
        fc.record({ exposureMin: number(0, 900), kss: number(-3, 14), intervalMin: number(0, 60) }),
        (air, work, of) => {
          const ratios = [
            coldHandsRatio({ chillC: windChillC(air), hands: work.hands, exposureMin: of.exposureMin }),
            glovesRatio(work.gloves),
            heatFactorRatio({ wbgtC: wbgtEstimateC(air), effort: work.effort }),
            lookoutFactorRatio({ place: work.place, intervalMin: of.intervalMin }),
            tiredFactorRatio(of.kss),
          ];
          const product = combinedFactorRatio(ratios);
          // Refused is a value of its own and no factor.
          expect(ratios.filter((ratio) => ratio !== null && !(ratio >= 1))).toEqual([]);
          expect(product === null || (product >= 1 && product <= 3)).toBe(true);
          expect(Number.isFinite(wetBulbC(air))).toBe(true);
        },
      ),
      SEED,
    );
  });

  it('rest after heavy work: none for none, and never less for more', () => {
    fc.assert(
      fc.property(number(0, 300), number(0, 60), number(40, 200), (heavyMin, moreMin, bodyKg) => {
        const restMin = restAfterHeavyMin({ heavyMin, bodyKg });
        expect(restMin).toBeGreaterThanOrEqual(0);
        expect(restAfterHeavyMin({ heavyMin: heavyMin + moreMin, bodyKg })).toBeGreaterThanOrEqual(restMin);
      }),
      SEED,
    );
    expect(restAfterHeavyMin({ heavyMin: 0, bodyKg: 80 })).toBe(0);
    // Murrell's balance at 80 kg and 7.5 MET (10.5 kcal/min), as in the worked example: 20 min ask for 31.4.
    expect(restAfterHeavyMin({ heavyMin: 20, bodyKg: 80 })).toBeCloseTo(31.4286, 3);
  });
});
