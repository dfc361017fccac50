import type { CutGroup, PieceKind } from './cut-group.ts';
import type { PlacedPiece } from './part-flow.ts';
import { PartPlacement } from './part-placement.ts';
import { itemOf, loadQuanta, type JoinedItem, type Recipe } from './recipes.ts';
import type { WorkBudget } from './work-budget.ts';

/** Whole pieces by bar, and joined pieces with the length of each part. */
export interface JoinedFound {
  readonly wholeKindsByBar: readonly (readonly number[])[];
  readonly joined: readonly PlacedPiece[];
  readonly partsQuanta: readonly (readonly number[])[];
}

const MOST_REMEMBERED = 100_000;

/**
 * Searches one recipe. Parts of joined pieces lie in no more bars than there are parts, and all other bars hold whole
 * pieces alone and can have but little waste: bar by bar it is settled whether it is one of these, and what it then holds.
 * The whole pieces left go into the bars with parts, largest first, and then the parts themselves (`part-placement.ts`).
 */
export class JoinedSearch {
  private readonly kerf: number;
  private readonly budget: WorkBudget;
  private readonly sizes: readonly number[];
  private readonly left: number[];
  private readonly items: readonly JoinedItem[];
  private readonly partCount: number;
  private readonly leastPart: number;
  /** Longest first. */
  private readonly order: readonly number[];
  private readonly rooms: readonly number[];
  private readonly wholeKindsByBar: number[][];
  private readonly failed = new Set<string>();
  private waste: number;

  constructor(group: CutGroup, recipe: Recipe, roomsQuanta: readonly number[], budget: WorkBudget) {
    this.kerf = group.kerfQuanta;
    this.budget = budget;
    this.sizes = group.pieces.map((piece) => loadQuanta(piece, 0, this.kerf));
    this.left = group.pieces.map((_, kindIndex) => recipe[kindIndex]?.[0] ?? 0);
    this.items = group.pieces
      .flatMap((piece, kindIndex) => itemsOf(piece, kindIndex, recipe[kindIndex] ?? []))
      .toSorted((a, b) => b.leastPartsQuanta.length - a.leastPartsQuanta.length);
    this.partCount = this.items.reduce((sum, { leastPartsQuanta }) => sum + leastPartsQuanta.length, 0);
    this.leastPart = Math.min(...this.items.flatMap(({ leastPartsQuanta }) => leastPartsQuanta)) + this.kerf;
    this.rooms = roomsQuanta;
    this.order = [...roomsQuanta.keys()].toSorted((a, b) => (roomsQuanta[b] ?? 0) - (roomsQuanta[a] ?? 0));
    this.wholeKindsByBar = roomsQuanta.map(() => []);
    const wholeLoad = this.left.reduce((sum, count, kindIndex) => sum + count * (this.sizes[kindIndex] ?? 0), 0);
    const joinedLoad = this.items.reduce(
      (sum, { piece, leastPartsQuanta }) => sum + loadQuanta(piece, leastPartsQuanta.length - 1, this.kerf),
      0,
    );
    this.waste = roomsQuanta.reduce((sum, room) => sum + room, 0) - wholeLoad - joinedLoad;
  }

  find(): JoinedFound | null {
    return this.waste < 0 ? null : this.settleBar(0, []);
  }

  /** Bars from `place` on in the order are not settled yet; `forParts` are those that hold parts. */
  private settleBar(placeIndex: number, forParts: readonly number[]): JoinedFound | null {
    if (!this.budget.spend()) return null;
    const barIndex = this.order[placeIndex];
    if (barIndex === undefined) return this.fillWithParts(forParts);
    const room = this.rooms[barIndex] ?? 0;
    const key = `${placeIndex} ${this.left.join(' ')} ${forParts.map((of) => this.rooms[of]).join(' ')}`;
    if (this.failed.has(key)) return null;
    if (forParts.length < this.partCount && room >= this.leastPart) {
      const found = this.settleBar(placeIndex + 1, [...forParts, barIndex]);
      if (found !== null || this.budget.isSpent) return found;
    }
    const found = this.fillWithWholes({ placeIndex, barIndex, forParts }, 0, room);
    if (found === null && !this.budget.isSpent && this.failed.size < MOST_REMEMBERED) this.failed.add(key);
    return found;
  }

  /** Every choice of whole pieces that leaves no more than may be wasted, and that no larger piece could better. */
  private fillWithWholes(of: Settling, fromIndex: number, roomQuanta: number): JoinedFound | null {
    if (!this.budget.spend()) return null;
    let kindIndex = fromIndex;
    while (
      kindIndex < this.sizes.length &&
      ((this.left[kindIndex] ?? 0) === 0 || (this.sizes[kindIndex] ?? 0) > roomQuanta)
    )
      kindIndex++;
    if (kindIndex >= this.sizes.length) return this.closeBar(of, roomQuanta);
    const [available, size] = [this.left[kindIndex] ?? 0, this.sizes[kindIndex] ?? 1];
    const held = this.wholeKindsByBar[of.barIndex] ?? [];
    const before = held.length;
    for (let count = Math.min(available, Math.floor(roomQuanta / size)); count >= 0; count--) {
      this.left[kindIndex] = available - count;
      for (let one = 0; one < count; one++) held.push(kindIndex);
      const found = this.fillWithWholes(of, kindIndex + 1, roomQuanta - count * size);
      if (found !== null) return found;
      held.length = before;
      this.left[kindIndex] = available;
      if (this.budget.isSpent) return null;
    }
    return null;
  }

  private closeBar({ placeIndex, barIndex, forParts }: Settling, roomQuanta: number): JoinedFound | null {
    if (roomQuanta > this.waste || this.couldHoldMore(this.wholeKindsByBar[barIndex] ?? [], roomQuanta)) return null;
    this.waste -= roomQuanta;
    const found = this.settleBar(placeIndex + 1, forParts);
    this.waste += roomQuanta;
    return found;
  }

  /** Whether a piece left goes in still, or in place of a smaller one: it leaves more room where it comes from. */
  private couldHoldMore(held: readonly number[], roomQuanta: number): boolean {
    return this.left.some((count, kindIndex) => {
      if (count === 0) return false;
      const size = this.sizes[kindIndex] ?? 0;
      return (
        size <= roomQuanta ||
        held.some((own) => (this.sizes[own] ?? 0) < size && size - (this.sizes[own] ?? 0) <= roomQuanta)
      );
    });
  }

  /** The whole pieces left and all parts into the bars for parts. */
  private fillWithParts(forParts: readonly number[]): JoinedFound | null {
    const wholes = this.left.flatMap((count, kindIndex) => Array.from({ length: count }, () => kindIndex));
    const rooms = forParts.map((barIndex) => this.rooms[barIndex] ?? 0);
    return this.placeWhole({ wholes, rooms, forParts, failed: new Set() }, 0);
  }

  private placeWhole(of: PartFilling, index: number): JoinedFound | null {
    if (!this.budget.spend()) return null;
    const kindIndex = of.wholes[index];
    if (kindIndex === undefined) return this.placeParts(of);
    const size = this.sizes[kindIndex] ?? 0;
    const key = `${index} ${of.rooms.toSorted((a, b) => a - b).join(' ')}`;
    if (of.failed.has(key)) return null;
    const tried = new Set<number>();
    for (const [placeIndex, room] of of.rooms.entries()) {
      // A bar for parts keeps room for one.
      if (room < size + this.leastPart || tried.has(room)) continue;
      tried.add(room);
      const barIndex = of.forParts[placeIndex] ?? 0;
      of.rooms[placeIndex] = room - size;
      this.wholeKindsByBar[barIndex]?.push(kindIndex);
      const found = this.placeWhole(of, index + 1);
      if (found !== null) return found;
      this.wholeKindsByBar[barIndex]?.pop();
      of.rooms[placeIndex] = room;
      if (this.budget.isSpent) return null;
    }
    of.failed.add(key);
    return null;
  }

  private placeParts({ rooms, forParts }: PartFilling): JoinedFound | null {
    const found = new PartPlacement(this.items, rooms, this.kerf, this.budget).find();
    if (found === null) return null;
    return {
      wholeKindsByBar: this.wholeKindsByBar.map((kinds) => [...kinds]),
      joined: found.joined.map((piece) => ({
        ...piece,
        barIndexes: piece.barIndexes.map((placeIndex) => forParts[placeIndex] ?? 0),
      })),
      partsQuanta: found.partsQuanta,
    };
  }
}

interface Settling {
  readonly placeIndex: number;
  readonly barIndex: number;
  readonly forParts: readonly number[];
}

interface PartFilling {
  readonly wholes: readonly number[];
  readonly rooms: number[];
  readonly forParts: readonly number[];
  readonly failed: Set<string>;
}

function itemsOf(piece: PieceKind, pieceKindIndex: number, counts: readonly number[]): readonly JoinedItem[] {
  return counts.flatMap((count, jointCount) =>
    jointCount === 0 ? [] : Array.from({ length: count }, () => itemOf(piece, pieceKindIndex, jointCount)),
  );
}
