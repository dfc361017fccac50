import type { JointWindow } from './joint-windows.ts';
import { partLengths, type PlacedPiece } from './part-flow.ts';
import type { JoinedItem } from './recipes.ts';
import type { WorkBudget } from './work-budget.ts';

/** Joined pieces with the bar and the length of each part. */
export interface PlacedParts {
  readonly joined: readonly PlacedPiece[];
  readonly partsQuanta: readonly (readonly number[])[];
}

/** Checks of the flow cost as much as so many other steps. */
const FLOW_STEPS = 4;

/** Shortest and longest that a part can be. */
interface Range {
  readonly leastQuanta: number;
  readonly mostQuanta: number;
}

/**
 * Finds bars for the parts of joined pieces, piece by piece, and windows for their joints. Lengths stay open; whether there
 * are any is a flow (`part-flow.ts`), asked where pieces share a bar.
 */
export class PartPlacement {
  private readonly items: readonly JoinedItem[];
  private readonly rooms: readonly number[];
  private readonly kerf: number;
  private readonly wasteAllowed: number;
  private readonly budget: WorkBudget;
  /** Parts in each bar, what they take at their shortest and at their longest, kerfs counted. */
  private readonly partCounts: number[];
  private readonly leastTaken: number[];
  private readonly mostTaken: number[];
  private readonly placed: PlacedPiece[] = [];

  /** @param roomsQuanta room of each bar that whole pieces leave, for parts with a kerf each */
  constructor(items: readonly JoinedItem[], roomsQuanta: readonly number[], kerfQuanta: number, budget: WorkBudget) {
    this.items = items;
    this.rooms = roomsQuanta;
    this.kerf = kerfQuanta;
    this.budget = budget;
    this.partCounts = roomsQuanta.map(() => 0);
    this.leastTaken = roomsQuanta.map(() => 0);
    this.mostTaken = roomsQuanta.map(() => 0);
    const load = items.reduce((sum, { piece, leastPartsQuanta }) => {
      const jointCount = leastPartsQuanta.length - 1;
      return sum + piece.lengthQuanta + jointCount * piece.overlapQuanta + leastPartsQuanta.length * kerfQuanta;
    }, 0);
    this.wasteAllowed = roomsQuanta.reduce((sum, room) => sum + room, 0) - load;
  }

  find(): PlacedParts | null {
    return this.wastesTooMuch(0) ? null : this.placeItem(0);
  }

  private placeItem(index: number): PlacedParts | null {
    const item = this.items[index];
    return item === undefined ? this.settled() : this.placeParts(item, []);
  }

  private settled(): PlacedParts | null {
    const partsQuanta = partLengths(this.placed, this.rooms, this.kerf);
    return partsQuanta === null ? null : { joined: [...this.placed], partsQuanta };
  }

  /** Chooses the bar of the next part; two parts in a row come from different bars, or they would be one. */
  private placeParts(item: JoinedItem, bars: readonly number[]): PlacedParts | null {
    if (!this.budget.spend()) return null;
    const leastQuanta = item.leastPartsQuanta[bars.length];
    if (leastQuanta === undefined) return this.placeJoints({ item, bars, windows: [] }, [0, 0]);
    const size = leastQuanta + this.kerf;
    const freshRooms = new Set<number>();
    for (const [barIndex, room] of this.rooms.entries()) {
      if (barIndex === bars.at(-1) || room - (this.leastTaken[barIndex] ?? 0) < size) continue;
      if (this.partCounts[barIndex] === 0) {
        if (freshRooms.has(room)) continue;
        freshRooms.add(room);
      }
      this.take(barIndex, { leastQuanta, mostQuanta: 0 }, 1);
      const found = this.placeParts(item, [...bars, barIndex]);
      this.take(barIndex, { leastQuanta, mostQuanta: 0 }, -1);
      if (found !== null || this.budget.isSpent) return found;
    }
    return null;
  }

  private take(barIndex: number, { leastQuanta, mostQuanta }: Range, times: 1 | -1): void {
    this.partCounts[barIndex] = (this.partCounts[barIndex] ?? 0) + times;
    this.leastTaken[barIndex] = (this.leastTaken[barIndex] ?? 0) + times * (leastQuanta + this.kerf);
    this.mostTaken[barIndex] = (this.mostTaken[barIndex] ?? 0) + times * (mostQuanta + this.kerf);
  }

  /** Chooses the window of each joint; `reach` is where the joint before may end if its piece were alone. */
  private placeJoints(draft: Draft, reach: readonly [leastQuanta: number, mostQuanta: number]): PlacedParts | null {
    const { item, bars, windows } = draft;
    const part = windows.length;
    const begins = part === 0 ? 0 : item.piece.overlapQuanta;
    const leastPartQuanta = item.leastPartsQuanta[part] ?? 0;
    const barIndex = bars[part] ?? 0;
    const mostPartQuanta = (this.rooms[barIndex] ?? 0) - (this.leastTaken[barIndex] ?? 0) + leastPartQuanta;
    const [least, most] = [reach[0] - begins + leastPartQuanta, reach[1] - begins + mostPartQuanta];
    if (part === bars.length - 1) {
      const { lengthQuanta } = item.piece;
      return least <= lengthQuanta && lengthQuanta <= most ? this.placePiece(draft) : null;
    }
    for (const window of item.piece.windows) {
      const narrowed = {
        leastQuanta: Math.max(least, window.leastQuanta),
        mostQuanta: Math.min(most, window.mostQuanta),
      };
      if (narrowed.leastQuanta > narrowed.mostQuanta) continue;
      const next = { item, bars, windows: [...windows, window] };
      const found = this.placeJoints(next, [narrowed.leastQuanta, narrowed.mostQuanta]);
      if (found !== null || this.budget.isSpent) return found;
    }
    return null;
  }

  /** Goes on to the next piece if this one leaves the others room. */
  private placePiece(draft: Draft): PlacedParts | null {
    const { item, bars, windows } = draft;
    const ranges = partRanges(draft);
    for (const [part, barIndex] of bars.entries()) {
      this.take(barIndex, { leastQuanta: item.leastPartsQuanta[part] ?? 0, mostQuanta: 0 }, -1);
      this.take(barIndex, ranges[part] ?? NOTHING, 1);
    }
    this.placed.push({
      pieceKindIndex: item.pieceKindIndex,
      lengthQuanta: item.piece.lengthQuanta,
      overlapQuanta: item.piece.overlapQuanta,
      leastPartsQuanta: item.leastPartsQuanta,
      barIndexes: bars,
      windows,
    });
    const found = this.fits(bars) ? this.placeItem(this.placed.length) : null;
    if (found !== null) return found;
    this.placed.pop();
    for (const [part, barIndex] of bars.entries()) {
      this.take(barIndex, ranges[part] ?? NOTHING, -1);
      this.take(barIndex, { leastQuanta: item.leastPartsQuanta[part] ?? 0, mostQuanta: 0 }, 1);
    }
    return null;
  }

  private fits(bars: readonly number[]): boolean {
    if (bars.some((barIndex) => (this.leastTaken[barIndex] ?? 0) > (this.rooms[barIndex] ?? 0))) return false;
    if (this.wastesTooMuch(this.placed.length)) return false;
    // Bars of its own leave each part free: only where parts share a bar can pieces stand in each other's way.
    if (bars.every((barIndex) => this.partCounts[barIndex] === 1)) return true;
    return this.budget.spend(FLOW_STEPS) && partLengths(this.placed, this.rooms, this.kerf) !== null;
  }

  /**
   * Bars that no further part fits into waste what their parts cannot fill, and bars beyond the number of parts to come are
   * wasted whole.
   */
  private wastesTooMuch(placedCount: number): boolean {
    let [leastSize, toComeCount] = [Infinity, 0];
    for (let index = placedCount; index < this.items.length; index++) {
      const parts = this.items[index]?.leastPartsQuanta ?? [];
      toComeCount += parts.length;
      leastSize = Math.min(leastSize, ...parts);
    }
    leastSize += this.kerf;
    let wasted = 0;
    const open: number[] = [];
    for (const [barIndex, room] of this.rooms.entries()) {
      const unfillable = Math.max(0, room - (this.mostTaken[barIndex] ?? 0));
      if (room - (this.leastTaken[barIndex] ?? 0) < leastSize) wasted += unfillable;
      else if (unfillable > 0) open.push(unfillable);
      if (wasted > this.wasteAllowed) return true;
    }
    if (open.length > toComeCount)
      for (const unfillable of open.toSorted((a, b) => b - a).slice(toComeCount)) wasted += unfillable;
    return wasted > this.wasteAllowed;
  }
}

interface Draft {
  readonly item: JoinedItem;
  readonly bars: readonly number[];
  readonly windows: readonly JointWindow[];
}

const NOTHING: Range = { leastQuanta: 0, mostQuanta: 0 };

/** How short and how long each part can be with its joints in these windows. */
function partRanges({ item, windows }: Draft): readonly Range[] {
  const { lengthQuanta, overlapQuanta } = item.piece;
  const ends = [...windows, { leastQuanta: lengthQuanta, mostQuanta: lengthQuanta }];
  return ends.map((end, part) => {
    const before = part === 0 ? { leastQuanta: overlapQuanta, mostQuanta: overlapQuanta } : ends[part - 1];
    const least = end.leastQuanta - (before?.mostQuanta ?? 0) + overlapQuanta;
    return {
      leastQuanta: Math.max(item.leastPartsQuanta[part] ?? 0, least),
      mostQuanta: end.mostQuanta - (before?.leastQuanta ?? 0) + overlapQuanta,
    };
  });
}
