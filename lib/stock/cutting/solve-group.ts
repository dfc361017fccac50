import type { CutGroup } from './cut-group.ts';
import { decide, type Decision } from './decide.ts';
import { greedyLayout } from './greedy.ts';
import { leastJointsAlone } from './joints-alone.ts';
import { isBetter, roomOf, scoreOf, type BarSlot, type Layout, type LayoutScore } from './layout.ts';
import { fractionalLoadQuanta, fractionalWeight, madeLevels, type MadeLevel } from './made-levels.ts';
import { WorkBudget } from './work-budget.ts';

/** The best layout found, and how good one could be at most where that is not proven. */
export interface GroupSolution {
  readonly layout: Layout;
  readonly score: LayoutScore;
  /** Level by level; equal to the score where it is proven. */
  readonly bound: LayoutScore;
  readonly leastJointCounts: readonly (number | null)[];
}

/** Share of the work left that one question may take. */
const QUESTION_SHARE = 0.25;
/** Steps for each number of pieces when the least worth are left out. */
const BY_WORTH_STEPS = 40_000;
const LEAST_QUESTION_STEPS = 30_000;
/** Levels of weight tried one by one before what is found counts. */
const MOST_LEVELS = 400;

/** All bars of a group, longest first. */
export const slotsOf = (group: CutGroup): readonly BarSlot[] =>
  group.bars.flatMap(({ lengthQuanta, count }, barKindIndex) =>
    Array.from({ length: count }, () => ({
      barKindIndex,
      roomQuanta: roomOf(lengthQuanta, group.kerfQuanta),
      isSpare: false,
    })),
  );

/**
 * Searches one diameter, level by level: most made, fewest joints, fewest bars, longest left-over.
 *
 * Of bars only the number counts, so that the longest are asked first; the bar of the left-over is asked with its left-over
 * cut off beforehand.
 */
export function solveGroup(group: CutGroup, budget: WorkBudget): GroupSolution {
  return new GroupSolver(group, budget).solve();
}

type MadeBound = Pick<LayoutScore, 'madeWeight' | 'jointCount'>;

class GroupSolver {
  private readonly group: CutGroup;
  private readonly budget: WorkBudget;
  private readonly slots: readonly BarSlot[];
  private readonly leastJointCounts: readonly (number | null)[];
  /** What pieces of the weight asked about take at the least. */
  private leastLoadQuanta = 0;
  private layout: Layout;
  private score: LayoutScore;

  constructor(group: CutGroup, budget: WorkBudget) {
    this.group = group;
    this.budget = budget;
    this.slots = slotsOf(group);
    this.leastJointCounts = group.pieces.map((piece, kind) =>
      leastJointsAlone(group, kind, this.slots, piece.maxJoinCount),
    );
    this.layout = greedyLayout(group, this.slots, this.leastJointCounts);
    this.score = scoreOf(group, this.layout);
  }

  solve(): GroupSolution {
    const made = this.mostMade();
    const barCount = this.fewestBars();
    const leftOverQuanta = this.longestLeftOver();
    return {
      layout: this.layout,
      score: this.score,
      bound: { madeWeight: made.madeWeight, jointCount: made.jointCount, barCount, leftOverQuanta },
      leastJointCounts: this.leastJointCounts,
    };
  }

  private ask(slots: readonly BarSlot[], madeWeight: number, jointCount: number): Decision {
    const steps = Math.max(LEAST_QUESTION_STEPS, Math.floor(this.budget.remainingCount * QUESTION_SHARE));
    const question = { slots, madeWeight, jointCount, leastLoadQuanta: this.leastLoadQuanta };
    const decision = decide(this.group, question, this.leastJointCounts, this.budget.part(steps));
    if (decision.kind === 'possible') this.offer(decision.layout);
    return decision;
  }

  private offer(layout: Layout): void {
    const score = scoreOf(this.group, layout);
    if (isBetter(score, this.score)) [this.layout, this.score] = [layout, score];
  }

  /** Levels 1 and 2; what comes back is the most that could be made, and the fewest joints it could take. */
  private mostMade(): MadeBound {
    const roomQuanta = this.slots.reduce((sum, slot) => sum + slot.roomQuanta, 0);
    const { levels, areAll } = madeLevels(this.group, this.leastJointCounts, roomQuanta);
    const bound = this.askLevels(levels.slice(0, MOST_LEVELS), roomQuanta);
    const unasked = levels[MOST_LEVELS]?.madeWeight ?? (areAll ? 0 : this.nextBelowAll(roomQuanta));
    const isUnsettled = (bound?.madeWeight ?? unasked) > this.score.madeWeight;
    if (isUnsettled) this.makeByWorth();
    const level = levels.find(({ madeWeight }) => madeWeight === this.score.madeWeight);
    this.leastLoadQuanta =
      level?.leastLoadQuanta ?? fractionalLoadQuanta(this.group, this.leastJointCounts, this.score.madeWeight);
    return bound ?? { madeWeight: Math.max(unasked, this.score.madeWeight), jointCount: 0 };
  }

  /** Goes down the levels until one is made; the first that is not proven impossible, or null when all are. */
  private askLevels(levels: readonly MadeLevel[], roomQuanta: number): MadeBound | null {
    let bound: MadeBound | null = null;
    for (const { madeWeight, leastLoadQuanta } of levels) {
      if (madeWeight < this.score.madeWeight) break;
      this.leastLoadQuanta = leastLoadQuanta;
      const fewestUnproven = this.fewestJoints(madeWeight, roomQuanta);
      if (fewestUnproven !== null) bound ??= { madeWeight, jointCount: fewestUnproven };
      if (this.score.madeWeight >= madeWeight) break;
    }
    return bound;
  }

  /** Where the levels are too many: no more than fractions make, and one piece less than all. */
  private nextBelowAll(roomQuanta: number): number {
    const lightest = Math.min(...this.group.pieces.map(({ valueWeight }) => valueWeight));
    const fractions = fractionalWeight(this.group, this.leastJointCounts, roomQuanta);
    return Math.min(this.allWeight() - lightest, fractions);
  }

  /** For what could not be settled: leaves out what is worth least for its length, as little of it as will do. */
  private makeByWorth(): void {
    const order = [...this.group.pieces.keys()]
      .filter((kind) => this.leastJointCounts[kind] === 0)
      .toSorted((a, b) => this.worth(b) - this.worth(a))
      .flatMap((kind) => Array.from({ length: this.group.pieces[kind]?.count ?? 0 }, () => kind));
    let [fits, tooMany] = [0, order.length + 1];
    while (tooMany - fits > 1) {
      const keptCount = Math.floor((fits + tooMany) / 2);
      if (this.makeJust(order.slice(0, keptCount))) fits = keptCount;
      else tooMany = keptCount;
    }
  }

  private worth(kindIndex: number): number {
    const piece = this.group.pieces[kindIndex];
    return piece === undefined ? 0 : piece.valueWeight / piece.lengthQuanta;
  }

  /** Whether these pieces, and no others, are found to fit whole. */
  private makeJust(kinds: readonly number[]): boolean {
    const counts = this.group.pieces.map(() => 0);
    for (const kind of kinds) counts[kind] = (counts[kind] ?? 0) + 1;
    const pieces = this.group.pieces.map((piece, kind) => ({ ...piece, count: counts[kind] ?? 0 }));
    const madeWeight = pieces.reduce((sum, { count, valueWeight }) => sum + count * valueWeight, 0);
    const question = { slots: this.slots, madeWeight, jointCount: 0, leastLoadQuanta: 0 };
    const budget = new WorkBudget(BY_WORTH_STEPS);
    const decision = decide({ ...this.group, pieces }, question, this.leastJointCounts, budget);
    if (decision.kind === 'possible') this.offer(decision.layout);
    return decision.kind === 'possible';
  }

  private allWeight(): number {
    return this.group.pieces.reduce(
      (sum, piece, kind) =>
        sum + ((this.leastJointCounts[kind] ?? null) === null ? 0 : piece.count * piece.valueWeight),
      0,
    );
  }

  /** Tries more and more joints; the fewest that are not proven too few, or null when no number will do. */
  private fewestJoints(madeWeight: number, roomQuanta: number): number | null {
    let fewestUnproven: number | null = null;
    const most = this.mostJoints(roomQuanta);
    for (let jointCount = 0; jointCount <= most; jointCount++) {
      if (this.score.madeWeight >= madeWeight && jointCount >= this.score.jointCount)
        return fewestUnproven ?? this.score.jointCount;
      const decision = this.ask(this.slots, madeWeight, jointCount);
      if (decision.kind !== 'impossible') fewestUnproven ??= jointCount;
      if (decision.kind === 'possible') return fewestUnproven;
    }
    return fewestUnproven;
  }

  /** Each joint beyond the fewest takes an overlap and a kerf, and so much is there. */
  private mostJoints(roomQuanta: number): number {
    const joining = this.group.pieces.filter(({ maxJoinCount }) => maxJoinCount > 0);
    const allowed = joining.reduce((sum, piece) => sum + piece.count * piece.maxJoinCount, 0);
    const further = this.shortestJoint();
    if (further === 0) return allowed;
    return Math.min(allowed, this.fewestJointsInAll() + Math.floor((roomQuanta - this.leastLoadQuanta) / further));
  }

  /** Overlap and kerf of the shortest joint there is; 0 without joints. */
  private shortestJoint(): number {
    const overlaps = this.group.pieces.flatMap((piece) => (piece.maxJoinCount > 0 ? [piece.overlapQuanta] : []));
    return overlaps.length === 0 ? 0 : Math.min(...overlaps) + this.group.kerfQuanta;
  }

  /** Joints when every piece that can be made at all is made with as few as it would need alone. */
  private fewestJointsInAll(): number {
    return this.group.pieces.reduce((sum, piece, kind) => sum + piece.count * (this.leastJointCounts[kind] ?? 0), 0);
  }

  /** Level 3; the fewest bars that are not proven too few. */
  private fewestBars(): number {
    const { madeWeight, jointCount } = this.score;
    let fewestThinkable = this.leastBars();
    for (let barCount = fewestThinkable; barCount < this.score.barCount; barCount++) {
      const longest = this.slots.slice(0, barCount);
      const decision = this.ask(longest, madeWeight, jointCount);
      if (decision.kind === 'unknown') this.offer(greedyLayout(this.group, longest, this.leastJointCounts));
      if (this.score.barCount <= barCount) break;
      // What so many bars cannot hold, fewer cannot either.
      if (decision.kind === 'impossible') fewestThinkable = barCount + 1;
    }
    return Math.min(fewestThinkable, this.score.barCount);
  }

  /** So many of the longest bars as could hold what is cut now, if only length counted. */
  private leastBars(): number {
    const load = this.leastLoad();
    let [barCount, room] = [0, 0];
    for (const slot of this.slots) {
      if (room >= load) break;
      room += slot.roomQuanta;
      barCount++;
    }
    return barCount;
  }

  /** The least that pieces of the weight made now take with so many joints. */
  private leastLoad(): number {
    if (this.score.madeWeight < this.allWeight()) return this.leastLoadQuanta;
    const furtherCount = Math.max(0, this.score.jointCount - this.fewestJointsInAll());
    return this.leastLoadQuanta + furtherCount * this.shortestJoint();
  }

  /** Level 4; the longest left-over that is not proven too long. */
  private longestLeftOver(): number {
    const bounds = [...this.group.bars.keys()].map((barKindIndex) => this.leftOverOf(barKindIndex));
    return Math.max(this.score.leftOverQuanta, ...bounds);
  }

  /**
   * The longest left-over of a bar of one kind that is not proven too long. Asks for just below the most thinkable and ever
   * further below, then between; for all kinds but the first, whether it beats what is found at all before that.
   */
  private leftOverOf(barKindIndex: number): number {
    const most = this.mostLeftOver(barKindIndex);
    let [notFoundFrom, impossibleFrom] = [most + 1, most + 1];
    const isFound = (wantedQuanta: number): boolean => {
      const answer = this.askLeftOver(barKindIndex, wantedQuanta);
      if (answer === 'possible') return true;
      notFoundFrom = wantedQuanta;
      if (answer === 'impossible') impossibleFrom = wantedQuanta;
      return false;
    };
    const goesOn = (): boolean => notFoundFrom - this.score.leftOverQuanta > 1 && !this.budget.isSpent;
    if (barKindIndex > 0 && goesOn() && !isFound(this.score.leftOverQuanta + 1)) return impossibleFrom - 1;
    for (let shortfall = 0; goesOn() && most - shortfall > this.score.leftOverQuanta; shortfall = shortfall * 2 + 1)
      if (isFound(most - shortfall)) break;
    while (goesOn()) isFound(Math.floor((notFoundFrom + this.score.leftOverQuanta) / 2));
    return impossibleFrom - 1;
  }

  private mostLeftOver(barKindIndex: number): number {
    const bar = this.group.bars[barKindIndex];
    if (bar === undefined || this.score.barCount === 0) return -1;
    const others = this.othersThan(barKindIndex).reduce((sum, slot) => sum + slot.roomQuanta, 0);
    return bar.lengthQuanta - Math.max(this.leastLoad() - others, this.shortestCut());
  }

  private shortestCut(): number {
    return (
      Math.min(
        ...this.group.pieces.map((piece) =>
          piece.maxJoinCount > 0 ? Math.min(piece.lengthQuanta, piece.leastEndPartQuanta) : piece.lengthQuanta,
        ),
      ) + this.group.kerfQuanta
    );
  }

  /** The longest other bars that are opened beside one of this kind. */
  private othersThan(barKindIndex: number): readonly BarSlot[] {
    const own = this.slots.findIndex((slot) => slot.barKindIndex === barKindIndex);
    return this.slots.filter((_, index) => index !== own).slice(0, this.score.barCount - 1);
  }

  private askLeftOver(barKindIndex: number, wantedQuanta: number): Decision['kind'] {
    const length = this.group.bars[barKindIndex]?.lengthQuanta ?? 0;
    const slots = [
      ...this.othersThan(barKindIndex),
      { barKindIndex, roomQuanta: length - wantedQuanta, isSpare: true },
    ];
    return this.ask(slots, this.score.madeWeight, this.score.jointCount).kind;
  }
}
