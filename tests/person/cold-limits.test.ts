import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bareHandLimitMin,
  COLD_LIMITS,
  FROSTBITE_BANDS,
  frostbiteBand,
  frostbiteSooner,
  WARM_UP_SCHEDULE,
  warmUpSchedule,
  type WarmUpSchedule,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

type Cell = readonly [number | 'norm', number] | 'stop';

interface Golden {
  readonly tolerance: { readonly value: number };
  readonly frostbiteBands: readonly (readonly [number, number | null, string])[];
  readonly bareHand: readonly { T_F?: number; T_C?: number; expect_min: number }[];
  readonly winds_kmh: readonly number[];
  readonly temps: readonly string[];
  readonly max_work_min_breaks: readonly (readonly Cell[])[];
}

const file = golden('cold-limits') as Golden;
const SEED = { seed: 11, numRuns: 200 };
const someAirC = fc.double({ min: -70, max: 50, noNaN: true });
const someWindKn = fc.double({ min: 0, max: 80, noNaN: true });

/** The text of the table as a range of minutes. */
const minutesOf = (text: string): { leastMin: number; mostMin: number } | null => {
  const [, below, least, most] = /^<(\d+) min|^(\d+)-(\d+) min/.exec(text) ?? [];
  if (below !== undefined) return { leastMin: 0, mostMin: Number(below) };
  return least === undefined ? null : { leastMin: Number(least), mostMin: Number(most) };
};

describe('frostbiteBand (Environment Canada, reprint)', () => {
  it.each(file.frostbiteBands)('wind chill %s to %s: %s', (warmestC, coldestC, text) => {
    for (const chillC of [warmestC, coldestC ?? -90, (warmestC + (coldestC ?? -90)) / 2])
      expect(frostbiteBand(chillC)).toMatchObject({ warmestC, coldestC, freezesWithin: minutesOf(text) });
  });

  it('the words of the table: low, long exposure, frostbite', () => {
    expect(file.frostbiteBands.map(([, , text]) => minutesOf(text) !== null)).toEqual(
      FROSTBITE_BANDS.map(({ risk }) => risk === 'frostbite'),
    );
    expect(frostbiteBand(-5)?.risk).toBe('low');
    expect(frostbiteBand(-20)?.risk).toBe('long-exposure');
  });

  it('between two whole degrees: the colder one counts', () => {
    expect(frostbiteBand(-27)?.freezesWithin).toBeNull();
    expect(frostbiteBand(-27.01)?.freezesWithin?.mostMin).toBe(30);
  });

  it('above 0 °C: no band; no number: a mistake of ours', () => {
    expect(frostbiteBand(1)).toBeNull();
    expect(() => frostbiteBand(Number.NaN)).toThrow('chillC');
  });

  it('colder: never more time', () => {
    fc.assert(
      fc.property(someAirC, fc.double({ min: 0, max: 40, noNaN: true }), (chillC, byC) => {
        const minutes = (c: number): number => frostbiteBand(c)?.freezesWithin?.mostMin ?? Number.POSITIVE_INFINITY;
        expect(minutes(chillC - byC)).toBeLessThanOrEqual(minutes(chillC));
      }),
      SEED,
    );
  });
});

describe('frostbiteSooner (Environment Canada, reprint)', () => {
  it('50 km/h: as the table says; above it: sooner', () => {
    expect(frostbiteSooner(50 / 1.852)).toBe(false);
    expect(frostbiteSooner(51 / 1.852)).toBe(true);
  });
});

describe('bareHandLimitMin (Rogers, NSMRL 1067)', () => {
  it.each(file.bareHand)('$T_F °F, $T_C °C: $expect_min min', ({ T_F, T_C, expect_min }) => {
    const airC = T_C ?? (((T_F ?? Number.NaN) - 32) * 5) / 9;
    expect(Math.abs((bareHandLimitMin(airC) ?? Number.NaN) - expect_min)).toBeLessThan(file.tolerance.value);
  });

  it('warmer than 10 °C: no limit; very cold: no time at all', () => {
    expect(bareHandLimitMin(10)).toBeCloseTo(55, 9);
    expect(bareHandLimitMin(10.1)).toBeNull();
    expect(bareHandLimitMin(-30)).toBe(0);
  });

  it('any air up to 10 °C: 0 or more, and never more when colder', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -70, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (airC, byC) => {
          const colderMin = bareHandLimitMin(airC - byC) ?? Number.NaN;
          expect(colderMin).toBeGreaterThanOrEqual(0);
          expect(colderMin).toBeLessThanOrEqual(bareHandLimitMin(airC) ?? Number.NaN);
        },
      ),
      SEED,
    );
  });
});

/** What the cell of the table says, in the shape of ours. */
const wanted = (cell: Cell | undefined): WarmUpSchedule =>
  cell === undefined || cell === 'stop'
    ? { kind: 'stop' }
    : {
        kind: 'work',
        longestWorkMin: cell[0] === 'norm' ? null : cell[0],
        breaksCount: cell[1],
        breakMin: COLD_LIMITS.warmUpBreak.value,
      };

/** Warmest and coldest whole degree of a row: "-26..-28", "<=-43". */
const endsOf = (row: string): readonly number[] => [...row.matchAll(/-\d+/g)].map(([text]) => Number(text));

describe('warmUpSchedule (Saskatchewan, adopted by ACGIH)', () => {
  const cells = file.temps.flatMap((row, rowIndex) =>
    file.winds_kmh.map((wind, columnIndex) => ({
      row,
      wind,
      cell: file.max_work_min_breaks[rowIndex]?.[columnIndex],
      below: file.max_work_min_breaks[rowIndex + 1]?.[columnIndex],
    })),
  );

  it.each(cells)('$row °C, $wind km/h: $cell', ({ row, wind, cell, below }) => {
    for (const airC of endsOf(row)) {
      const air = { airC, deckWindKn: wind / 1.852 };
      expect(warmUpSchedule({ ...air, effort: 'heavy' })).toEqual(wanted(cell));
      expect(warmUpSchedule({ ...air, effort: 'moderate' })).toEqual(wanted(cell));
      expect(warmUpSchedule({ ...air, effort: 'light' })).toEqual(wanted(below));
    }
  });

  it('the rows: each begins where the table says', () => {
    expect(WARM_UP_SCHEDULE.map(({ warmestC }) => warmestC)).toEqual(file.temps.map((row) => endsOf(row)[0]));
  });

  it('between two rows and two columns: the colder and the windier one', () => {
    const air = { deckWindKn: 0, effort: 'heavy' } as const;
    expect(warmUpSchedule({ ...air, airC: -31.2 })).toMatchObject({ longestWorkMin: 75 });
    expect(warmUpSchedule({ ...air, airC: -35, deckWindKn: 1 })).toMatchObject({ longestWorkMin: 40 });
  });

  it('warmer than the table, or windier: said, and no yes; windier where work stops already: stop', () => {
    const said = (airC: number, deckWindKn: number): WarmUpSchedule =>
      warmUpSchedule({ airC, deckWindKn, effort: 'heavy' });
    expect(said(-25, 40)).toEqual({ kind: 'not-in-table', because: 'warmer' });
    expect(said(-26, 40)).toEqual({ kind: 'not-in-table', because: 'more-wind' });
    expect(said(-32, 40)).toEqual({ kind: 'stop' });
    expect(said(-60, 0)).toEqual({ kind: 'stop' });
    expect(() => said(Number.NaN, 0)).toThrow('airC');
    expect(() => said(-30, -1)).toThrow('deckWindKn');
  });

  it('colder or windier: never a longer stretch of work', () => {
    const stretchMin = (schedule: WarmUpSchedule): number => {
      if (schedule.kind === 'work') return schedule.longestWorkMin ?? 240;
      return schedule.kind === 'stop' ? 0 : Number.NaN;
    };
    const inTable = fc.double({ min: -60, max: -26, noNaN: true });
    fc.assert(
      fc.property(inTable, inTable, someWindKn, someWindKn, (a, b, c, d) => {
        const easier = stretchMin(
          warmUpSchedule({ airC: Math.max(a, b), deckWindKn: Math.min(c, d, 17), effort: 'heavy' }),
        );
        const harder = stretchMin(
          warmUpSchedule({ airC: Math.min(a, b), deckWindKn: Math.min(Math.max(c, d), 17), effort: 'heavy' }),
        );
        expect(harder).toBeLessThanOrEqual(easier);
      }),
      SEED,
    );
  });
});
