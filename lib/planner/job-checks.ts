import type { Step } from '../jobs/index.ts';
import { formatUtc, slotEpochMs } from '../time/index.ts';
import { type Conditions, conditionsAlong } from '../voyage/index.ts';
import { goCheck } from './go-check.ts';
import type { PlannedJob } from './plan.ts';
import type { Preparation } from './prepare.ts';
import type { Unit } from './problem.ts';
import type { Report, ReportedEntry } from './report.ts';
import { startCheck } from './start-check.ts';
import { type StartCheck, startStopNumbers } from './start-numbers.ts';
import type { StartRun } from './start-runs.ts';

interface PlacedJob {
  /** Unit of the first entry. */
  readonly unit: Unit;
  readonly first: ReportedEntry;
  readonly entries: readonly ReportedEntry[];
  readonly runs: readonly StartRun[];
  readonly report: Report;
}

/** What to look at before a job begins: figures of all its entries, with what is expected when the first of them begins. */
export function jobChecks(preparation: Preparation, job: PlacedJob): Pick<PlannedJob, 'goCheck' | 'startCheck'> {
  const check = startCheckOf(preparation, job);
  const steps: readonly Step[] = [...new Set(job.entries.flatMap((entry) => stepsOf(preparation, entry)))];
  return { goCheck: goCheck(preparation, { unit: job.unit, entry: job.first, steps, check }), startCheck: check };
}

function startCheckOf(preparation: Preparation, { unit, first, entries, runs, report }: PlacedJob): StartCheck | null {
  const { placed } = first;
  const handling = unit.handlings[placed.handling];
  if (handling === undefined) return null;
  const parts = entries.map((entry) => ({
    steps: stepsOf(preparation, entry),
    handling: preparation.units[entry.placed.unit]?.handlings[entry.placed.handling] ?? null,
    sailStateId: entry.placed.sailStateId,
  }));
  const { boat, settings } = preparation.passage;
  return startCheck({
    preparation,
    entry: first,
    handling,
    numbers: startStopNumbers(parts, { boat, deckHeightM: settings.deckHeightM }),
    wholeConditions: () => conditionsOf(preparation, report),
    lastFairSlot: runAround(runs, placed.startSlot)?.lastSlot ?? placed.startSlot,
    utcAt: (slotIndex) => formatUtc(slotEpochMs(preparation.grid, slotIndex)),
  });
}

const kept = new WeakMap<Report, Conditions>();

/** Along the course the plan really sails, on the scenarios it was searched on; once for each plan. */
function conditionsOf({ passage, weather }: Preparation, report: Report): Conditions {
  const conditions =
    kept.get(report) ??
    conditionsAlong({
      course: report.course,
      boat: passage.boat,
      deckHeightM: passage.settings.deckHeightM,
      sampleScenarios: weather.sampleScenarios,
      sampleReference: weather.sampleReference,
    });
  kept.set(report, conditions);
  return conditions;
}

const stepsOf = ({ units }: Preparation, { placed }: ReportedEntry): readonly Step[] =>
  units[placed.unit]?.block.steps ?? [];

/** The run of fair starts a start lies in. */
export const runAround = (runs: readonly StartRun[], startSlot: number): StartRun | undefined =>
  runs.find(({ firstSlot, lastSlot }) => firstSlot <= startSlot && lastSlot >= startSlot);
