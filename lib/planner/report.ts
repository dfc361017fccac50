import type { PersonAtSlot } from './problem.ts';
import { sailPlan, sliceCourse, toGoNm } from '../voyage/index.ts';
import type { Conditions, Course, SampleWeather, SlotSailing } from '../voyage/index.ts';
import { conditionsAlong } from '../voyage/index.ts';
import type { LimitMargin, StepFactors } from '../windows/index.ts';
import {
  blockMargins,
  fullMask,
  hasBit,
  intersect,
  LIMIT_IDS,
  lookBackSlots,
  setOfTable,
  sparseTable,
  totalWeight,
  weightOf,
} from '../windows/index.ts';
import { personBySlot } from './person-by-slot.ts';
import { LOOKOUT_MIN } from './rest.ts';
import { timelineOf } from './timeline.ts';
import type { Preparation } from './prepare.ts';
import { tableSettings } from './prepare.ts';
import type { Placed, PlanState } from './state.ts';
import { placedInOrder } from './state.ts';
import { type WeighedGroup, weightedMean } from './weighted-mean.ts';

/** Fresh scenarios a finished plan is judged on, so that its figures do not flatter the search. */
export interface ReportingWeather {
  readonly weights: Int32Array;
  readonly sampleScenarios: SampleWeather;
  /** Ensemble member behind each scenario: scenarios of one member are not independent. */
  readonly memberIndex: Int32Array;
}

/** An entry of the plan as it would really be sailed. */
export interface ReportedEntry {
  readonly placed: Placed;
  /** Along the course the plan really sails; work begins at `startIndex`. */
  readonly conditions: Conditions;
  readonly startIndex: number;
  /** Reporting scenarios inside every known limit over the reference period. */
  readonly mask: Uint32Array;
  /** Tightest first; worked out when asked for. */
  readonly marginsOf: () => readonly LimitMargin[];
  readonly unknownLimits: readonly string[];
  /** What slows each step of it; worked out when asked for. */
  readonly factorsOf: () => readonly StepFactors[];
}

export interface Report {
  readonly course: Course;
  readonly entries: readonly ReportedEntry[];
  readonly weights: Int32Array;
  readonly memberIndex: Int32Array;
  /** Jobs with a limit unknown, and those that come after one. */
  readonly conditionalJobIds: readonly string[];
  /** Reporting scenarios in which all unconditional entries hold together; null: there is none. */
  readonly jointMask: Uint32Array | null;
  /** Miles behind the nominal voyage at the end of the last entry. */
  readonly lostNm: number;
  readonly sleeps: readonly { readonly fromSlot: number; readonly toSlot: number }[];
  readonly personBySlot: readonly PersonAtSlot[];
}

type Reports = WeakMap<PlanState, Report>;
const kept = new WeakMap<Preparation, WeakMap<ReportingWeather, Reports>>();

/** Sails the plan with true positions and judges it on fresh scenarios with the limits as they stand; once for each plan. */
export function reportPlan(preparation: Preparation, state: PlanState, reporting: ReportingWeather): Report {
  const ofPreparation = kept.get(preparation) ?? new WeakMap<ReportingWeather, Reports>();
  kept.set(preparation, ofPreparation);
  const reports: Reports = ofPreparation.get(reporting) ?? new WeakMap<PlanState, Report>();
  ofPreparation.set(reporting, reports);
  const report = reports.get(state) ?? freshReport(preparation, state, reporting);
  reports.set(state, report);
  return report;
}

function freshReport(preparation: Preparation, state: PlanState, reporting: ReportingWeather): Report {
  const placed = placedInOrder(state);
  const course = sailPlan({
    boat: preparation.passage.boat,
    track: preparation.track,
    grid: preparation.grid,
    sampleReference: preparation.weather.sampleReference,
    sailingAt: sailingOf(preparation, placed),
  });
  const entries = placed.map((entry) => reportedEntry(preparation, { course, entry, reporting }));
  const jobIdOf = (entry: ReportedEntry): string => preparation.units[entry.placed.unit]?.job.id ?? '';
  const conditionalIds = new Set([
    ...entries.filter((entry) => entry.unknownLimits.length > 0).map(jobIdOf),
    ...preparation.units.filter((unit) => state.conditional[unit.index] === 1).map((unit) => unit.job.id),
  ]);
  const unconditional = entries.filter((entry) => !conditionalIds.has(jobIdOf(entry)));
  const jointMask =
    unconditional.length === 0
      ? null
      : unconditional.reduce((mask, entry) => intersect(mask, entry.mask), fullMask(reporting.weights.length));
  const endSlot = placed.at(-1)?.endSlot ?? preparation.fromSlot;
  const person = followPerson(preparation, state);
  return {
    course,
    entries,
    weights: reporting.weights,
    memberIndex: reporting.memberIndex,
    conditionalJobIds: [...conditionalIds],
    jointMask,
    lostNm: toGoNm(course, preparation.track, endSlot) - toGoNm(preparation.nominal, preparation.track, endSlot),
    ...person,
  };
}

/** What is set and how the boat is sailed in every slot of a plan. */
function sailingOf(preparation: Preparation, placed: readonly Placed[]): (slotIndex: number) => SlotSailing {
  return (slotIndex) => {
    let sailStateId = preparation.passage.start.sailStateId;
    for (const entry of placed) {
      if (entry.startSlot - entry.settleSlots > slotIndex) break;
      if (slotIndex < entry.endSlot)
        return { handling: handlingOf(preparation, entry), sailStateId: entry.sailStateId };
      sailStateId = stateAfter(preparation, entry) ?? entry.sailStateId;
    }
    return { handling: null, sailStateId };
  };
}

/** What is set once an entry is over; a session that leaves work over changes nothing. */
function stateAfter(preparation: Preparation, entry: Placed): string | null {
  const block = preparation.units[entry.unit]?.block;
  return entry.finishes ? (block?.sailStateAfter ?? null) : null;
}

function handlingOf(preparation: Preparation, entry: Placed): SlotSailing['handling'] {
  return preparation.units[entry.unit]?.handlings[entry.handling] ?? null;
}

function reportedEntry(
  preparation: Preparation,
  of: { course: Course; entry: Placed; reporting: ReportingWeather },
): ReportedEntry {
  const { entry, reporting } = of;
  const unit = preparation.units[entry.unit];
  const handling = handlingOf(preparation, entry);
  if (unit === undefined || handling === null) throw new Error('a plan holds an entry its problem does not know');
  const { passage, weather } = preparation;
  // Planned and reference minutes at the true position may exceed those of the search: look a little further.
  const lookedAtSlots = Math.ceil(entry.referenceSlots * 1.5) + 3;
  const startIndex = Math.min(entry.startSlot, lookBackSlots(unit.block, preparation.grid.slotMin));
  const slice = sliceCourse(of.course, {
    fromSlot: entry.startSlot - startIndex,
    slotCount: startIndex + lookedAtSlots,
  });
  const conditions = conditionsAlong({
    course: slice,
    boat: passage.boat,
    deckHeightM: passage.settings.deckHeightM,
    sampleScenarios: reporting.sampleScenarios,
    sampleReference: weather.sampleReference,
  });
  const settings = tableSettings(passage, { ...weather, weights: reporting.weights }, 1);
  const work = { ...entry, block: unit.block, handling };
  const sparse = sparseTable(work, conditions, settings);
  const table = sparse.at(startIndex);
  return {
    placed: entry,
    conditions,
    startIndex,
    mask: setOfTable(table, startIndex).slice(),
    factorsOf: () => sparse.factorsAt(startIndex),
    marginsOf: () => blockMargins(work, { conditions, settings }, table.spans[startIndex] ?? []),
    unknownLimits: LIMIT_IDS.filter((_, bit) => (((table.unknownBits[startIndex] ?? 0) >>> bit) & 1) === 1),
  };
}

/** Weight share of a set of reporting scenarios and its standard error, from how much the members disagree. */
export function probabilityOf(
  mask: Uint32Array,
  of: Pick<Report, 'weights' | 'memberIndex'>,
): { probability: number; probabilitySd: number } {
  const probability = weightOf(mask, of.weights) / totalWeight(of.weights);
  return { probability, probabilitySd: weightedMean(memberShares(mask, of)).errorSd };
}

function memberShares(mask: Uint32Array, of: Pick<Report, 'weights' | 'memberIndex'>): WeighedGroup[] {
  const sums = new Map<number, { insideWeight: number; allWeight: number }>();
  for (let w = 0; w < of.weights.length; w++) {
    const member = of.memberIndex[w] ?? w;
    const sum = sums.get(member) ?? { insideWeight: 0, allWeight: 0 };
    sum.allWeight += of.weights[w] ?? 0;
    if (hasBit(mask, w)) sum.insideWeight += of.weights[w] ?? 0;
    sums.set(member, sum);
  }
  return [...sums.values()].map((sum) => ({ weight: sum.allWeight, value: sum.insideWeight / sum.allWeight }));
}

/** Sleep to the end of the horizon, and the person at every slot of it; awake beyond. */
function followPerson(preparation: Preparation, state: PlanState): Pick<Report, 'sleeps' | 'personBySlot'> {
  const { grid, untilSlot, person: facts, units, start } = preparation;
  const { sleeps } = timelineOf({
    start,
    facts,
    slotMin: grid.slotMin,
    placed: placedInOrder(state),
    units,
    plannedSleeps: state.plannedSleeps,
    lookoutSlots: Math.ceil(LOOKOUT_MIN / grid.slotMin),
    toSlot: untilSlot,
  });
  return { sleeps, personBySlot: personBySlot({ ...preparation, facts, start }, sleeps) };
}
