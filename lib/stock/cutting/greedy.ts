import type { CutGroup, PieceKind } from './cut-group.ts';
import { isBetter, scoreOf, type BarSlot, type JoinedPiece, type LaidPart, type Layout } from './layout.ts';
import { PartPlacement } from './part-placement.ts';
import { itemOf, loadQuanta } from './recipes.ts';
import { WorkBudget } from './work-budget.ts';

/** Steps to join one piece. */
const PIECE_STEPS = 3000;
/** More bars than this are not looked at for the parts of one piece. */
const MOST_BARS = 24;

/**
 * A plan without search to start from: piece by piece into the bar it leaves least of, joined from the longest rests where
 * no bar takes it whole. Most important pieces first, and again those worth most for their length; the better of the two.
 *
 * @param slots longest first
 */
export function greedyLayout(
  group: CutGroup,
  slots: readonly BarSlot[],
  leastJointCounts: readonly (number | null)[],
): Layout {
  const kinds = [...group.pieces.keys()].filter((kindIndex) => leastJointCounts[kindIndex] !== null);
  const piece = (kindIndex: number): PieceKind | undefined => group.pieces[kindIndex];
  const value = (kindIndex: number): number => piece(kindIndex)?.valueWeight ?? 0;
  const length = (kindIndex: number): number => piece(kindIndex)?.lengthQuanta ?? 1;
  const byValue = kinds.toSorted((a, b) => value(b) - value(a) || length(b) - length(a));
  const byWorth = kinds.toSorted((a, b) => value(b) / length(b) - value(a) / length(a));
  const [one, other] = [byValue, byWorth].map((order) => new GreedyCut(group, slots).cut(order));
  if (one === undefined || other === undefined) throw new Error('two orders give two layouts');
  return isBetter(scoreOf(group, other), scoreOf(group, one)) ? other : one;
}

class GreedyCut {
  private readonly group: CutGroup;
  private readonly slots: readonly BarSlot[];
  private readonly rooms: number[];
  private readonly partsByBar: LaidPart[][];
  private readonly joined: JoinedPiece[] = [];

  constructor(group: CutGroup, slots: readonly BarSlot[]) {
    this.group = group;
    this.slots = slots;
    this.rooms = slots.map(({ roomQuanta }) => roomQuanta);
    this.partsByBar = slots.map(() => []);
  }

  cut(order: readonly number[]): Layout {
    for (const kindIndex of order) {
      const count = this.group.pieces[kindIndex]?.count ?? 0;
      for (let made = 0; made < count; made++) if (!this.cutWhole(kindIndex) && !this.join(kindIndex)) break;
    }
    const bars = this.slots.map(({ barKindIndex }, barIndex) => ({
      barKindIndex,
      parts: this.partsByBar[barIndex] ?? [],
    }));
    return { bars: bars.filter(({ parts }) => parts.length > 0), joined: this.joined };
  }

  private cutWhole(kindIndex: number): boolean {
    const piece = this.group.pieces[kindIndex];
    if (piece === undefined) return false;
    const size = loadQuanta(piece, 0, this.group.kerfQuanta);
    let best = -1;
    for (const [barIndex, room] of this.rooms.entries())
      if (room >= size && (best < 0 || room < (this.rooms[best] ?? 0))) best = barIndex;
    if (best < 0) return false;
    this.take(best, { pieceKindIndex: kindIndex, lengthQuanta: piece.lengthQuanta, joinedIndex: null, partIndex: 0 });
    return true;
  }

  private join(kindIndex: number): boolean {
    const piece = this.group.pieces[kindIndex];
    if (piece === undefined) return false;
    const bars = [...this.rooms.keys()]
      .toSorted((a, b) => (this.rooms[b] ?? 0) - (this.rooms[a] ?? 0))
      .slice(0, MOST_BARS);
    const rooms = bars.map((barIndex) => this.rooms[barIndex] ?? 0);
    for (let jointCount = 1; jointCount <= piece.maxJoinCount; jointCount++) {
      const items = [itemOf(piece, kindIndex, jointCount)];
      const found = new PartPlacement(items, rooms, this.group.kerfQuanta, new WorkBudget(PIECE_STEPS)).find();
      const [barIndexes, partsQuanta] = [found?.joined[0]?.barIndexes, found?.partsQuanta[0]];
      if (barIndexes === undefined || partsQuanta === undefined) continue;
      const joinedIndex = this.joined.push({ pieceKindIndex: kindIndex, partsQuanta }) - 1;
      for (const [partIndex, lengthQuanta] of partsQuanta.entries())
        this.take(bars[barIndexes[partIndex] ?? 0] ?? 0, {
          pieceKindIndex: kindIndex,
          lengthQuanta,
          joinedIndex,
          partIndex,
        });
      return true;
    }
    return false;
  }

  private take(barIndex: number, part: LaidPart): void {
    this.rooms[barIndex] = (this.rooms[barIndex] ?? 0) - part.lengthQuanta - this.group.kerfQuanta;
    this.partsByBar[barIndex]?.push(part);
  }
}
