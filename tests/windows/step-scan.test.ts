import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { scanStep } from '../../lib/windows/step-scan.ts';
import { LIMIT_IDS } from '../../lib/windows/index.ts';
import { BASE_EPOCH_MS, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { handling, slotOf, tableConditions } from './table-world.ts';

// Next broken instant against a plain search, over drawn winds and seas (NaN: not held).

const SLOTS = 24;
const row = (values: fc.Arbitrary<number>) => fc.array(values, { minLength: SLOTS, maxLength: SLOTS });
const winds = fc.array(row(fc.constantFrom(4, 10, 10.5, 25)), { minLength: 1, maxLength: 5 });
const seas = row(fc.constantFrom(0.5, 1, 1.5, Number.NaN));

const worked = (scenarios: readonly (readonly number[])[], seaM: readonly number[]) => ({
  step: littleStep('step', 60, { deckWindKn: onlyNoGo(10), seaHeightM: onlyNoGo(1) }),
  handling: handling('hold-course'),
  sailStateId: 'full-main',
  conditions: tableConditions(
    scenarios.map((windKn) => ({
      windKn: (hourH: number) => windKn[slotOf(hourH)] ?? Number.NaN,
      seaHeightM: (hourH: number) => seaM[slotOf(hourH)] ?? Number.NaN,
    })),
    { slotCount: SLOTS },
  ),
  baseEpochMs: BASE_EPOCH_MS,
  steadyingWindRule: false,
});

const firstFrom = (from: number, isHit: (i: number) => boolean): number => {
  for (let i = from; i < SLOTS; i++) if (isHit(i)) return i;
  return SLOTS;
};

describe('scan of a step', () => {
  test('tells the next broken instant of every scenario and the next unknown one', () => {
    fc.assert(
      fc.property(winds, seas, (scenarios, seaM) => {
        const scan = scanStep(worked(scenarios, seaM), 1);
        for (const [w, windKn] of scenarios.entries()) {
          for (let from = 0; from < SLOTS; from++) {
            const expected = firstFrom(from, (i) => (windKn[i] ?? 0) > 10 || (seaM[i] ?? 0) > 1);
            expect(scan.nextBroken[w * SLOTS + from]).toBe(expected);
          }
        }
        for (let from = 0; from < SLOTS; from++) {
          expect(scan.nextUnknown[from]).toBe(firstFrom(from, (i) => Number.isNaN(seaM[i])));
        }
      }),
      { seed: 20260602, numRuns: 60 },
    );
  });

  test('names what is unknown where it is', () => {
    const seaM = Array.from({ length: SLOTS }, (_, i) => (i === 7 ? Number.NaN : 0.5));
    const scan = scanStep(worked([Array.from({ length: SLOTS }, () => 5)], seaM), 1);
    const named = LIMIT_IDS.filter((_, bit) => (((scan.unknownBits[7] ?? 0) >>> bit) & 1) === 1);
    expect(named).toEqual(['sea-height', 'handling-sea']);
    expect(scan.unknownBits[6]).toBe(0);
  });
});
