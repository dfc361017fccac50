import type { JointWindow } from './joint-windows.ts';

/** A piece to be made of parts, with the bar of each part and the window of each joint settled. */
export interface PlacedPiece {
  readonly pieceKindIndex: number;
  readonly lengthQuanta: number;
  readonly overlapQuanta: number;
  readonly leastPartsQuanta: readonly number[];
  readonly barIndexes: readonly number[];
  readonly windows: readonly JointWindow[];
}

interface Edge {
  readonly toIndex: number;
  readonly backIndex: number;
  roomQuanta: number;
}

const SOURCE = 0;
const SINK = 1;

/**
 * Lengths of all parts, or null when there are none that fit the bars.
 *
 * The end of joint j flows from part j to part j + 1; a part takes what it adds from its bar; every joint swallows an
 * overlap, and the far end the length of the piece. With whole lower and upper bounds a flow is whole.
 *
 * @param roomsQuanta room of each bar for these parts, each with a kerf
 */
export function partLengths(
  placed: readonly PlacedPiece[],
  roomsQuanta: readonly number[],
  kerfQuanta: number,
): readonly (readonly number[])[] | null {
  const network = new Network();
  const bars = new Map<number, { readonly nodeIndex: number; roomQuanta: number }>();
  const supplies = placed.map((piece) => addPiece(network, piece, bars, { roomsQuanta, kerfQuanta }));
  if ([...bars.values()].some(({ roomQuanta }) => roomQuanta < 0)) return null;
  // What the lower bounds bring too much of must find a place; the bars then fill what is missing.
  if (!network.fillsSource()) return null;
  for (const { nodeIndex, roomQuanta } of bars.values()) network.connect(SOURCE, nodeIndex, roomQuanta);
  network.augmentAll();
  if (!network.fillsSink()) return null;
  return placed.map((piece, index) =>
    piece.leastPartsQuanta.map((leastQuanta, part) => leastQuanta + (supplies[index]?.[part]?.() ?? 0)),
  );
}

function addPiece(
  network: Network,
  piece: PlacedPiece,
  bars: Map<number, { readonly nodeIndex: number; roomQuanta: number }>,
  { roomsQuanta, kerfQuanta }: { readonly roomsQuanta: readonly number[]; readonly kerfQuanta: number },
): readonly (() => number)[] {
  const last = piece.barIndexes.length - 1;
  let before: { readonly nodeIndex: number; readonly window: JointWindow } | null = null;
  return piece.barIndexes.map((barIndex, part) => {
    const nodeIndex = network.addNode();
    const leastQuanta = piece.leastPartsQuanta[part] ?? 0;
    const bar = bars.get(barIndex) ?? { nodeIndex: network.addNode(), roomQuanta: roomsQuanta[barIndex] ?? 0 };
    bar.roomQuanta -= leastQuanta + kerfQuanta;
    bars.set(barIndex, bar);
    const ends = part === last ? piece.lengthQuanta : (piece.windows[part]?.leastQuanta ?? 0);
    const begins = before === null ? 0 : before.window.leastQuanta - piece.overlapQuanta;
    const excessQuanta = begins + leastQuanta - ends;
    if (excessQuanta > 0) network.connect(SOURCE, nodeIndex, excessQuanta);
    if (excessQuanta < 0) network.connect(nodeIndex, SINK, -excessQuanta);
    if (before !== null)
      network.connect(before.nodeIndex, nodeIndex, before.window.mostQuanta - before.window.leastQuanta);
    const window = piece.windows[part];
    before = window === undefined ? null : { nodeIndex, window };
    return network.connect(bar.nodeIndex, nodeIndex, Number.MAX_SAFE_INTEGER / 4);
  });
}

/** The smallest maximum-flow solver that does: the networks have a dozen nodes. */
class Network {
  private readonly edges: Edge[][] = [[], []];

  addNode(): number {
    return this.edges.push([]) - 1;
  }

  /** Adds an edge; what is returned tells how much flows along it. */
  connect(fromIndex: number, toIndex: number, roomQuanta: number): () => number {
    const forth: Edge = { toIndex, backIndex: this.edges[toIndex]?.length ?? 0, roomQuanta: roomQuanta };
    const backIndex: Edge = { toIndex: fromIndex, backIndex: this.edges[fromIndex]?.length ?? 0, roomQuanta: 0 };
    this.edges[fromIndex]?.push(forth);
    this.edges[toIndex]?.push(backIndex);
    return () => backIndex.roomQuanta;
  }

  augmentAll(): void {
    while (this.augment(SOURCE, Number.MAX_SAFE_INTEGER, new Set()) > 0);
  }

  /** Augments, and says whether all that the source has to give has gone. */
  fillsSource(): boolean {
    this.augmentAll();
    return this.edges[SOURCE]?.every(({ roomQuanta }) => roomQuanta === 0) ?? true;
  }

  /** Whether all that the sink asks for has come. */
  fillsSink(): boolean {
    return (this.edges[SINK] ?? []).every(
      ({ toIndex, backIndex }) => this.edges[toIndex]?.[backIndex]?.roomQuanta === 0,
    );
  }

  private augment(nodeIndex: number, mostQuanta: number, seen: Set<number>): number {
    if (nodeIndex === SINK) return mostQuanta;
    seen.add(nodeIndex);
    for (const edge of this.edges[nodeIndex] ?? []) {
      if (edge.roomQuanta === 0 || seen.has(edge.toIndex)) continue;
      const pushed = this.augment(edge.toIndex, Math.min(mostQuanta, edge.roomQuanta), seen);
      if (pushed === 0) continue;
      edge.roomQuanta -= pushed;
      const backIndex = this.edges[edge.toIndex]?.[edge.backIndex];
      if (backIndex !== undefined) backIndex.roomQuanta += pushed;
      return pushed;
    }
    return 0;
  }
}
