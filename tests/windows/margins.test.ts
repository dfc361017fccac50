import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import { blocksOf } from '../../lib/jobs/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import type { LimitMargin } from '../../lib/windows/index.ts';
import { blockMargins, sparseTable } from '../../lib/windows/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { handling, slotOf, tableConditions, tableSettings, withLight } from './table-world.ts';

// Forecast error of wind: √(1.2² + (0.5 · days)²) m/s, 1852 m to the mile (defaults of lib/weather, sources there). One
// sided 90 %: z = 1.2816. α factor: forecast <= α · limit, α = 1 − z σ / limit (form of DNV-OS-H101, Oct 2011, Sec. 4 B700).
const Z90 = 1.2815515655;
const sigmaKn = (leadH: number): number => (Math.hypot(1.2, (0.5 * leadH) / 24) * 3600) / 1852;

const steady = (windKn: number, seaM = 1): LittleWeather => ({ windKn: () => windKn, seaHeightM: () => seaM });

function marginsOf(
  job: Job,
  conditions: Conditions,
  period: { startSlot: number; referenceSlots: number },
): LimitMargin[] {
  const [block] = blocksOf(job);
  if (block === undefined) throw new Error('the job has no block');
  const work = { block, handling: handling('hold-course'), sailStateId: 'full-main' };
  const span = { fromSlot: period.startSlot, toSlot: period.startSlot + period.referenceSlots };
  const spans = block.steps.map(() => span);
  return blockMargins(work, { conditions, settings: tableSettings(conditions) }, spans);
}

const ofLimit = (margins: readonly LimitMargin[], limit: string): LimitMargin => {
  const found = margins.find((margin) => margin.limit === limit);
  if (found === undefined) throw new Error(`no margin of ${limit}`);
  return found;
};

const oneStep = (limits: Parameters<typeof littleStep>[2]): Job => littleJob('job', [littleStep('step', 60, limits)]);

describe('margin of a limit', () => {
  test('in its unit and in standard deviations of the forecast error at that lead', () => {
    const margins = marginsOf(
      oneStep({ deckWindKn: onlyNoGo(20) }),
      tableConditions([steady(12)], { slotCount: 160 }),
      { startSlot: 144, referenceSlots: 0 },
    );
    const wind = ofLimit(margins, 'deck-wind');
    expect(wind).toMatchObject({ observed: 12, required: 20, unit: 'kn', margin: 8 });
    expect(wind.marginSd).toBeCloseTo(8 / sigmaKn(24), 6);
    expect(sigmaKn(24)).toBeCloseTo(2.527, 3);
  });

  test('on the deck the error is that of the deck', () => {
    const margins = marginsOf(
      oneStep({ deckWindKn: onlyNoGo(20) }),
      tableConditions([steady(12)], { deckHeightM: 2 }),
      { startSlot: 0, referenceSlots: 0 },
    );
    const wind = ofLimit(margins, 'deck-wind');
    expect(wind.observed).toBeCloseTo(12 * 0.2 ** 0.11, 4);
    expect(wind.marginSd).toBeCloseTo((20 - 12 * 0.2 ** 0.11) / (sigmaKn(0) * 0.2 ** 0.11), 4);
  });

  test('beyond the limit it is negative', () => {
    const wind = ofLimit(
      marginsOf(oneStep({ deckWindKn: onlyNoGo(10) }), tableConditions([steady(12)]), {
        startSlot: 0,
        referenceSlots: 3,
      }),
      'deck-wind',
    );
    expect(wind.margin).toBe(-2);
    expect(wind.marginSd).toBeLessThan(0);
  });

  test('is taken at the tightest instant of the period, both ends included', () => {
    const peak: LittleWeather = { windKn: (hourH) => (slotOf(hourH) === 20 ? 18 : 10), seaHeightM: () => 1 };
    const at = (start: number) =>
      ofLimit(
        marginsOf(oneStep({ deckWindKn: onlyNoGo(20) }), tableConditions([peak]), {
          startSlot: start,
          referenceSlots: 9,
        }),
        'deck-wind',
      );
    expect(at(11).margin).toBe(2);
    expect(new Date(at(11).atEpochMs).toISOString()).toBe('2026-06-01T03:20:00.000Z');
    expect(at(20).margin).toBe(2);
    expect(at(10).margin).toBe(10);
    expect(at(21).margin).toBe(10);
  });

  test('is that of the median scenario', () => {
    const conditions = tableConditions([steady(4), steady(18), steady(12), steady(10)]);
    expect(
      ofLimit(
        marginsOf(oneStep({ deckWindKn: onlyNoGo(20) }), conditions, { startSlot: 0, referenceSlots: 3 }),
        'deck-wind',
      ).margin,
    ).toBe(9);
  });

  test('of a temperature counts from below', () => {
    const conditions = tableConditions([{ ...steady(5), airC: 14 }]);
    expect(
      ofLimit(marginsOf(oneStep({ airLeastC: 10 }), conditions, { startSlot: 0, referenceSlots: 3 }), 'air-temperature')
        .margin,
    ).toBe(4);
  });

  test('of a limit the forecast does not hold is left out', () => {
    const margins = marginsOf(
      oneStep({ seaHeightM: onlyNoGo(2), deckWindKn: onlyNoGo(20) }),
      tableConditions([steady(5, Number.NaN)]),
      { startSlot: 0, referenceSlots: 3 },
    );
    expect(margins.map(({ limit }) => limit)).toEqual(['deck-wind', 'handling-wind']);
  });
});

describe('order of margins', () => {
  test('fewest standard deviations first', () => {
    const margins = marginsOf(
      oneStep({ deckWindKn: onlyNoGo(20), seaHeightM: onlyNoGo(1.2) }),
      tableConditions([steady(12)]),
      { startSlot: 0, referenceSlots: 3 },
    );
    expect(margins[0]?.limit).toBe('sea-height');
    // √(0.25² + (1 · 0.12)²) m at the base time, 0.2 m of room.
    expect(margins[0]?.marginSd).toBeCloseTo(0.2 / Math.hypot(0.25, 0.12 + 0.0017 * 0.5), 2);
  });

  test('darkness where light is needed comes before all', () => {
    const night = withLight(tableConditions([steady(19.9)]), () => 3);
    const margins = marginsOf(oneStep({ deckWindKn: onlyNoGo(20), daylight: 'required' }), night, {
      startSlot: 0,
      referenceSlots: 3,
    });
    expect(margins[0]).toMatchObject({ limit: 'daylight', margin: -2, marginSd: null, standard: null });
  });

  test('of several steps the tightest of each limit stands', () => {
    const chain = littleJob('chain', [
      { ...littleStep('a', 60, { deckWindKn: onlyNoGo(20) }), safePointAfter: false },
      littleStep('b', 60, { deckWindKn: onlyNoGo(15) }),
    ]);
    const margins = marginsOf(chain, tableConditions([steady(12)]), { startSlot: 0, referenceSlots: 18 });
    expect(margins.filter(({ limit }) => limit === 'deck-wind')).toMatchObject([{ required: 15, margin: 3 }]);
  });

  test('a limit binds only while its own step may be worked: a start that holds shows no limit broken', () => {
    const chain = littleJob('chain', [
      { ...littleStep('stands more', 60, { deckWindKn: onlyNoGo(20) }), safePointAfter: false },
      littleStep('stands less', 60, { deckWindKn: onlyNoGo(10) }),
    ]);
    const falling: LittleWeather = { windKn: (hourH) => (slotOf(hourH) < 30 ? 15 : 8), seaHeightM: () => 1 };
    // From slot 26 the second step begins at slot 32, after the wind has fallen (see the table of this chain).
    const conditions = tableConditions([falling]);
    const [block] = blocksOf(chain);
    if (block === undefined) throw new Error('the job has no block');
    const work = { block, handling: handling('hold-course'), sailStateId: 'full-main' };
    const settings = tableSettings(conditions);
    const table = sparseTable({ ...work, workMin: 120, resumeMin: 0, tiredRatio: 1 }, conditions, settings).at(26);
    const margins = blockMargins(work, { conditions, settings }, table.spans[26] ?? []);
    expect(margins).not.toEqual([]);
    expect(margins.filter(({ margin }) => margin < 0)).toEqual([]);
  });
});

describe('standard criterion', () => {
  const at = (leadH: number, limitKn: number, windKn: number) => {
    const conditions = tableConditions([steady(windKn)], { slotCount: 6 * leadH + 1 });
    return ofLimit(
      marginsOf(oneStep({ deckWindKn: onlyNoGo(limitKn) }), conditions, { startSlot: 6 * leadH, referenceSlots: 0 }),
      'deck-wind',
    ).standard;
  };

  // α of a 20 kn limit by lead, worked by hand; the standard's own table 4-6 has 0.80, 0.75, 0.70 to 72 h.
  test.each([
    { leadH: 24, alpha: 0.84 },
    { leadH: 48, alpha: 0.81 },
    { leadH: 72, alpha: 0.76 },
    { leadH: 96, alpha: 0.71 },
    { leadH: 120, alpha: 0.65 },
  ])('a limit of 20 kn $leadH h ahead asks for $alpha of it', ({ leadH, alpha }) => {
    expect(at(leadH, 20, 10)?.alphaRatio).toBeCloseTo(1 - (Z90 * sigmaKn(leadH)) / 20, 9);
    expect(at(leadH, 20, 10)?.alphaRatio).toBeCloseTo(alpha, 2);
  });

  test('is met up to α times the limit and not above', () => {
    const alpha = 1 - (Z90 * sigmaKn(24)) / 20;
    expect(at(24, 20, 20 * alpha - 0.001)?.met).toBe(true);
    expect(at(24, 20, 20 * alpha + 0.001)?.met).toBe(false);
  });

  test('cannot be met by a low limit far ahead: α is 0', () => {
    expect(at(120, 6, 0.5)).toEqual({ alphaRatio: 0, met: false });
  });

  test('counts every instant of the period, with the least α', () => {
    const late: LittleWeather = { windKn: (hourH) => (slotOf(hourH) === 30 ? 17.5 : 10), seaHeightM: () => 1 };
    const margins = marginsOf(oneStep({ deckWindKn: onlyNoGo(20) }), tableConditions([late]), {
      startSlot: 21,
      referenceSlots: 12,
    });
    const standard = ofLimit(margins, 'deck-wind').standard;
    expect(standard?.met).toBe(false);
    expect(standard?.alphaRatio).toBeCloseTo(1 - (Z90 * sigmaKn(5.5)) / 20, 9);
  });
});
