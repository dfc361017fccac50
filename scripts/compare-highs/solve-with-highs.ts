/** HiGHS (npm `highs`, the solver compiled to WebAssembly) on the linear model: level by level. */
import highsModule, { type LegacyHighs } from 'highs';
import { type ScheduleProblem, type ScheduleWorth, simulateSchedule } from '../../lib/schedule/index.ts';
import { type FixedPlaceModel, fixedPlaceModel } from './fixed-place-model.ts';
import type { Term } from './linear-program.ts';
import { planOf, type Values } from './read-plan.ts';

export interface HighsAnswer {
  /** HiGHS says the worth is the best there is. */
  readonly isOptimal: boolean;
  readonly status: string;
  /** Worth of its plan, carried out; null: no plan found. */
  readonly worth: ScheduleWorth | null;
  readonly elapsedMs: number;
  readonly binaryCount: number;
  readonly rowCount: number;
}

/** One joint weight is worth more than any cost of these instances; checked on the answer. */
const POINTS_PER_JOINT_WEIGHT = 10_000;

type Loader = () => Promise<LegacyHighs>;

/** Its types describe the CommonJS build, where the loader lies one level deeper than in the module Node takes. */
const isLoader = (value: unknown): value is Loader => typeof value === 'function';

async function loadHighs(): Promise<LegacyHighs> {
  const loader: unknown = highsModule;
  if (!isLoader(loader)) throw new Error('the module highs has no loader');
  return loader();
}

/**
 * First with every job done, which nothing can beat; where that is impossible, the greatest priority weight and then the rest
 * with it held. Each solve has the time given.
 */
export async function solveWithHighs(
  problem: ScheduleProblem,
  limitS: number,
  clock: () => number = () => performance.now(),
): Promise<HighsAnswer> {
  const highs = await loadHighs();
  const options = { time_limit: limitS, mip_rel_gap: 0, mip_abs_gap: 0.5, output_flag: false } as const;
  const begunMs = clock();
  const { binaryCount, rowCount } = fixedPlaceModel(problem).program;
  const answer = (status: string, worth: ScheduleWorth | null): HighsAnswer => ({
    isOptimal: status === 'Optimal',
    status,
    worth,
    elapsedMs: clock() - begunMs,
    binaryCount,
    rowCount,
  });
  const most = problem.jobs.reduce((sum, { priorityWeight }) => sum + priorityWeight, 0);
  const whole = solveHeld(highs, problem, most, options);
  if (whole.status !== 'Infeasible') return answer(whole.status, whole.worth);
  const model = fixedPlaceModel(problem);
  const first = highs.solve(model.program.toText(model.priority), options);
  const firstWorth = worthOf(problem, model, valuesOf(first));
  if (firstWorth === null || first.Status !== 'Optimal') return answer(`first level: ${first.Status}`, firstWorth);
  const second = solveHeld(highs, problem, firstWorth.priorityWeight, options);
  return answer(second.status, second.worth ?? firstWorth);
}

type Options = NonNullable<Parameters<LegacyHighs['solve']>[1]>;

/** Joint weight, then cost, with a priority weight held. */
function solveHeld(
  highs: LegacyHighs,
  problem: ScheduleProblem,
  priorityWeight: number,
  options: Options,
): { readonly status: string; readonly worth: ScheduleWorth | null } {
  const model = fixedPlaceModel(problem);
  model.program.addRow(model.priority, '>=', priorityWeight);
  const solution = highs.solve(model.program.toText(objectiveOf(model)), options);
  if (solution.Status === 'Infeasible') return { status: 'Infeasible', worth: null };
  const values = valuesOf(solution);
  const carried = worthOf(problem, model, values);
  // Stopped before its first plan, it answers with nothing done.
  const worth = carried !== null && carried.priorityWeight >= priorityWeight ? carried : null;
  if (solution.Status === 'Optimal' && worth !== null) checkAgainstModel(worth, model, values);
  return { status: solution.Status, worth };
}

const objectiveOf = (model: FixedPlaceModel): readonly Term[] => [
  ...model.joint.map(([weight, name]): Term => [weight * POINTS_PER_JOINT_WEIGHT, name]),
  ...model.cost.map(([points, name]): Term => [-points, name]),
];

/** Values of the variables; of a search stopped before its first plan they may break the rows, or be none. */
function valuesOf(solution: ReturnType<LegacyHighs['solve']>): Values {
  const columns: Readonly<Record<string, unknown>> = solution.Columns;
  return new Map(Object.entries(columns).map(([name, column]) => [name, primalOf(column)]));
}

function primalOf(column: unknown): number {
  const has = typeof column === 'object' && column !== null && 'Primal' in column;
  return has && typeof column.Primal === 'number' ? column.Primal : 0;
}

/** The plan in the variables, carried out by the engine's simulation, which shares no code with any search. */
function worthOf(problem: ScheduleProblem, model: FixedPlaceModel, values: Values): ScheduleWorth | null {
  const run = simulateSchedule(problem, planOf(problem, model, values));
  return run.ok && run.worth.jointWeight >= problem.neededWeight ? run.worth : null;
}

/** An optimum must be worth what the model says, or model and simulation mean different problems. */
function checkAgainstModel(worth: ScheduleWorth, { joint, cost }: FixedPlaceModel, values: Values): void {
  const sum = (terms: readonly Term[]): number =>
    terms.reduce((total, [coefficient, name]) => total + coefficient * Math.round(values.get(name) ?? 0), 0);
  if (sum(joint) !== worth.jointWeight || sum(cost) !== worth.costPoints) {
    throw new Error(`model: ${sum(joint)}/${sum(cost)}; carried out: ${worth.jointWeight}/${worth.costPoints}`);
  }
  if (worth.costPoints >= POINTS_PER_JOINT_WEIGHT) throw new Error(`a cost of ${worth.costPoints} breaks the levels`);
}
