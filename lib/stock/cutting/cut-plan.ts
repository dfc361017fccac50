import { assemble, roundedMm } from './assemble.ts';
import { cutGroups, type CutGroup } from './cut-group.ts';
import type { CutRequest } from './cut-request.ts';
import type { LayoutScore } from './layout.ts';
import { piecesNotMade } from './not-made.ts';
import type { CutPlan, OpenLevel } from './planned.ts';
import { solveGroup, type GroupSolution } from './solve-group.ts';
import { WorkBudget } from './work-budget.ts';

export type { CutPlan, PlannedBar, PlannedCut } from './planned.ts';

/** Steps of search for one plan; a few seconds on a slow machine. */
const DEFAULT_STEPS = 1_500_000;
/** Steps to find out what stock would make what is missing. */
const ADVICE_STEPS = 150_000;

/**
 * Cuts pieces from bars: most made by priority, then fewest joins, then fewest bars, then the longest left-over.
 *
 * - Most made: the greatest sum of priorities, as the planner sums the priorities of jobs; of equal sums the one with more
 *   pieces.
 * - Bars and pieces of different diameters have nothing to do with one another; the longest left-over is one for all.
 * - A bar yields parts when parts and a kerf for each are no longer than the bar and one kerf.
 * - A piece is cut `lengthMm` + `endAllowanceMm` long. Joints and zones are measured from its first end; the allowance is
 *   left on at the far end, and no joint lies in it.
 * - The parts of a joined piece overlap; joints do not overlap one another, so that a part between two joints is two
 *   overlaps long at the least, and a part at an end one.
 *
 * @param stepCount steps of search; when they run out the best plan found is returned with what is not ruled out
 */
export function cutPlan(request: CutRequest, stepCount: number = DEFAULT_STEPS): CutPlan {
  const groups = cutGroups(request);
  // A small group leaves more for the others.
  const inOrder = groups.toSorted((a, b) => sizeOf(a) - sizeOf(b));
  const whole = new WorkBudget(stepCount);
  const solutions = new Map<CutGroup, GroupSolution>();
  for (const [index, group] of inOrder.entries())
    solutions.set(group, solveGroup(group, whole.part(whole.remainingCount / (inOrder.length - index))));
  const solved = groups.flatMap((group) => {
    const solution = solutions.get(group);
    return solution === undefined ? [] : [{ group, solution }];
  });
  const { bars, joined, madeIds } = assemble(request, solved);
  const open = openLevel(request, solved);
  return {
    kerfMm: request.kerfMm,
    madeIds,
    jointCount: joined.reduce((sum, { joints }) => sum + joints.length, 0),
    barCount: bars.length,
    longestLeftOverMm: Math.max(0, ...bars.map(({ leftOverMm }) => leftOverMm)),
    isOptimal: open === null,
    open,
    bars,
    joined,
    notMade: piecesNotMade(request, solved, madeIds, new WorkBudget(ADVICE_STEPS)),
    defaultsUsed: request.defaultsUsed,
  };
}

const sizeOf = ({ pieces }: CutGroup): number => pieces.reduce((sum, { count }) => sum + count, 0);

interface Solved {
  readonly group: CutGroup;
  readonly solution: GroupSolution;
}

function openLevel(request: CutRequest, solved: readonly Solved[]): OpenLevel | null {
  const isOpen = (key: keyof LayoutScore): boolean =>
    solved.some(({ solution }) => solution.score[key] !== solution.bound[key]);
  if (isOpen('madeWeight')) return openMade(request, inAll(solved, 'madeWeight'));
  if (isOpen('jointCount')) return { level: 'joins', ...inAll(solved, 'jointCount'), unit: 'joins' };
  if (isOpen('barCount')) return { level: 'bars', ...inAll(solved, 'barCount'), unit: 'bars' };
  const most = (of: (solution: GroupSolution) => number): number =>
    roundedMm(Math.max(0, ...solved.map(({ group, solution }) => of(solution) * group.stepMm)));
  const foundAmount = most(({ score }) => score.leftOverQuanta);
  const boundAmount = most(({ bound }) => bound.leftOverQuanta);
  return foundAmount < boundAmount ? { level: 'left-over', foundAmount, boundAmount, unit: 'mm' } : null;
}

type Amounts = Pick<OpenLevel, 'foundAmount' | 'boundAmount'>;

const inAll = (solved: readonly Solved[], key: keyof LayoutScore): Amounts => ({
  foundAmount: solved.reduce((sum, { solution }) => sum + solution.score[key], 0),
  boundAmount: solved.reduce((sum, { solution }) => sum + solution.bound[key], 0),
});

/** Weights hold the priorities, and far below them the number of pieces. */
function openMade({ pieces }: CutRequest, { foundAmount, boundAmount }: Amounts): OpenLevel {
  const base = 1 + pieces.reduce((sum, { count }) => sum + count, 0);
  const priorities: Amounts = {
    foundAmount: Math.floor(foundAmount / base),
    boundAmount: Math.floor(boundAmount / base),
  };
  if (priorities.foundAmount !== priorities.boundAmount)
    return { level: 'made', ...priorities, unit: 'priority in all' };
  return { level: 'made', foundAmount: foundAmount % base, boundAmount: boundAmount % base, unit: 'pieces' };
}
