import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cutPlan, readCutFile, type CutRequest } from '../../../lib/stock/index.ts';
import { broken } from './legal-plan.ts';

interface Golden {
  readonly textbook: readonly {
    readonly name: string;
    readonly barMm: number;
    readonly bars: number;
    readonly pieces: readonly { readonly lengthMm: number; readonly count: number }[];
  }[];
  readonly splice: readonly {
    readonly name: string;
    readonly kerfMm: number;
    readonly stock: readonly object[];
    readonly pieces: readonly object[];
    /** Null: not all can be made. */
    readonly joins: number | null;
    readonly barsUsed: number | null;
    readonly longestLeftOverMm?: number;
  }[];
}

const read = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../golden/stock/${name}`, import.meta.url), 'utf8'));
const { textbook, splice } = read('cutting.json') as Golden;

/** Reads a request as the command does; entries get ids by their place. */
function requestOf(file: { kerfMm: number; stock: readonly object[]; pieces: readonly object[] }): CutRequest {
  const named = (entries: readonly object[], word: string): readonly object[] =>
    entries.map((entry, index) => ({ id: `${word}-${index + 1}`, ...entry }));
  const { kerfMm, stock, pieces } = file;
  const result = readCutFile(
    JSON.stringify({ kerfMm, stock: named(stock, 'bar'), pieces: named(pieces, 'piece') }),
    'golden',
  );
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

describe('published cutting-stock examples, optima solved again by arc-flow with HiGHS', () => {
  it.each(textbook)('$name: $bars bars, proven', ({ barMm, bars, pieces }) => {
    const more = 25;
    const request = requestOf({
      kerfMm: 0,
      stock: [{ lengthMm: barMm, diameterMm: 10, count: bars + more }],
      pieces: pieces.map((piece) => ({ ...piece, diameterMm: 10 })),
    });
    const plan = cutPlan(request);
    expect(plan.barCount).toBe(bars);
    expect(plan.isOptimal).toBe(true);
    expect(plan.notMade).toEqual([]);
    expect(broken(request, plan)).toEqual([]);
  });

  it.each(textbook)('$name, one bar fewer: not all is made', ({ barMm, bars, pieces }) => {
    const request = requestOf({
      kerfMm: 0,
      stock: [{ lengthMm: barMm, diameterMm: 10, count: bars - 1 }],
      pieces: pieces.map((piece) => ({ ...piece, diameterMm: 10 })),
    });
    const plan = cutPlan(request, 300_000);
    expect(plan.notMade.length).toBeGreaterThan(0);
    expect(broken(request, plan)).toEqual([]);
  });
});

describe('cutting with joins, optima by a mixed-integer programme (HiGHS)', () => {
  const possible = splice.filter(({ joins }) => joins !== null);
  const impossible = splice.filter(({ joins }) => joins === null);

  it.each(possible)('$name: joins $joins, bars $barsUsed', (instance) => {
    const request = requestOf(instance);
    const plan = cutPlan(request);
    expect(broken(request, plan)).toEqual([]);
    expect(plan.isOptimal).toBe(true);
    expect(plan.notMade).toEqual([]);
    expect(plan.jointCount).toBe(instance.joins);
    expect(plan.barCount).toBe(instance.barsUsed);
    // Where the programme was asked for it too.
    expect(plan.longestLeftOverMm).toBe(instance.longestLeftOverMm ?? plan.longestLeftOverMm);
  });

  it.each(impossible)('$name: proven not to be all', (instance) => {
    const request = requestOf(instance);
    const plan = cutPlan(request);
    expect(broken(request, plan)).toEqual([]);
    expect(plan.isOptimal).toBe(true);
    expect(plan.notMade.length).toBeGreaterThan(0);
  });
});
