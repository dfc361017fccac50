import { describe, expect, test } from 'vitest';
import { findingText, startJudge, verdictOf, weatherJudge } from '../../lib/reasons/index.ts';
import { BASE_EPOCH_MS, littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { blowing, smallSearch, workOf } from './small-world.ts';

// Steady weather that changes at a full hour: shares, hours and amounts are counted by hand.

const wording = { shipTimeOffsetMin: 60, nameOf: (id: string) => id };
const at = (hourH: number): number => BASE_EPOCH_MS + hourH * 3_600_000;
const job = littleJob('sew', [littleStep('sew', 60, { deckWindKn: onlyNoGo(13), seaHeightM: onlyNoGo(2) })]);

/** Ten scenarios; in `count` of them the wind rises from 10 to 14 kn at an hour. */
const rising = (count: number, hourH: number) =>
  Array.from({ length: 10 }, (_, w) => blowing((now) => (w < count && now >= hourH ? 14 : 10)));

const frost = Array.from({ length: 10 }, () => ({ ...blowing(() => 10), airC: -15 }));
const fog = Array.from({ length: 10 }, () => ({ ...blowing(() => 4), visibilityNm: () => 1 }));

const judged = (
  scenarios: Parameters<typeof smallSearch>[0],
  spans: readonly { fromSlot: number; toSlot: number }[],
) => {
  const search = smallSearch(scenarios);
  return weatherJudge(workOf(job, search), search).findings(spans);
};

describe('limits over a period', () => {
  test('wind above the limit in three of ten from 04:00: share, first hour, and the middle scenario with room', () => {
    const [first] = judged(rising(3, 4), [{ fromSlot: 18, toSlot: 30 }]);
    expect(first).toMatchObject({ rule: 'deck-wind', jobId: 'sew', required: 13, unit: 'kn', atEpochMs: at(4) });
    expect(first?.scenarioShare).toBeCloseTo(0.3, 9);
    expect(first?.observed).toBeCloseTo(10, 4);
    expect(first?.margin).toBeCloseTo(3, 4);
  });

  test('in seven of ten: the middle scenario is one knot over', () => {
    const [first] = judged(rising(7, 4), [{ fromSlot: 18, toSlot: 30 }]);
    expect(first?.scenarioShare).toBeCloseTo(0.7, 9);
    expect(first?.margin).toBeCloseTo(-1, 4);
    if (first === undefined) throw new Error('no finding');
    expect(findingText(first, wording)).toBe(
      'wind over the deck above 13.0 kn in 70 of 100, first Mon 1 Jun 05:00 (14.0 kn expected, 1.0 kn over)',
    );
  });

  test('a period that ends before: every limit is met and none has an hour', () => {
    const findings = judged(rising(10, 4), [{ fromSlot: 10, toSlot: 23 }]);
    expect(findings.map(verdictOf)).toEqual(findings.map(() => 'met'));
    expect(findings.map(({ atEpochMs }) => atEpochMs)).toEqual(findings.map(() => null));
    expect(findings.map(({ rule }) => rule)).toEqual(['deck-wind', 'sea-height', 'handling-wind', 'handling-sea']);
  });

  test('the last instant of the period counts', () => {
    expect(judged(rising(10, 4), [{ fromSlot: 10, toSlot: 24 }])[0]?.scenarioShare).toBe(1);
  });

  test('a sea the forecast does not hold: unknown, neither met nor broken', () => {
    const found = judged(
      [
        blowing(
          () => 10,
          () => Number.NaN,
        ),
      ],
      [{ fromSlot: 0, toSlot: 6 }],
    );
    const sea = found.find(({ rule }) => rule === 'sea-height');
    if (sea === undefined) throw new Error('no finding');
    expect(verdictOf(sea)).toBe('unknown');
    expect(sea).toMatchObject({ observed: null, margin: null, required: 2, scenarioShare: 0 });
    expect(findingText(sea, wording)).toBe('the forecast does not hold the sea all the time (limit 2.0 m)');
  });

  test('two limits broken in different scenarios: what is kept is what neither breaks', () => {
    const scenarios = [
      blowing(() => 14),
      blowing(
        () => 10,
        () => 3,
      ),
      blowing(() => 10),
      blowing(() => 10),
    ];
    const search = smallSearch(scenarios);
    const judge = weatherJudge(workOf(job, search), search);
    expect(judge.keptShare([{ fromSlot: 0, toSlot: 6 }])).toBeCloseTo(0.5, 9);
    expect(judge.findings([{ fromSlot: 0, toSlot: 6 }]).map(({ scenarioShare }) => scenarioShare)).toEqual([
      0.25, 0.25, 0, 0,
    ]);
  });
});

describe('a start', () => {
  const [horizon] = startJudge(workOf(job, smallSearch(rising(0, 0))), smallSearch(rising(0, 0))).findingsAt(95);

  test('too near to the end of the forecast: how many minutes are short', () => {
    // 60 min and a reserve of half of it, the forecast ends 40 min after the start.
    expect(horizon).toMatchObject({ rule: 'horizon', observed: 90, required: 40, margin: -50, unit: 'min' });
    if (horizon === undefined) throw new Error('no finding');
    expect(findingText(horizon, wording)).toBe('it would end 50 min after the forecast ends');
  });

  test('probability is the same as that of the window tables, and what lacks is told', () => {
    const search = smallSearch(rising(3, 4));
    const judge = startJudge(workOf(job, search), search);
    expect(judge.probabilityAt(20)).toBeCloseTo(0.7, 6);
    expect(judge.isFair(20)).toBe(false);
    expect(judge.findingsAt(20).map(({ rule }) => rule)).toEqual(['deck-wind']);
    expect(judge.isFair(10)).toBe(true);
    expect(judge.findingsAt(10)).toEqual([]);
  });

  test('scenarios that break nothing and slow the work beyond its reserve: pace, with their share', () => {
    // No-go 13 kn; from caution (10 kn) on the pace falls to 1.8: the median is calm, four in ten have 12.9 kn.
    const slow = littleJob('slow', [littleStep('slow', 120, { deckWindKn: { ideal: 5, caution: 10, noGo: 13 } })]);
    const scenarios = Array.from({ length: 10 }, (_, w) => blowing(() => (w < 4 ? 12.9 : 4)));
    const search = smallSearch(scenarios);
    const judge = startJudge(workOf(slow, search), search);
    const [found] = judge.findingsAt(0);
    expect(judge.probabilityAt(0)).toBeCloseTo(0.6, 6);
    expect(found).toMatchObject({ rule: 'pace', observed: 120, required: 180, unit: 'min' });
    expect(found?.scenarioShare).toBeCloseTo(0.4, 6);
  });

  test('work slowed more than threefold: pace, in every scenario, by how much', () => {
    const search = smallSearch(rising(0, 0), { settings: { ownPaceRatioOf: () => 3.5 } });
    const [finding, ...others] = startJudge(workOf(job, search), search).findingsAt(0);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ rule: 'pace', observed: 3.5, required: 3, margin: -0.5, scenarioShare: 1 });
  });

  test('fine work in the cold: refused, by how many degrees; hauling goes on', () => {
    const fine = littleJob('needle', [{ ...littleStep('needle', 30), hands: 'fine' as const }]);
    const search = smallSearch(frost);
    const [found] = startJudge(workOf(fine, search), search).findingsAt(0);
    // Published table: −15 °C in any wind of 5 kn and more feels like −20.9 or colder (Environment Canada, 2001).
    expect(found).toMatchObject({ rule: 'cold-hands', required: -10, unit: '°C', scenarioShare: 1 });
    expect(found?.observed).toBeLessThan(-20);
    expect(found === undefined ? '' : findingText(found, wording)).toMatch(
      /^hands would feel -\d+\.\d °C, too cold for fine work \(-10\.0 °C at least\)$/,
    );
    const gross = littleJob('haul', [littleStep('haul', 30)]);
    expect(startJudge(workOf(gross, search), search).findingsAt(0)).toEqual([]);
  });

  test('work below in fog: a look round is due before it is climbed out for, and the start is refused', () => {
    const below = littleJob('filter', [
      { ...littleStep('filter', 30), place: 'below' as const, lookout: 'glances' as const },
    ]);
    const search = smallSearch(fog);
    const [found] = startJudge(workOf(below, search), search).findingsAt(0);
    expect(found).toMatchObject({ rule: 'look-out', observed: 0, required: 2.5, unit: 'min', scenarioShare: 1 });
  });
});
