import type { Job } from '../jobs/index.ts';
import type { ScheduleSettings, WorkEntry } from '../schedule/index.ts';
import { solveSchedule } from '../schedule/index.ts';
import { fullMask, intersect, totalWeight, weightOf } from '../windows/index.ts';
import { carryOut } from './model/carry-out.ts';
import { restricted } from './model/restrict.ts';
import type { Preparation } from './prepare.ts';
import type { Report } from './report.ts';
import type { Searched } from './search.ts';
import type { PlanState } from './state.ts';

/** Above so many jobs sets are not tried out one by one: the job that breaks most is left out, again and again. */
const MOST_TRIED_JOBS = 14;

/**
 * Jobs of a plan that keep a probability together on the reporting scenarios: of all sets that leave out no job another
 * one comes after, that of most priority weight, of the same the likelier.
 *
 * Jobs with a limit unknown narrow nothing; they stay where they keep the probability by themselves, and all they come
 * after stays.
 */
export function jobsThatHold(
  preparation: Preparation,
  report: Report,
  of: { jobs: readonly Job[]; wantedProbability: number },
): ReadonlySet<string> {
  const neededWeight = of.wantedProbability * totalWeight(report.weights) - 1e-6;
  const sure = of.jobs
    .filter((job) => !report.conditionalJobIds.includes(job.id))
    .map((job) => ({ job, mask: maskOfJob(preparation, report, job.id) }));
  const kept =
    sure.length > MOST_TRIED_JOBS ? heldGreedily(sure, report, neededWeight) : bestSet(sure, report, neededWeight);
  for (const job of of.jobs.filter(({ id }) => report.conditionalJobIds.includes(id))) {
    const holds = weightOf(maskOfJob(preparation, report, job.id), report.weights) >= neededWeight;
    const isOpen = job.after.every((id) => kept.has(id) || !of.jobs.some((other) => other.id === id));
    if (holds && isOpen) kept.add(job.id);
  }
  return kept;
}

interface JobMask {
  readonly job: Job;
  readonly mask: Uint32Array;
}

/** Reporting scenarios in which every entry of a job holds. */
export function maskOfJob(preparation: Preparation, report: Report, jobId: string): Uint32Array {
  return report.entries
    .filter(({ placed }) => preparation.units[placed.unit]?.job.id === jobId)
    .reduce((mask, entry) => intersect(mask, entry.mask), fullMask(report.weights.length));
}

function bestSet(jobs: readonly JobMask[], report: Report, neededWeight: number): Set<string> {
  let best = { priorityWeight: 0, jointWeight: 0, ids: new Set<string>() };
  const visit = (index: number, chosen: readonly JobMask[], mask: Uint32Array): void => {
    const jointWeight = weightOf(mask, report.weights);
    if (jointWeight < neededWeight) return;
    const next = jobs[index];
    if (next === undefined) {
      const priorityWeight = chosen.reduce((sum, { job }) => sum + job.priorityWeight, 0);
      const isBetter =
        priorityWeight > best.priorityWeight ||
        (priorityWeight === best.priorityWeight && jointWeight > best.jointWeight);
      if (isBetter) best = { priorityWeight, jointWeight, ids: new Set(chosen.map(({ job }) => job.id)) };
      return;
    }
    const isOpen = next.job.after.every(
      (id) => chosen.some(({ job }) => job.id === id) || !jobs.some(({ job }) => job.id === id),
    );
    if (isOpen) visit(index + 1, [...chosen, next], intersect(mask, next.mask));
    visit(index + 1, chosen, mask);
  };
  visit(0, [], fullMask(report.weights.length));
  return best.ids;
}

function heldGreedily(jobs: readonly JobMask[], report: Report, neededWeight: number): Set<string> {
  let left = [...jobs];
  const jointOf = (some: readonly JobMask[]): number =>
    weightOf(
      some.reduce((mask, { mask: own }) => intersect(mask, own), fullMask(report.weights.length)),
      report.weights,
    );
  while (left.length > 0 && jointOf(left) < neededWeight) {
    const ends = left.filter(({ job }) => !left.some((other) => other.job.after.includes(job.id)));
    const gainOf = (out: JobMask): number => jointOf(left.filter((other) => other !== out)) / out.job.priorityWeight;
    const [worst] = ends.toSorted((a, b) => gainOf(b) - gainOf(a));
    left = left.filter((other) => other !== worst);
  }
  return new Set(left.map(({ job }) => job.id));
}

/** Starts are given: there is little to search. */
const PART_SEARCH: ScheduleSettings = { beamWidths: [300], extensionBudget: 100_000 };

/** A searched plan with some of its jobs alone, each at the start it had; sleep is placed anew. */
export function partOf(searched: Searched, jobIds: ReadonlySet<string>): PlanState {
  const { problem, model, solution, conditionalIds } = searched;
  const work = solution.entries.filter((entry): entry is WorkEntry => entry.kind === 'work');
  const part = restricted(model, ({ taskIndex, meaning }, begin) =>
    work.some(
      (entry) =>
        entry.task === taskIndex &&
        entry.beginSlot === begin &&
        jobIds.has(meaning.unit.job.id) &&
        handlingOf(searched, entry) === meaning.handlingIndex,
    ),
  );
  const found = solveSchedule(part.schedule, PART_SEARCH);
  return carryOut(problem, part, { entries: found.entries, conditionalIds });
}

function handlingOf({ model }: Searched, entry: WorkEntry): number | undefined {
  const choice = model.schedule.tasks[entry.task]?.choices[entry.choice];
  return choice === undefined ? undefined : model.meanings.get(choice)?.handlingIndex;
}
