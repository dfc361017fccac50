import { describe, expect, it } from 'vitest';
import { cutPlan, type CutPlan, type CutRequest } from '../../../lib/stock/index.ts';
import { longOrShort } from '../../long-run.ts';
import { oddRequest, smallRequest } from './drawn-requests.ts';
import { broken } from './legal-plan.ts';
import { plainBest } from './plain-cuts.ts';

const prioritySum = (request: CutRequest, plan: CutPlan): number =>
  plan.madeIds.reduce(
    (sum, made) => sum + (request.pieces.find(({ id }) => made.startsWith(`${id}#`))?.priority ?? 0),
    0,
  );

/** What a plan is worth, level by level. */
const figuresOf = (request: CutRequest, plan: CutPlan): readonly number[] => [
  prioritySum(request, plan),
  plan.madeIds.length,
  plan.jointCount,
  plan.barCount,
  plan.longestLeftOverMm,
];

describe('cut plan against every way to cut on a grid', () => {
  const seeds = Array.from({ length: longOrShort(4000, 250) }, (_, k) => k + 1);

  it('small requests, 100 mm grid: the same pieces, joins, bars and left-over, and proven', () => {
    let [joinedCount, partlyCount] = [0, 0];
    for (const seed of seeds) {
      const request = smallRequest(seed);
      const plan = cutPlan(request);
      const base = request.pieces.length + 1;
      const [weight, joins, bars, leftOver] = plainBest({
        kerf: request.kerfMm,
        grid: 100,
        bars: request.stock.map(({ lengthMm }) => lengthMm),
        pieces: request.pieces.map((piece) => ({
          length: piece.lengthMm,
          weight: piece.priority * base + 1,
          mostJoints: piece.maxJoinCount,
          overlap: piece.overlapMm,
          shortest: piece.shortestPartMm,
          zones: piece.noJoinZonesMm,
        })),
      });
      const expected = [Math.floor(weight / base), weight % base, joins, bars, leftOver];
      expect(figuresOf(request, plan), `seed ${seed}`).toEqual(expected);
      expect(plan.isOptimal, `seed ${seed}`).toBe(true);
      expect(broken(request, plan), `seed ${seed}`).toEqual([]);
      if (joins > 0) joinedCount++;
      if (plan.notMade.length > 0) partlyCount++;
    }
    // The comparison is worth something only where joins and shortages occur.
    expect(joinedCount).toBeGreaterThan(seeds.length / 10);
    expect(partlyCount).toBeGreaterThan(seeds.length / 4);
  });
});

describe('cut plan of odd millimetres, diameters and counts', () => {
  const seeds = Array.from({ length: longOrShort(600, 60) }, (_, k) => k + 1);
  const STEPS = 60_000;

  it('every plan: each piece once, bars long enough, joints legal, figures right', () => {
    for (const seed of seeds) {
      const request = oddRequest(seed);
      expect(broken(request, cutPlan(request, STEPS)), `seed ${seed}`).toEqual([]);
    }
  });

  it('the same request twice: the same plan', () => {
    for (const seed of seeds.slice(0, 15))
      expect(cutPlan(oddRequest(seed), STEPS), `seed ${seed}`).toEqual(cutPlan(oddRequest(seed), STEPS));
  });

  it('bars and pieces in another order: worth the same where proven', () => {
    let provenCount = 0;
    for (const seed of seeds.slice(0, 30)) {
      const request = oddRequest(seed);
      const turned = { ...request, stock: request.stock.toReversed(), pieces: request.pieces.toReversed() };
      const [one, other] = [cutPlan(request, STEPS), cutPlan(turned, STEPS)];
      if (!one.isOptimal || !other.isOptimal) continue;
      provenCount++;
      expect(figuresOf(request, one), `seed ${seed}`).toEqual(figuresOf(turned, other));
    }
    expect(provenCount).toBeGreaterThan(20);
  });

  it('ten steps of search: a legal plan, and where it is not proven the first open level with a bound no worse', () => {
    let openCount = 0;
    for (const seed of seeds) {
      const request = oddRequest(seed);
      const plan = cutPlan(request, 10);
      expect(broken(request, plan), `seed ${seed}`).toEqual([]);
      if (plan.open === null) continue;
      openCount++;
      const isLessBetter = plan.open.level === 'joins' || plan.open.level === 'bars';
      const room = (plan.open.boundAmount - plan.open.foundAmount) * (isLessBetter ? -1 : 1);
      expect(room, `seed ${seed}`).toBeGreaterThan(0);
    }
    expect(openCount).toBeGreaterThan(10);
  });
});
