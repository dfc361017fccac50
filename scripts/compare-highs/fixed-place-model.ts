/**
 * The planning problem at one place as a mixed-integer program: a time-indexed formulation (J. P. Sousa & L. A. Wolsey,
 * Mathematical Programming 54, 1992) with one binary for each scenario. Written from `ScheduleProblem` alone.
 */
import { isWaitOver, type ScheduleProblem } from '../../lib/schedule/index.ts';
import { LinearProgram, type Term } from './linear-program.ts';
import { addRestRows } from './rest-rows.ts';
import { holdsIn, refuseBeyondModel, type SleepStart, sleepStarts, type WorkStart, workStarts } from './starts.ts';

export interface FixedPlaceModel {
  readonly program: LinearProgram;
  readonly works: readonly WorkStart[];
  readonly sleeps: readonly SleepStart[];
  readonly priority: readonly Term[];
  readonly joint: readonly Term[];
  readonly cost: readonly Term[];
}

const jobName = (job: number): string => `y${job}`;
const scenarioName = (scenario: number): string => `z${scenario}`;

export function fixedPlaceModel(problem: ScheduleProblem): FixedPlaceModel {
  refuseBeyondModel(problem);
  const program = new LinearProgram();
  const works = workStarts(problem);
  const sleeps = sleepStarts(problem);
  for (const { name } of [...works, ...sleeps]) program.addBinary(name);
  for (const job of problem.jobs.keys()) program.addBinary(jobName(job));
  for (const scenario of problem.weights.keys()) program.addBinary(scenarioName(scenario));

  addTaskRows(program, problem, works);
  addScenarioRows(program, problem, works);
  addOneThingAtATime(program, problem, works, sleeps);
  if (problem.rest !== null) addRestRows(program, problem.rest, problem.slotCount, { works, sleeps });
  return {
    program,
    works,
    sleeps,
    priority: problem.jobs.map(({ priorityWeight }, job): Term => [priorityWeight, jobName(job)]),
    joint: [...problem.weights].map((weight, scenario): Term => [weight, scenarioName(scenario)]),
    cost: [...works, ...sleeps]
      .filter(({ costPoints }) => costPoints !== 0)
      .map(({ costPoints, name }): Term => [costPoints, name]),
  };
}

const unitsOf = (starts: readonly WorkStart[]): Term[] => starts.map(({ unitCount, name }): Term => [unitCount, name]);
const countOf = (starts: readonly WorkStart[]): Term[] => starts.map(({ name }): Term => [1, name]);
const minus = (terms: readonly Term[]): Term[] => terms.map(([coefficient, name]): Term => [-coefficient, name]);

function addTaskRows(
  program: LinearProgram,
  { tasks, jobs, slotCount }: ScheduleProblem,
  works: readonly WorkStart[],
): void {
  const worksOf = (task: number): readonly WorkStart[] => works.filter((start) => start.task === task);
  for (const [job, { tasks: members }] of jobs.entries()) {
    for (const task of members) {
      const total = tasks[task]?.unitCount ?? 0;
      program.addRow([...unitsOf(worksOf(task)), [-total, jobName(job)]], '>=', 0);
      program.addRow(unitsOf(worksOf(task)), '<=', total);
    }
  }
  for (const [task, { after, unitCount }] of tasks.entries()) {
    for (const { task: earlier, waitSlots } of after) {
      const total = tasks[earlier]?.unitCount ?? 0;
      for (let t = 0; t < slotCount; t++) {
        // A whole task begins once, so all its starts up to an instant wait for the same thing; of sessions only those at it.
        const begun = worksOf(task).filter(({ beginSlot }) => (unitCount === 1 ? beginSlot <= t : beginSlot === t));
        const finished = worksOf(earlier).filter(({ endSlot }) =>
          isWaitOver(waitSlots, { fromSlot: endSlot, atSlot: t }),
        );
        if (begun.some(({ beginSlot }) => beginSlot === t)) {
          program.addRow([...minus(unitsOf(finished)), ...begun.map(({ name }): Term => [total, name])], '<=', 0);
        }
      }
    }
    addFinishingRows(program, unitCount, worksOf(task));
  }
}

/** A session that may only finish begins when all the other units are done. */
function addFinishingRows(program: LinearProgram, total: number, starts: readonly WorkStart[]): void {
  for (const start of starts.filter(({ onlyToFinish }) => onlyToFinish)) {
    const before = starts.filter(({ beginSlot }) => beginSlot < start.beginSlot);
    program.addRow([...minus(unitsOf(before)), [total - start.unitCount, start.name]], '<=', 0);
  }
}

/** A scenario is good while no work is begun that it spoils. */
function addScenarioRows(
  program: LinearProgram,
  { tasks, weights, neededWeight }: ScheduleProblem,
  works: readonly WorkStart[],
): void {
  for (const [task, { unitCount, choices }] of tasks.entries()) {
    const smallest = Math.min(...choices.filter((choice) => !choice.onlyToFinish).map((choice) => choice.unitCount));
    const mostSessions = unitCount === 1 ? 1 : Math.ceil(unitCount / smallest) + 1;
    for (const scenario of weights.keys()) {
      const spoilt = works.filter((start) => start.task === task && !holdsIn(start.words, scenario));
      program.addRow([[mostSessions, scenarioName(scenario)], ...countOf(spoilt)], '<=', mostSessions);
    }
  }
  program.addRow(
    [...weights].map((weight, scenario): Term => [weight, scenarioName(scenario)]),
    '>=',
    neededWeight,
  );
}

function addOneThingAtATime(
  program: LinearProgram,
  { slotCount, rest }: ScheduleProblem,
  works: readonly WorkStart[],
  sleeps: readonly SleepStart[],
): void {
  for (let t = 0; t < slotCount; t++) {
    const busy = [...works, ...sleeps].filter(({ beginSlot, endSlot }) => beginSlot <= t && t < endSlot);
    const terms = busy.map(({ name }): Term => [1, name]);
    program.addRow(rest === null ? terms : [...terms, [1, `over${t}`]], '<=', 1);
  }
}
