import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WAIT_DEFAULTS, waitP80H, waitRateRatio, type BackgroundWait } from '../../lib/jobs/index.ts';
import { overAt, waitSlotsOf } from '../../lib/planner/wait-table.ts';

/** Ten hours whatever happens, at 20 °C. */
const tenHours = { leastH: 10, likelyH: 10, mostH: 10 } as const;
const soak: BackgroundWait = { ...WAIT_DEFAULTS, kind: 'soak', ...tenHours };
const cure: BackgroundWait = { ...soak, kind: 'cure', halvesPerC: 10, floorC: 13 };

const air = (...airC: readonly number[]) => ({ airC: Float32Array.from(airC), slotMin: 60 });
const steady = (airC: number, slotCount = 60) => air(...Array.from({ length: slotCount }, () => airC));

describe('slots of a background wait', () => {
  it('no wait: none; a soak: the same whatever the air', () => {
    expect(waitSlotsOf(null, steady(5))).toBe(0);
    expect(waitSlotsOf(soak, steady(-3))).toBe(10);
  });

  it('in air of 20, 30 and 15 °C: ten hours, five, and ten times the root of two', () => {
    const first = (airC: number): number => overAt(waitSlotsOf(cure, steady(airC)), 0);
    expect([20, 30, 15].map(first)).toEqual([10, 5, Math.ceil(10 * Math.SQRT2)]);
  });

  it('a night below the floor: it stands still, and goes on in the morning', () => {
    const night = [...Array.from({ length: 6 }, () => 20), ...Array.from({ length: 12 }, () => 8)];
    const wait = waitSlotsOf(cure, air(...night, ...Array.from({ length: 30 }, () => 20)));
    // Six hours before it, twelve lost, four after it.
    expect(overAt(wait, 0)).toBe(22);
    // Begun in the cold: ten hours from the morning on.
    expect(overAt(wait, 8)).toBe(28);
  });

  it('too cold to the end of what is known: never over', () => {
    expect(overAt(waitSlotsOf(cure, steady(5)), 3)).toBeGreaterThan(60);
  });

  it('kept warm below its floor’s air: the same from every slot', () => {
    expect(waitSlotsOf({ ...cure, keptAtC: 30 }, steady(2))).toBe(5);
  });

  it('any air: who begins later is never ready earlier, and the hours of the cure have gone by when it is over', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.double({ min: -5, max: 35, noNaN: true }), fc.constant(Number.NaN)), {
          minLength: 1,
          maxLength: 50,
        }),
        (airC) => {
          const along = air(...airC);
          const wait = waitSlotsOf(cure, along);
          let before = 0;
          let [short, spare] = [0, Infinity];
          for (let slot = 0; slot <= airC.length; slot++) {
            const over = overAt(wait, slot);
            expect(over).toBeGreaterThanOrEqual(before);
            before = over;
            if (over > airC.length) continue;
            const passed = along.airC.slice(slot, over).map((one) => waitRateRatio(cure, one));
            const gone = passed.reduce((sum, ratio) => sum + ratio, 0);
            short = Math.max(short, waitP80H(cure) - gone);
            spare = Math.min(spare, waitP80H(cure) - (gone - (passed.at(-1) ?? 0)));
          }
          // Never over too soon, nor a slot too late.
          expect(short).toBeLessThan(1e-4);
          expect(spare).toBeGreaterThan(0);
        },
      ),
      { seed: 6, numRuns: 200 },
    );
  });
});
