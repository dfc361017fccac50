/** Why a piece is not made, and what stock would make it possible. */
import { cutGroups, isSameDiameter, type CutGroup } from './cut-group.ts';
import type { CutRequest, StockLine, WantedPiece } from './cut-request.ts';
import { decide } from './decide.ts';
import { roundedMm } from './assemble.ts';
import { leastJointsAlone } from './joints-alone.ts';
import { madeCounts, roomOf, type BarSlot } from './layout.ts';
import { loadQuanta } from './recipes.ts';
import { slotsOf, type GroupSolution } from './solve-group.ts';
import type { NotMade } from './planned.ts';
import type { WorkBudget } from './work-budget.ts';

const MOST_ADVISED_JOINTS = 6;
const QUESTION_STEPS = 8000;

interface Solved {
  readonly group: CutGroup;
  readonly solution: GroupSolution;
}

/** Every piece that is wanted and not made, in the order of the request. */
export function piecesNotMade(
  request: CutRequest,
  solved: readonly Solved[],
  madeIds: readonly string[],
  budget: WorkBudget,
): readonly NotMade[] {
  const made = new Set(madeIds);
  return request.pieces.flatMap((piece, index) => {
    const ids = Array.from({ length: piece.count }, (_, k) => `${piece.id}#${k + 1}`).filter((id) => !made.has(id));
    if (ids.length === 0) return [];
    const why = whyNot(request, index, solved, budget);
    return ids.map((pieceId) => ({ pieceId, ...why }));
  });
}

type Why = Omit<NotMade, 'pieceId'>;

function whyNot(request: CutRequest, index: number, solved: readonly Solved[], budget: WorkBudget): Why {
  const piece = request.pieces[index];
  if (piece === undefined) throw new Error('a piece without its line');
  const stock = request.stock.filter((line) => line.count > 0 && isSameDiameter(line.diameterMm, piece.diameterMm));
  const field = `pieces[${index}].lengthMm`;
  if (stock.length === 0) return noStock(request, piece, `pieces[${index}].diameterMm`);
  const of = solved.find(({ group }) => isSameDiameter(group.diameterMm, piece.diameterMm));
  const kind = of?.group.pieces.findIndex(({ pieceIndexes }) => pieceIndexes.includes(index)) ?? -1;
  if (of !== undefined && of.solution.leastJointCounts[kind] !== null)
    return { field, ...stockShort(of, kind, piece, budget) };
  return { field, ...cannotBeMade(request, piece, stock) };
}

const asCutMm = (piece: WantedPiece): number => roundedMm(piece.lengthMm + piece.endAllowanceMm);

const barWords = (piece: WantedPiece, lengthMm: number): string =>
  `a bar of ${piece.diameterMm} mm at least ${lengthMm} mm long`;

function noStock(request: CutRequest, piece: WantedPiece, field: string): Why {
  const others = [...new Set(request.stock.filter(({ count }) => count > 0).map(({ diameterMm }) => diameterMm))];
  return {
    field,
    reason: 'no-stock',
    what: `There is no bar of ${piece.diameterMm} mm${others.length === 0 ? '' : `; there is ${others.toSorted((a, b) => a - b).join(', ')} mm`}. Diameters must agree to 0.01 mm.`,
    remedy: `Find ${barWords(piece, asCutMm(piece))}, or correct the diameter.`,
    neededBarMm: asCutMm(piece),
    neededJointCount: null,
  };
}

type Because = Omit<Why, 'field'>;

function cannotBeMade(request: CutRequest, piece: WantedPiece, stock: readonly StockLine[]): Because {
  const alone = aloneGroup(request, piece, piece.maxJoinCount);
  const joining = aloneGroup(request, piece, MOST_ADVISED_JOINTS);
  const neededJointCount = leastJointsAlone(joining, 0, slotsOf(joining), MOST_ADVISED_JOINTS);
  const neededBarMm = roundedMm(
    shortestBar(alone, (slots) => leastJointsAlone(alone, 0, slots, piece.maxJoinCount) !== null) * alone.stepMm,
  );
  const longestMm = Math.max(...stock.map(({ lengthMm }) => lengthMm));
  const joints =
    piece.maxJoinCount === 0
      ? 'no join allowed'
      : `${joinWords(piece.maxJoinCount)} of ${piece.overlapMm} mm allowed, no part under ${piece.shortestPartMm} mm`;
  const joinRemedy =
    neededJointCount === null
      ? ''
      : `, or allow ${joinWords(neededJointCount)} (maxJoins ${neededJointCount}, overlap ${piece.overlapMm} mm)`;
  return {
    reason: 'cannot-be-made',
    what: `It is ${asCutMm(piece)} mm as cut, the longest bar of ${piece.diameterMm} mm is ${longestMm} mm; with ${joints} these bars do not make it, even if nothing else is cut.`,
    remedy: `Find ${barWords(piece, neededBarMm)}${joinRemedy}.`,
    neededBarMm,
    neededJointCount,
  };
}

const joinWords = (count: number): string => (count === 1 ? '1 join' : `${count} joins`);

const aloneGroup = (request: CutRequest, piece: WantedPiece, maxJoinCount: number): CutGroup => {
  const [group] = cutGroups({ ...request, pieces: [{ ...piece, count: 1, maxJoinCount }] });
  if (group === undefined) throw new Error('a piece without a diameter');
  return group;
};

/** Shortest further bar with which it is possible; the whole piece always is. */
function shortestBar(group: CutGroup, isPossible: (slots: readonly BarSlot[]) => boolean): number {
  const own = slotsOf(group);
  let [least, most] = [0, group.pieces[0]?.lengthQuanta ?? 0];
  while (most - least > 1) {
    const middle = Math.floor((least + most) / 2);
    if (isPossible(withFurther(own, middle, group))) most = middle;
    else least = middle;
  }
  return most;
}

/** Longest first, with one bar more. */
const withFurther = (own: readonly BarSlot[], lengthQuanta: number, { kerfQuanta }: CutGroup): readonly BarSlot[] =>
  [...own, { barKindIndex: -1, roomQuanta: roomOf(lengthQuanta, kerfQuanta), isSpare: false }].toSorted(
    (a, b) => b.roomQuanta - a.roomQuanta,
  );

function stockShort({ group, solution }: Solved, kindIndex: number, piece: WantedPiece, budget: WorkBudget): Because {
  const counts = madeCounts(group, solution.layout).map((count, index) => count + (index === kindIndex ? 1 : 0));
  const asked: CutGroup = {
    ...group,
    pieces: group.pieces.map((of, index) => ({ ...of, count: counts[index] ?? 0 })),
  };
  const needed = shortestFurtherBar(asked, kindIndex, solution, budget);
  const neededBarMm = roundedMm(needed * group.stepMm);
  return {
    reason: 'stock-short',
    what: `The bars of ${piece.diameterMm} mm go to other pieces: by priority, then to as many as possible.`,
    remedy: `Find ${barWords(piece, neededBarMm)}, raise its priority, or want less of the others.`,
    neededBarMm,
    neededJointCount: null,
  };
}

/** Asks for all that is made and one more of the kind, with a further bar; an answer not found counts as no. */
function shortestFurtherBar(asked: CutGroup, kindIndex: number, solution: GroupSolution, budget: WorkBudget): number {
  const own = slotsOf(asked);
  const madeWeight = asked.pieces.reduce((sum, piece) => sum + piece.count * piece.valueWeight, 0);
  const load = asked.pieces.reduce((sum, piece) => sum + piece.count * loadQuanta(piece, 0, asked.kerfQuanta), 0);
  const room = own.reduce((sum, slot) => sum + slot.roomQuanta, 0);
  const { jointCount } = solution.score;
  const mostJoints = jointCount + (asked.pieces[kindIndex]?.maxJoinCount ?? 0);
  let [least, most] = [Math.max(0, load - room - asked.kerfQuanta - 1), asked.pieces[kindIndex]?.lengthQuanta ?? 0];
  while (most - least > 1 && !budget.isSpent) {
    const middle = Math.floor((least + most) / 2);
    const slots = withFurther(own, middle, asked);
    const isPossible = Array.from({ length: mostJoints - jointCount + 1 }, (_, more) => jointCount + more).some(
      (joints) =>
        decide(
          asked,
          { slots, madeWeight, jointCount: joints, leastLoadQuanta: 0 },
          solution.leastJointCounts,
          budget.part(QUESTION_STEPS),
        ).kind === 'possible',
    );
    if (isPossible) most = middle;
    else least = middle;
  }
  return most;
}
