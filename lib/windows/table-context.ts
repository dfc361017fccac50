import type { Step } from '../jobs/index.ts';
import { windChillC } from '../person/index.ts';
import type { Conditions, DeckWind } from '../voyage/index.ts';
import { deckWindUnder } from '../voyage/index.ts';
import type { BlockWork, TableSettings } from './window-table.ts';
import { scenarioMedians } from './scenario-medians.ts';
import { slotFacts, type SlotFacts } from './slot-facts.ts';
import type { StepScan } from './step-scan.ts';
import { scanStep } from './step-scan.ts';
import type { PaceRule } from './work-factors.ts';
import { paceRuleOf } from './work-factors.ts';

/** A step of the block of a table, ready to be judged at any start. */
export interface TableStep {
  readonly step: Step;
  /** Share of the block's work that lies in the step. */
  readonly workShare: number;
  readonly scan: StepScan;
  readonly pace: PaceRule;
  /** The watchkeeper's own pace at this kind of work. */
  readonly ownPaceRatio: number;
}

/** What every start of a table is judged with; the arrays of figures at the end are written anew for each start. */
export interface TableContext {
  readonly work: BlockWork;
  readonly conditions: Conditions;
  readonly settings: TableSettings;
  readonly steps: readonly TableStep[];
  readonly deck: DeckWind;
  readonly medianDeckKn: Float32Array;
  readonly medianSeaM: Float32Array;
  readonly medianWindKn: Float32Array;
  /** Wind chill of the median scenario; NaN where air or wind is unknown. */
  readonly chillC: Float64Array;
  readonly slots: SlotFacts;
  /** Pace of the median scenario, and all other time factors together, by step. */
  readonly paces: Float64Array;
  readonly factors: Float64Array;
  /** Slots each step must hold, both included. */
  readonly fromSlots: Int32Array;
  readonly toSlots: Int32Array;
}

export function tableContext(work: BlockWork, conditions: Conditions, settings: TableSettings): TableContext {
  const { weather } = conditions;
  const { steadyingWindRule, baseEpochMs } = settings;
  const means = work.block.steps.map((step) => (step.work.leastMin + 4 * step.work.likelyMin + step.work.mostMin) / 6);
  const sum = means.reduce((total, mean) => total + mean, 0);
  const worked = { ...work, conditions, baseEpochMs, steadyingWindRule };
  const steps = work.block.steps.map((step, k) => ({
    step,
    workShare: (means[k] ?? 0) / sum,
    scan: scanStep({ ...worked, step }, settings.limitRatio),
    pace: paceRuleOf(step, steadyingWindRule),
    ownPaceRatio: settings.ownPaceRatioOf(work.block.jobId, step.id),
  }));
  const deck = deckWindUnder(conditions, work.handling, work.sailStateId);
  const medianDeckKn = scenarioMedians(deck.meanKn, weather);
  return {
    work,
    conditions,
    settings,
    steps,
    deck,
    medianDeckKn,
    medianSeaM: scenarioMedians(weather.seaHeightM, weather),
    medianWindKn: scenarioMedians(weather.windKn, weather),
    chillC: chillAlong(weather.airC, medianDeckKn),
    slots: slotFacts(conditions, settings),
    paces: new Float64Array(steps.length),
    factors: new Float64Array(steps.length),
    fromSlots: new Int32Array(steps.length),
    toSlots: new Int32Array(steps.length),
  };
}

const kept = new WeakMap<Float32Array, Float64Array>();

function chillAlong(airC: Float32Array, medianDeckKn: Float32Array): Float64Array {
  const known = kept.get(medianDeckKn);
  if (known) return known;
  const chillC = Float64Array.from(medianDeckKn, (deckWindKn, i) => {
    const slotAirC = airC[i] ?? Number.NaN;
    // Where one of the two is unknown nothing is assumed of the cold.
    return Number.isNaN(deckWindKn) || Number.isNaN(slotAirC) ? Number.NaN : windChillC({ airC: slotAirC, deckWindKn });
  });
  kept.set(medianDeckKn, chillC);
  return chillC;
}
