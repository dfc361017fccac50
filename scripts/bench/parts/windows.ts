/** Window tables and lists of windows, beside a plain evaluation that asks every instant of every scenario. */
import { windowRounds } from '../../bench-windows/measure.ts';
import { type BenchCase, caseOfRounds, type Part } from '../bench-case.ts';

const SIZES = [
  { scenarioCount: 30, horizonH: 48, slotMin: 15, isQuick: true },
  { scenarioCount: 30, horizonH: 48, slotMin: 10, isQuick: false },
  { scenarioCount: 51, horizonH: 96, slotMin: 15, isQuick: false },
] as const;
type Size = (typeof SIZES)[number];

const WHAT = { firstJobMs: 'first job', nextJobMs: 'further job', listingMs: 'list of windows' } as const;
const isKey = (key: string): key is keyof typeof WHAT => key in WHAT;
const KEYS = Object.keys(WHAT).filter(isKey);

const nameOf = (what: string, { scenarioCount, horizonH, slotMin }: Size): string =>
  `${what}, ${scenarioCount} scenarios, ${horizonH} h, ${slotMin} min`;

/** Rounds thrown away at first, until the code is compiled. */
const WARM_UP_COUNT = 1;
const ROUND_COUNT = 6;

function measureSize(size: Size): { readonly cases: readonly BenchCase[]; readonly figures: unknown } {
  const rounds = windowRounds({ ...size, lagCount: 1 }, size.slotMin, WARM_UP_COUNT + ROUND_COUNT).slice(WARM_UP_COUNT);
  const cases = KEYS.map((key) =>
    caseOfRounds(
      nameOf(WHAT[key], size),
      'ms',
      rounds.map((round) => ({ ours: round[key], reference: round.plainMs })),
    ),
  );
  return { cases, figures: { ...size, rounds } };
}

export const windowsPart: Part = {
  caseNames: () => SIZES.flatMap((size) => KEYS.map((key) => nameOf(WHAT[key], size))),
  measure: async ({ isQuick }) => {
    const found = SIZES.filter((size) => size.isQuick || !isQuick).map(measureSize);
    return {
      cases: found.flatMap(({ cases }) => cases),
      skipped: [],
      notes: [
        'windows: the reference judges every start, scenario, step, limit and instant by itself (plain-table.ts)',
      ],
      figures: found.map(({ figures }) => figures),
    };
  },
};
