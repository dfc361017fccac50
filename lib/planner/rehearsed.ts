import type { WorkMinutes } from '../jobs/index.ts';
import type { Rehearsal, RehearsalEntry, RehearsedStep } from '../rehearsal/index.ts';
import { rehearse, SOBOL_DIMENSION_COUNT } from '../rehearsal/index.ts';
import { waitSlotsAt } from '../schedule/index.ts';
import type { Course } from '../voyage/index.ts';
import { conditionsAlong, sliceCourse } from '../voyage/index.ts';
import { lookBackSlots, scanStep } from '../windows/index.ts';
import type { Preparation } from './prepare.ts';
import type { Unit } from './problem.ts';
import type { Report, ReportingWeather } from './report.ts';
import type { Placed } from './state.ts';

/** Slow work pushes what follows: so many reference periods after its planned start an entry is still looked at. */
const LOOKED_AT_PERIODS = 2.5;
const LOOKED_AT_LEAST_H = 8;

/** What becomes of a plan when its steps take as long as they take, in the reporting scenarios. */
export function rehearsalOf(preparation: Preparation, report: Report, reporting: ReportingWeather): Rehearsal {
  const { passage, grid } = preparation;
  const placed = report.entries.map((entry) => entry.placed);
  const conditional = new Set(report.conditionalJobIds);
  const entries = placed.map((entry): RehearsalEntry => {
    const unit = unitOf(preparation, entry);
    return {
      jobId: unit.job.id,
      isCore: unit.block.session === null,
      conditional: conditional.has(unit.job.id),
      startSlot: entry.startSlot,
      resumeMin: entry.resumeMin,
      factorRatio: (entry.plannedMin - entry.resumeMin) / entry.workMin,
      steps: rehearsedSteps(preparation, { unit, entry, course: report.course, reporting }),
      makeSafeMin: unit.block.session?.makeSafeMin ?? 0,
      after: precedingEntries(placed, unit),
    };
  });
  return rehearse(entries, {
    seed: passage.settings.seed,
    slotMin: grid.slotMin,
    slotCount: grid.slotCount,
    weights: reporting.weights,
    memberIndex: reporting.memberIndex,
    sobolSteps: preparation.units
      .flatMap((unit) => unit.block.steps.map((step) => ({ jobId: unit.job.id, stepId: step.id })))
      .slice(0, SOBOL_DIMENSION_COUNT),
  });
}

function unitOf({ units }: Preparation, entry: Placed): Unit {
  const unit = units[entry.unit];
  if (unit === undefined) throw new Error('a plan holds an entry its problem does not know');
  return unit;
}

/** The entries that finish what must be finished before a unit. */
function precedingEntries(placed: readonly Placed[], unit: Unit): RehearsalEntry['after'] {
  return unit.predecessors.flatMap((before) => {
    const entryIndex = placed.findIndex((other) => other.unit === before.unit && other.finishes);
    return entryIndex < 0 ? [] : [{ entryIndex, waitSlotsFrom: (slot: number) => waitSlotsAt(before.waitSlots, slot) }];
  });
}

function rehearsedSteps(
  preparation: Preparation,
  of: { unit: Unit; entry: Placed; course: Course; reporting: ReportingWeather },
): RehearsedStep[] {
  const { passage, grid, weather } = preparation;
  const { unit, entry } = of;
  const handling = unit.handlings[entry.handling];
  if (handling === undefined) throw new Error('an entry names a handling its unit does not have');
  const leastSlots = Math.ceil((LOOKED_AT_LEAST_H * 60) / grid.slotMin);
  const slotCount = Math.max(leastSlots, Math.ceil(entry.referenceSlots * LOOKED_AT_PERIODS));
  // Rain counts for some time before the work, too.
  const fromSlot = Math.max(0, entry.startSlot - lookBackSlots(unit.block, grid.slotMin));
  const conditions = conditionsAlong({
    course: sliceCourse(of.course, { fromSlot, slotCount: entry.startSlot - fromSlot + slotCount }),
    boat: passage.boat,
    deckHeightM: passage.settings.deckHeightM,
    sampleScenarios: of.reporting.sampleScenarios,
    sampleReference: weather.sampleReference,
  });
  const share = unit.block.session === null ? 1 : entry.workMin / unit.totalWorkMin;
  return unit.block.steps.map((step) => {
    const { steadyingWindRule } = passage.settings;
    const { sailStateId } = entry;
    const worked = { step, handling, sailStateId, conditions, baseEpochMs: weather.baseEpochMs, steadyingWindRule };
    const { nextBroken } = scanStep(worked, 1);
    return {
      id: step.id,
      work: shareOf(step.work, share),
      scan: {
        nextBroken,
        firstSlot: fromSlot,
        slotCount: nextBroken.length / of.reporting.weights.length,
      },
    };
  });
}

const shareOf = (work: WorkMinutes, share: number): WorkMinutes => ({
  leastMin: work.leastMin * share,
  likelyMin: work.likelyMin * share,
  mostMin: work.mostMin * share,
});
