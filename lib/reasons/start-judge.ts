import type { BlockTable, BlockWork, WindowSearch } from '../windows/index.ts';
import { FACTOR_IDS, sparseTable, totalWeight, type StepFactors } from '../windows/index.ts';
import { leastLookoutIntervalMin } from '../person/index.ts';
import { MS_PER_MIN, slotEpochMs } from '../time/index.ts';
import type { Finding } from './finding.ts';
import { atLeast, atMost, verdictOf } from './finding.ts';
import { weatherJudge } from './weather-rules.ts';

/** What a start is judged on. */
export type StartSearch = Pick<WindowSearch, 'conditions' | 'settings' | 'wantedProbability'>;

/** Every start slot of a block under one handling, and what the weather has against it. */
export interface StartJudge {
  readonly work: BlockWork;
  /** The block's table, judged at least at one start slot. */
  at(startSlot: number): BlockTable;
  /** The block's table, judged at every start slot. */
  whole(): BlockTable;
  /** Share of scenario weight inside every known limit over the reference period; 0 where no start is possible. */
  probabilityAt(startSlot: number): number;
  /** True where the wanted probability is kept, whatever is unknown. */
  isFair(startSlot: number): boolean;
  /** Every limit that is broken in some scenario or unknown, most scenarios first; the horizon where no start is possible. */
  findingsAt(startSlot: number): Finding[];
}

/** A table of the block, judged slot by slot as it is asked for, and a reader of its refusals. */
export function startJudge(work: BlockWork, search: StartSearch): StartJudge {
  const sparse = sparseTable(work, search.conditions, search.settings);
  const at = (slot: number): BlockTable => sparse.at(slot);
  const allWeight = totalWeight(search.settings.weights);
  let judge: ReturnType<typeof weatherJudge> | null = null;
  const probabilityAt = (slot: number): number => (at(slot).weight[slot] ?? 0) / allWeight;
  const isPossible = (slot: number): boolean => (at(slot).referenceSlots[slot] ?? 0) > 0;
  return {
    work,
    at,
    whole: () => sparse.whole(),
    probabilityAt,
    isFair: (slot) => isPossible(slot) && probabilityAt(slot) >= search.wantedProbability - NEGLIGIBLE_SHARE,
    findingsAt: (slot) => {
      if (!isPossible(slot)) return [refusedStartFinding(work, search, { slot, factors: sparse.factorsAt(slot) })];
      judge ??= weatherJudge(work, search);
      const table = at(slot);
      const spans = table.spans[slot] ?? [];
      const findings = judge.findings(spans).filter((finding) => verdictOf(finding) !== 'met');
      const slowShare = judge.keptShare(spans) - probabilityAt(slot);
      return slowShare > NEGLIGIBLE_SHARE
        ? [...findings, paceFinding({ work, table, search }, slot, slowShare)]
        : findings;
    },
  };
}

/** Rounding of sums of weights is no difference. */
const NEGLIGIBLE_SHARE = 1e-9;

/** No start is possible: a step is refused, the work is slowed more than allowed, or the forecast ends too soon for it. */
function refusedStartFinding(
  work: BlockWork,
  { conditions, settings }: Pick<StartSearch, 'conditions' | 'settings'>,
  { slot, factors }: { slot: number; factors: readonly StepFactors[] },
): Finding {
  const { grid } = conditions.course;
  const startEpochMs = slotEpochMs(grid, slot);
  const jobId = work.block.jobId;
  const common = { jobId, atEpochMs: startEpochMs };
  const refused = factors.flatMap((step) => refusedStepFinding(step, common) ?? [])[0];
  if (refused !== undefined) return refused;
  const slowedRatio = factors.reduce((sum, step) => sum + step.workShare * productRatio(step), 0);
  const { productCapRatio } = settings.timeFactors;
  if (slowedRatio > productCapRatio) {
    const slowed = { rule: 'pace', unit: 'times as long', observed: slowedRatio, required: productCapRatio } as const;
    return { ...atMost({ ...common, ...slowed }), scenarioShare: 1 };
  }
  const leftMin = (slotEpochMs(grid, grid.slotCount - 1) - startEpochMs) / MS_PER_MIN;
  const neededMin = work.resumeMin + work.workMin * slowedRatio;
  const reserveMin = Math.max(neededMin * settings.contingencyShare, settings.contingencyLeastMin);
  const observed = neededMin + reserveMin;
  return atMost({ ...common, rule: 'horizon', observed, required: leftMin, unit: 'min' });
}

const productRatio = ({ weatherRatio, ratios }: StepFactors): number =>
  FACTOR_IDS.reduce((product, id) => product * ratios[id], weatherRatio);

/** A step that is not worked at all at this hour; null: it is. */
function refusedStepFinding(
  { step, ratios, tooCold, lookoutMin }: StepFactors,
  common: { jobId: string; atEpochMs: number },
): Finding | null {
  if (tooCold !== null) {
    const { observedC: observed, leastC: required } = tooCold;
    return { ...atLeast({ ...common, rule: 'cold-hands', observed, required, unit: '°C' }), scenarioShare: 1 };
  }
  if (Number.isNaN(ratios['look-out'])) {
    const required = leastLookoutIntervalMin(step.place);
    const found = { ...common, rule: 'look-out', observed: lookoutMin, required, unit: 'min' } as const;
    return { ...atLeast(found), scenarioShare: 1 };
  }
  return null;
}

/** Scenarios that keep every limit but slow the work beyond its reference period. */
function paceFinding(
  of: { work: BlockWork; table: BlockTable; search: StartSearch },
  slot: number,
  scenarioShare: number,
): Finding {
  const { grid } = of.search.conditions.course;
  const common = { rule: 'pace', jobId: of.work.block.jobId, unit: 'min', atEpochMs: slotEpochMs(grid, slot) } as const;
  const observed = of.table.plannedMin[slot] ?? 0;
  const required = (of.table.referenceSlots[slot] ?? 0) * grid.slotMin;
  return { ...atMost({ ...common, observed, required }), scenarioShare };
}
