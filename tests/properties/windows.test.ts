import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { StepLimits } from '../../lib/jobs/index.ts';
import { isSubset, setOfTable } from '../../lib/windows/index.ts';
import type { BlockTable } from '../../lib/windows/index.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { handling, SLOT_COUNT, tableConditions, tableOf } from '../windows/table-world.ts';
import type { DrawnWind } from './drawn-worlds.ts';
import { drawnWind, SEED, tenths, weatherOf } from './drawn-worlds.ts';
import { longOrShort } from '../long-run.ts';

// The boat stays where she is and light air counts for nothing: then windows may only shrink.

const RUNS = { seed: SEED, numRuns: longOrShort(60, 25) };
const winds = fc.array(drawnWind, { minLength: 1, maxLength: 6 });
const minutes = fc.integer({ min: 10, max: 240 });
const noGo = tenths(5, 25);

function table(of: {
  winds: readonly DrawnWind[];
  minutes: number;
  limits: Partial<StepLimits>;
  more?: (w: number, hourH: number) => number;
  handlingId?: string;
}): BlockTable {
  const scenarios = of.winds.map((wind, w) => weatherOf(wind, (hourH) => of.more?.(w, hourH) ?? 0));
  const job = littleJob('job', [littleStep('step', of.minutes, of.limits)]);
  return tableOf(job, tableConditions(scenarios), { work: { handling: handling(of.handlingId ?? 'hold-course') } });
}

/** Slots at which the second table is fair in a scenario in which the first is not. */
function opened(first: BlockTable, second: BlockTable): number[] {
  return Array.from({ length: SLOT_COUNT }, (_, i) => i).filter(
    (i) => !isSubset(setOfTable(second, i), setOfTable(first, i)),
  );
}

describe('more wind never opens or lengthens a window', () => {
  const more = fc.array(fc.record({ fromH: tenths(0, 16), lengthH: tenths(1, 16), kn: tenths(0, 8) }), {
    minLength: 1,
    maxLength: 4,
  });
  type Gusts = readonly { fromH: number; lengthH: number; kn: number }[];
  const sumAt = (gusts: Gusts, hourH: number): number =>
    gusts.reduce((sum, gust) => sum + (hourH >= gust.fromH && hourH < gust.fromH + gust.lengthH ? gust.kn : 0), 0);

  test('in any scenario, where a limit alone binds', () => {
    fc.assert(
      fc.property(
        winds,
        minutes,
        noGo,
        fc.record({
          gusts: fc.array(more, { minLength: 6, maxLength: 6 }),
          handlingId: fc.constantFrom('hold-course', 'run-off'),
        }),
        (drawn, workMin, limitKn, { gusts, handlingId }) => {
          const of = { winds: drawn, minutes: workMin, limits: { deckWindKn: onlyNoGo(limitKn) }, handlingId };
          expect(opened(table(of), table({ ...of, more: (w, hourH) => sumAt(gusts[w] ?? [], hourH) }))).toEqual([]);
        },
      ),
      RUNS,
    );
  });

  test('in a single forecast, where wind slows the work as well', () => {
    fc.assert(
      fc.property(drawnWind, minutes, noGo, more, (wind, workMin, limitKn, gusts) => {
        const limits = { deckWindKn: { ideal: limitKn * 0.5, caution: limitKn * 0.75, noGo: limitKn } };
        const of = { winds: [wind], minutes: workMin, limits };
        expect(opened(table(of), table({ ...of, more: (_, hourH) => sumAt(gusts, hourH) }))).toEqual([]);
      }),
      RUNS,
    );
  });
});

describe('a stricter limit never opens or lengthens a window', () => {
  const looser = tenths(1, 2);
  const limitsBy: readonly { name: string; limits: (scale: number) => Partial<StepLimits> }[] = [
    { name: 'wind over the deck', limits: (scale) => ({ deckWindKn: onlyNoGo(scale * 10) }) },
    {
      name: 'wind over the deck at three levels',
      limits: (scale) => ({ deckWindKn: { ideal: scale * 5, caution: scale * 8, noGo: scale * 12 } }),
    },
    { name: 'gust over the deck', limits: (scale) => ({ deckGustNoGoKn: scale * 12 }) },
    { name: 'sea', limits: (scale) => ({ seaHeightM: onlyNoGo(scale) }) },
    { name: 'steepness', limits: (scale) => ({ steepnessNoGoRatio: scale * 0.008 }) },
  ];

  test.each(limitsBy)('$name', ({ limits }) => {
    fc.assert(
      fc.property(drawnWind, minutes, looser, (wind, workMin, scale) => {
        const of = { winds: [wind], minutes: workMin };
        expect(opened(table({ ...of, limits: limits(scale) }), table({ ...of, limits: limits(1) }))).toEqual([]);
      }),
      RUNS,
    );
  });

  test('in any scenario of several', () => {
    fc.assert(
      fc.property(winds, minutes, looser, (drawn, workMin, scale) => {
        const of = { winds: drawn, minutes: workMin };
        expect(
          opened(
            table({ ...of, limits: { deckWindKn: onlyNoGo(10 * scale) } }),
            table({ ...of, limits: { deckWindKn: onlyNoGo(10) } }),
          ),
        ).toEqual([]);
      }),
      RUNS,
    );
  });
});

describe('a longer job', () => {
  test('never has a fair start that a shorter one has not', () => {
    fc.assert(
      fc.property(winds, minutes, fc.integer({ min: 1, max: 120 }), noGo, (drawn, workMin, longerMin, limitKn) => {
        const limits = { deckWindKn: { ideal: limitKn * 0.5, caution: limitKn * 0.75, noGo: limitKn } };
        expect(
          opened(
            table({ winds: drawn, minutes: workMin, limits }),
            table({ winds: drawn, minutes: workMin + longerMin, limits }),
          ),
        ).toEqual([]);
      }),
      RUNS,
    );
  });
});

describe('what the forecast does not hold', () => {
  const holes = fc.array(
    fc.record({ fromSlot: fc.integer({ min: 0, max: 99 }), slots: fc.integer({ min: 1, max: 20 }) }),
    { minLength: 1, maxLength: 3 },
  );

  test('makes every start unknown whose period touches it, and opens none', () => {
    fc.assert(
      fc.property(winds, minutes, holes, fc.nat(5), (drawn, workMin, missing, which) => {
        const isMissing = (slot: number): boolean =>
          missing.some(({ fromSlot, slots }) => slot >= fromSlot && slot < fromSlot + slots);
        const scenario = which % drawn.length;
        const limits = { deckWindKn: onlyNoGo(14), seaHeightM: onlyNoGo(2) };
        const known = tableOf(
          littleJob('job', [littleStep('step', workMin, limits)]),
          tableConditions(drawn.map((wind) => weatherOf(wind))),
        );
        const partly = tableOf(
          littleJob('job', [littleStep('step', workMin, limits)]),
          tableConditions(
            drawn.map((wind, w) => ({
              ...weatherOf(wind),
              seaHeightM: (hourH) =>
                w === scenario && isMissing(Math.round(hourH * 6)) ? Number.NaN : weatherOf(wind).seaHeightM(hourH),
            })),
          ),
        );
        for (let i = 0; i < SLOT_COUNT; i++) {
          const slots = partly.referenceSlots[i] ?? 0;
          if (slots === 0) continue;
          const touches = Array.from({ length: slots + 1 }, (_, k) => i + k).some(isMissing);
          expect(partly.unknownBits[i] !== 0).toBe(touches);
          // Where no hole is met, what is known is judged as before.
          const same = touches || partly.masks[i] === known.masks[i];
          expect(same).toBe(true);
        }
      }),
      RUNS,
    );
  });

  test('in one member is unknown; a member without wind counts as beyond its limits', () => {
    fc.assert(
      fc.property(fc.array(drawnWind, { minLength: 2, maxLength: 6 }), minutes, noGo, (drawn, workMin, limitKn) => {
        const silent = { windKn: () => Number.NaN, seaHeightM: () => Number.NaN };
        const job = littleJob('job', [littleStep('step', workMin, { deckWindKn: onlyNoGo(limitKn) })]);
        const partly = tableOf(job, tableConditions([...drawn.slice(1).map((wind) => weatherOf(wind)), silent]));
        for (let i = 0; i < SLOT_COUNT; i++) expect((partly.masks[i] ?? 0) >>> (drawn.length - 1)).toBe(0);
      }),
      RUNS,
    );
  });
});
