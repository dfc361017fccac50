import type { CutGroup } from './cut-group.ts';
import { JoinedSearch, type JoinedFound } from './joined-search.ts';
import type { BarSlot, LaidBar, LaidPart, Layout } from './layout.ts';
import { packWhole } from './pack-whole.ts';
import { recipes } from './recipes.ts';
import type { FilledBar, WholeProblem } from './whole-problem.ts';
import type { WorkBudget } from './work-budget.ts';

/** `unknown`: the work allowed did not settle it. */
export type Decision =
  | { readonly kind: 'possible'; readonly layout: Layout }
  | { readonly kind: 'impossible' | 'unknown' };

/** What is asked: pieces of this weight, made with just so many joints, from these bars. */
export interface Question {
  readonly slots: readonly BarSlot[];
  readonly madeWeight: number;
  readonly jointCount: number;
  /** What pieces of this weight take of the bars at the least; 0 where that is not known. */
  readonly leastLoadQuanta: number;
}

const IMPOSSIBLE: Decision = { kind: 'impossible' };
/** Share of the steps for one way to share out the joints, so that a hard one does not keep the others waiting. */
const RECIPE_SHARE = 0.4;
/** More pieces than this are not joined: the search places them one by one. */
const MOST_JOINED_COUNT = 300;

/** Asks one group; no more is spent than the budget has. */
export function decide(
  group: CutGroup,
  question: Question,
  leastJointCounts: readonly (number | null)[],
  budget: WorkBudget,
): Decision {
  return question.jointCount === 0
    ? decideWhole(group, question, leastJointCounts, budget)
    : decideJoined(group, question, leastJointCounts, budget);
}

function decideWhole(
  group: CutGroup,
  { slots, madeWeight, leastLoadQuanta }: Question,
  leastJointCounts: readonly (number | null)[],
  budget: WorkBudget,
): Decision {
  const kinds = [...group.pieces.keys()].filter((kind) => leastJointCounts[kind] === 0);
  const byRoom = slotsByRoom(slots);
  const problem: WholeProblem = {
    sizesQuanta: kinds.map((kind) => (group.pieces[kind]?.lengthQuanta ?? 0) + group.kerfQuanta),
    counts: kinds.map((kind) => group.pieces[kind]?.count ?? 0),
    valueWeights: kinds.map((kind) => group.pieces[kind]?.valueWeight ?? 0),
    capacities: byRoom.map(({ roomQuanta, isSpare, indexes }) => ({ roomQuanta, count: indexes.length, isSpare })),
    leastLoadQuanta,
  };
  const answer = packWhole(problem, madeWeight, budget);
  if (answer.kind !== 'packed') return { kind: answer.kind };
  return { kind: 'possible', layout: wholeLayout(group, { kinds, byRoom, slots }, answer.bars) };
}

interface RoomSlots {
  readonly roomQuanta: number;
  readonly isSpare: boolean;
  readonly indexes: readonly number[];
}

function slotsByRoom(slots: readonly BarSlot[]): readonly RoomSlots[] {
  const byRoom = new Map<string, { roomQuanta: number; isSpare: boolean; indexes: number[] }>();
  for (const [index, { roomQuanta, isSpare }] of slots.entries()) {
    const key = `${roomQuanta} ${isSpare}`;
    const same = byRoom.get(key) ?? { roomQuanta, isSpare, indexes: [] };
    same.indexes.push(index);
    byRoom.set(key, same);
  }
  return [...byRoom.values()].toSorted((a, b) => b.roomQuanta - a.roomQuanta);
}

function wholeLayout(
  group: CutGroup,
  names: {
    readonly kinds: readonly number[];
    readonly byRoom: readonly RoomSlots[];
    readonly slots: readonly BarSlot[];
  },
  filled: readonly FilledBar[],
): Layout {
  const usedCounts = names.byRoom.map(() => 0);
  const bars = filled.map(({ capacityIndex, counts }): LaidBar => {
    const place = usedCounts[capacityIndex] ?? 0;
    usedCounts[capacityIndex] = place + 1;
    const slot = names.slots[names.byRoom[capacityIndex]?.indexes[place] ?? -1];
    if (slot === undefined) throw new Error('more bars filled than there are');
    const parts = counts.flatMap((count, index) => {
      const kind = names.kinds[index] ?? 0;
      return Array.from({ length: count }, () => wholePart(group, kind));
    });
    return { barKindIndex: slot.barKindIndex, parts };
  });
  return { bars: bars.filter(({ parts }) => parts.length > 0), joined: [] };
}

const wholePart = (group: CutGroup, pieceKindIndex: number): LaidPart => ({
  pieceKindIndex,
  lengthQuanta: group.pieces[pieceKindIndex]?.lengthQuanta ?? 0,
  joinedIndex: null,
  partIndex: 0,
});

function decideJoined(
  group: CutGroup,
  { slots, madeWeight, jointCount }: Question,
  leastJointCounts: readonly (number | null)[],
  budget: WorkBudget,
): Decision {
  const roomsQuanta = slots.map((slot) => slot.roomQuanta);
  const roomQuanta = roomsQuanta.reduce((sum, room) => sum + room, 0);
  let isSettled = group.pieces.reduce((sum, { count }) => sum + count, 0) <= MOST_JOINED_COUNT;
  for (const recipe of recipes(group, { madeWeight, jointCount, roomQuanta, leastJointCounts }, budget)) {
    const part = budget.part(budget.remainingCount * RECIPE_SHARE);
    const found = new JoinedSearch(group, recipe, roomsQuanta, part).find();
    if (found !== null) return { kind: 'possible', layout: joinedLayout(group, slots, found) };
    if (part.isSpent) isSettled = false;
    if (budget.isSpent) break;
  }
  return isSettled && !budget.isSpent ? IMPOSSIBLE : { kind: 'unknown' };
}

function joinedLayout(group: CutGroup, slots: readonly BarSlot[], found: JoinedFound): Layout {
  const bars = slots.map(({ barKindIndex }, bar): LaidBar => {
    const wholes = (found.wholeKindsByBar[bar] ?? []).map((kind) => wholePart(group, kind));
    const parts = found.joined.flatMap((piece, joinedIndex) =>
      piece.barIndexes.flatMap((barIndex, partIndex): readonly LaidPart[] => {
        const lengthQuanta = found.partsQuanta[joinedIndex]?.[partIndex] ?? 0;
        return barIndex === bar ? [{ pieceKindIndex: piece.pieceKindIndex, lengthQuanta, joinedIndex, partIndex }] : [];
      }),
    );
    return { barKindIndex, parts: [...wholes, ...parts] };
  });
  return {
    bars: bars.filter(({ parts }) => parts.length > 0),
    joined: found.joined.map(({ pieceKindIndex }, index) => ({
      pieceKindIndex,
      partsQuanta: found.partsQuanta[index] ?? [],
    })),
  };
}
