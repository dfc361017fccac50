import type { CutRequest, StockLine, WantedPiece } from './cut-request.ts';
import { jointWindows, type JointWindow } from './joint-windows.ts';

/** Bars of the same length. */
export interface BarKind {
  readonly lengthQuanta: number;
  readonly count: number;
  /** Lines of the stock, in order. */
  readonly stockIndexes: readonly number[];
}

/** Pieces that are alike in everything. */
export interface PieceKind {
  /** Places in the request, one entry for each piece wanted, in order. */
  readonly pieceIndexes: readonly number[];
  /** As cut: finished length and end allowance. */
  readonly lengthQuanta: number;
  readonly count: number;
  /** Priority and, far below it, one for the piece itself. */
  readonly valueWeight: number;
  readonly maxJoinCount: number;
  readonly overlapQuanta: number;
  readonly leastEndPartQuanta: number;
  readonly leastMiddlePartQuanta: number;
  readonly windows: readonly JointWindow[];
}

/**
 * Everything of one diameter in whole steps of the greatest common divisor of its lengths.
 *
 * Once it is settled which part comes from which bar, the ends of the joints are a flow in a network (`part-flow.ts`), and
 * with whole-numbered data such a flow has a best answer in whole numbers: nothing is lost by searching whole steps.
 */
export interface CutGroup {
  readonly diameterMm: number;
  readonly stepMm: number;
  readonly kerfQuanta: number;
  /** Longest first. */
  readonly bars: readonly BarKind[];
  /** Longest first. */
  readonly pieces: readonly PieceKind[];
}

/** Lengths are taken in hundredths of a millimetre. */
export const FINEST_PER_MM_COUNT = 100;
const finest = (valueMm: number): number => Math.round(valueMm * FINEST_PER_MM_COUNT);
const finestUp = (valueMm: number): number => Math.ceil(valueMm * FINEST_PER_MM_COUNT - 1e-6);

/** Diameters that agree to a hundredth of a millimetre are the same. */
export const isSameDiameter = (oneMm: number, otherMm: number): boolean => finest(oneMm) === finest(otherMm);

function gcd(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y > 0) [x, y] = [y, x % y];
  return x;
}

/** The request by diameter, thickest first; only diameters of which a piece is wanted. */
export function cutGroups(request: CutRequest): readonly CutGroup[] {
  const pieceCount = request.pieces.reduce((sum, { count }) => sum + count, 0);
  return [...new Set(request.pieces.map(({ diameterMm }) => finest(diameterMm)))]
    .toSorted((a, b) => b - a)
    .map((diameter) => {
      const ofDiameter = ({ diameterMm }: StockLine | WantedPiece): boolean => finest(diameterMm) === diameter;
      return groupOf(request, diameter / FINEST_PER_MM_COUNT, ofDiameter, pieceCount);
    });
}

function groupOf(
  request: CutRequest,
  diameterMm: number,
  belongs: (of: StockLine | WantedPiece) => boolean,
  pieceCount: number,
): CutGroup {
  const stepQuanta = stepOf(request.kerfMm, request.stock.filter(belongs), request.pieces.filter(belongs));
  const quanta = (valueMm: number): number => finest(valueMm) / stepQuanta;
  const pieces = request.pieces.flatMap((piece, index) =>
    belongs(piece) ? [pieceKind(piece, index, stepQuanta, pieceCount)] : [],
  );
  return {
    diameterMm,
    stepMm: stepQuanta / FINEST_PER_MM_COUNT,
    kerfQuanta: quanta(request.kerfMm),
    bars: mergedBars(
      request.stock.flatMap((line, index) =>
        belongs(line) && line.count > 0
          ? [{ lengthQuanta: quanta(line.lengthMm), count: line.count, stockIndexes: [index] }]
          : [],
      ),
    ),
    pieces: mergedPieces(pieces),
  };
}

function stepOf(kerfMm: number, stock: readonly StockLine[], pieces: readonly WantedPiece[]): number {
  const lengths = [
    finest(kerfMm),
    ...stock.map(({ lengthMm }) => finest(lengthMm)),
    ...pieces.flatMap((piece) => [
      finest(piece.lengthMm),
      finest(piece.endAllowanceMm),
      ...(piece.maxJoinCount === 0 ? [] : joinLengths(piece)),
    ]),
  ];
  return Math.max(1, lengths.reduce(gcd, 0));
}

const joinLengths = (piece: WantedPiece): readonly number[] => [
  finestUp(piece.overlapMm),
  finest(piece.shortestPartMm),
  ...piece.noJoinZonesMm.flat().map(finest),
];

function pieceKind(piece: WantedPiece, index: number, stepQuanta: number, pieceCount: number): PieceKind {
  const joins = piece.maxJoinCount > 0;
  const quanta = (valueMm: number): number => finest(valueMm) / stepQuanta;
  const overlapQuanta = joins ? finestUp(piece.overlapMm) / stepQuanta : 0;
  const lengthQuanta = quanta(piece.lengthMm) + quanta(piece.endAllowanceMm);
  const shortestQuanta = joins ? quanta(piece.shortestPartMm) : 0;
  // What is trimmed off carries no joint.
  const zones = [...piece.noJoinZonesMm, [piece.lengthMm, piece.lengthMm + piece.endAllowanceMm] as const];
  return {
    pieceIndexes: Array.from({ length: piece.count }, () => index),
    lengthQuanta,
    count: piece.count,
    valueWeight: piece.priority * (pieceCount + 1) + 1,
    maxJoinCount: piece.maxJoinCount,
    overlapQuanta,
    leastEndPartQuanta: Math.max(shortestQuanta, overlapQuanta),
    leastMiddlePartQuanta: Math.max(shortestQuanta, 2 * overlapQuanta),
    windows: joins
      ? jointWindows(
          lengthQuanta,
          overlapQuanta,
          zones.map(([fromMm, toMm]) => [quanta(fromMm), quanta(toMm)]),
        )
      : [],
  };
}

function mergedBars(bars: readonly BarKind[]): readonly BarKind[] {
  const byLength = new Map<number, BarKind>();
  for (const bar of bars) {
    const before = byLength.get(bar.lengthQuanta);
    byLength.set(bar.lengthQuanta, {
      ...bar,
      count: (before?.count ?? 0) + bar.count,
      stockIndexes: [...(before?.stockIndexes ?? []), ...bar.stockIndexes],
    });
  }
  return [...byLength.values()].toSorted((a, b) => b.lengthQuanta - a.lengthQuanta);
}

function mergedPieces(pieces: readonly PieceKind[]): readonly PieceKind[] {
  const byNature = new Map<string, PieceKind>();
  for (const piece of pieces) {
    const nature = JSON.stringify({ ...piece, pieceIndexes: [], count: 0 });
    const before = byNature.get(nature);
    byNature.set(nature, {
      ...piece,
      pieceIndexes: [...(before?.pieceIndexes ?? []), ...piece.pieceIndexes],
      count: (before?.count ?? 0) + piece.count,
    });
  }
  return [...byNature.values()].toSorted((a, b) => b.lengthQuanta - a.lengthQuanta || b.valueWeight - a.valueWeight);
}
