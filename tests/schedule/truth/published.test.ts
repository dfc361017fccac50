/** Published problems as planning problems: the engine must reach the published optimum and prove it. */
import { describe, expect, it } from 'vitest';
import { type ScheduleProblem, simulateSchedule, solveSchedule } from '../../../lib/schedule/index.ts';
import { IS_LONG_RUN } from '../../long-run.ts';
import headsTails from '../../golden/schedule/heads-tails.json' with { type: 'json' };
import orders from '../../golden/schedule/order-acceptance.json' with { type: 'json' };
import shutTimes from '../../golden/schedule/periodic-unavailability.json' with { type: 'json' };
import micro from '../../golden/schedule/planner-micro.json' with { type: 'json' };
import sevenJobs from '../../golden/schedule/seven-jobs.json' with { type: 'json' };
import tours from '../../golden/schedule/tsptw.json' with { type: 'json' };
import tardy from '../../golden/schedule/weighted-tardiness.json' with { type: 'json' };
import { orderProblem, POINTS_PER_UNIT } from './published/order-acceptance.ts';
import { microProblem } from './published/planner-micro.ts';
import {
  leastFinishCost,
  leastGreatest,
  leastMakespan,
  type MachineJob,
  withShutTimes,
} from './published/sequencing.ts';
import { tourProblem } from './published/windowed-tour.ts';

/** Fifteen optional orders take half a minute: they are solved in a long run. */
const LONG_RUN_MS = 600_000;
/** For a machine that is busy with other things. */
const PATIENCE_MS = 120_000;

/** The worth of a proven plan that does everything and keeps every rule. */
function solveWhole(problem: ScheduleProblem): ReturnType<typeof solveSchedule>['worth'] {
  const solution = solveSchedule(problem);
  const most = problem.jobs.reduce((sum, job) => sum + job.priorityWeight, 0);
  expect(solution.proven).toBe(true);
  expect(solution.worth.priorityWeight).toBe(most);
  expect(simulateSchedule(problem, solution.entries)).toMatchObject({ ok: true, worth: solution.worth });
  return solution.worth;
}

interface Timed {
  readonly r: readonly number[];
  readonly p: readonly number[];
}

const machineJobs = ({ r, p }: Timed): readonly MachineJob[] =>
  p.map((workSlots, job) => ({ workSlots, releaseSlot: r[job] ?? 0 }));

const tardiness = (dues: readonly number[]) => (job: number, finish: number) => Math.max(0, finish - (dues[job] ?? 0));

// Cut from OR-Library wt40 (J. E. Beasley; Crauwels, Potts & Van Wassenhove 1998).
describe('weighted tardiness', () => {
  const checkTardy = (instance: (typeof tardy.instances)[number]): void => {
    const jobs = machineJobs({ p: instance.p, r: instance.p.map(() => 0) });
    const late = tardiness(instance.d);
    const problem = leastFinishCost(jobs, (job, finish) => (instance.w[job] ?? 0) * late(job, finish));
    expect(solveWhole(problem).costPoints).toBe(instance.opt);
  };
  it.each(tardy.instances)('$from: $opt', (one) => checkTardy(one), PATIENCE_MS);
});

// "Sequencing on a single machine", Guéret, Prins & Sevaux, Applications of optimization with Xpress-MP, pp. 128-132.
describe('seven jobs with release and due dates', () => {
  const instance = sevenJobs;
  const jobs = machineJobs(instance);
  const late = tardiness(instance.d);

  it('least makespan: 31', () => {
    expect(instance.opt.makespan).toBe(31);
    expect(solveWhole(leastMakespan(jobs)).costPoints).toBe(31);
  });
  it('least sum of completion times: 103', () => {
    expect(solveWhole(leastFinishCost(jobs, (_, finish) => finish)).costPoints).toBe(instance.opt.sumCompletion);
  });
  it('least total tardiness: 18', () => {
    expect(solveWhole(leastFinishCost(jobs, late)).costPoints).toBe(instance.opt.totalTardiness);
  });
  it('least greatest tardiness, one scenario for each level: 9', () => {
    const levels = Array.from({ length: 30 }, (_, k) => k);
    expect(solveWhole(leastGreatest(jobs, levels, late)).jointWeight).toBe(30 - instance.opt.maxTardiness);
  });
});

// J. Carlier, European Journal of Operational Research 11 (1982), example of seven jobs; data from memory.
describe('heads and tails', () => {
  const instance = headsTails;
  const levels = Array.from({ length: 40 }, (_, k) => 40 + k);

  it('least makespan with tails, over two words of scenarios: 50', () => {
    const end = (job: number, finish: number): number => finish + (instance.q[job] ?? 0);
    const { jointWeight } = solveWhole(leastGreatest(machineJobs(instance), levels, end));
    expect(80 - jointWeight).toBe(instance.opt);
  });
});

// ODM-Lab, sets LOW and MOD: the purest form of work in windows.
describe('a machine shut at regular times', () => {
  const checkShut = ({ p, open, shut, opt }: (typeof shutTimes.instances)[number]): void => {
    const problem = withShutTimes(p, { openSlots: open, shutSlots: shut });
    expect(solveWhole(problem).costPoints).toBe(opt);
  };
  it.each(shutTimes.instances)('$id: makespan $opt', (one) => checkShut(one), PATIENCE_MS);
});

// Cesaret, Oguz & Salman, Computers & Operations Research 39 (2012).
describe('order acceptance with set-up times', () => {
  const checkOrders = (instance: (typeof orders.instances)[number]): void => {
    const solution = solveSchedule(orderProblem(instance));
    expect(solution.proven).toBe(true);
    // Weights are published with five figures, optima with one decimal.
    expect(-solution.worth.costPoints / POINTS_PER_UNIT).toBeCloseTo(instance.opt, 1);
  };

  it.each(orders.instances.filter(({ n }) => n === 10))('$id: revenue $opt', (one) => checkOrders(one), PATIENCE_MS);
  it.runIf(IS_LONG_RUN).each(orders.instances.filter(({ n }) => n > 10))(
    '$id: revenue $opt',
    (one) => checkOrders(one),
    LONG_RUN_MS,
  );
});

// Dumas, Desrosiers, Gélinas & Solomon, Operations Research 43 (1995).
describe('a tour with time windows', () => {
  it.each(tours.instances)('$id: length $opt.cost', (instance) => {
    expect(solveWhole(tourProblem(instance)).costPoints).toBe(instance.opt.cost);
  });
});

// Own instances; optima by a separate program that tried all plans.
describe('stored micro instances', () => {
  it.each(micro.instances)('seed $seed: $opt.count members, cost $opt.cost', (instance) => {
    const { jointWeight, costPoints } = solveWhole(microProblem(instance));
    expect({ count: jointWeight, cost: costPoints }).toMatchObject({
      count: instance.opt.count,
      cost: instance.opt.cost,
    });
  });
});
