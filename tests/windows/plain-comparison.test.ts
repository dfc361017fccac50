import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blocksOf } from '../../lib/jobs/index.ts';
import type { BlockTable } from '../../lib/windows/index.ts';
import { LIMIT_IDS, setOfTable, wholeBlockMin } from '../../lib/windows/index.ts';
import { blockTable } from '../../lib/windows/block-table.ts';
import type { PlainStart } from '../../scripts/bench-windows/plain-table.ts';
import { plainTable } from '../../scripts/bench-windows/plain-table.ts';
import type { DrawnTable } from './plain-world.ts';
import { drawnTable } from './plain-world.ts';
import { handling, tableSettings } from './table-world.ts';
import { longOrShort } from '../long-run.ts';

// The tables that are scanned once against one that looks at every start, scenario, step, limit and instant by itself.

function bothTables(drawn: DrawnTable): { table: BlockTable; plain: readonly (PlainStart | null)[] } {
  const [block] = blocksOf(drawn.job);
  if (block === undefined) throw new Error('the job has no block');
  const { tiredRatio, resumeMin } = drawn;
  const how = { handling: handling(drawn.handlingId), sailStateId: 'full-main', tiredRatio, resumeMin };
  const work = { block, ...how, workMin: wholeBlockMin(block) };
  const settings = tableSettings(drawn.conditions, drawn.settings);
  return {
    table: blockTable(work, drawn.conditions, settings),
    plain: plainTable(work, drawn.conditions, settings),
  };
}

/** A start of a table in the words of the plain evaluation. */
function startOf(table: BlockTable, i: number): PlainStart | null {
  if (Number.isNaN(table.plannedMin[i])) return null;
  const words = setOfTable(table, i);
  return {
    plannedMin: table.plannedMin[i] ?? Number.NaN,
    referenceSlots: table.referenceSlots[i] ?? 0,
    spans: table.spans[i] ?? [],
    scenarios: [...words].flatMap((word, k) =>
      Array.from({ length: 32 }, (_, bit) => bit).flatMap((bit) => (((word >>> bit) & 1) === 1 ? [32 * k + bit] : [])),
    ),
    unknownLimits: LIMIT_IDS.filter((_, bit) => (((table.unknownBits[i] ?? 0) >>> bit) & 1) === 1),
  };
}

const inOrder = (start: PlainStart | null): PlainStart | null =>
  start && {
    ...start,
    plannedMin: Math.fround(start.plannedMin),
    unknownLimits: LIMIT_IDS.filter((limit) => start.unknownLimits.includes(limit)),
  };

describe('a block table', () => {
  test('in random worlds with every limit: equal at every start to the plain evaluation', () => {
    const seen = { held: 0, failed: 0, refused: 0, unknown: 0 };
    fc.assert(
      fc.property(drawnTable, (drawn) => {
        const { table, plain } = bothTables(drawn);
        for (const [i, start] of plain.entries()) {
          expect(startOf(table, i)).toEqual(inOrder(start));
          const weight = (start?.scenarios ?? []).reduce((sum, w) => sum + w + 1, 0);
          expect(table.weight[i]).toBe(weight);
          if (start === null) seen.refused++;
          else if (start.scenarios.length > 0) seen.held++;
          else seen.failed++;
          if ((start?.unknownLimits.length ?? 0) > 0) seen.unknown++;
        }
      }),
      { seed: 20260611, numRuns: longOrShort(40, 30) },
    );
    // The worlds drawn must hold enough of each kind for the comparison to say something.
    expect(Math.min(seen.held, seen.failed, seen.refused, seen.unknown)).toBeGreaterThan(40);
  });
});
