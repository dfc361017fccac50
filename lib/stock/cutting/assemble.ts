/** From layouts in whole steps to bars, marks and joints in millimetres, with ids. */
import type { CutGroup } from './cut-group.ts';
import type { PlannedBar, PlannedCut, PlannedJoinedPiece } from './planned.ts';
import type { CutRequest, WantedPiece } from './cut-request.ts';
import { leftOverQuanta, type LaidBar, type LaidPart } from './layout.ts';
import type { GroupSolution } from './solve-group.ts';

/** Shorter than this it is scrap, not stock; our default. */
export const SHORTEST_USEFUL_MM = 300;

/** Rid of what binary fractions add to hundredths. */
export const roundedMm = (valueMm: number): number => Math.round(valueMm * 1000) / 1000;

export interface Assembled {
  readonly bars: readonly PlannedBar[];
  readonly joined: readonly PlannedJoinedPiece[];
  /** In the order of the request. */
  readonly madeIds: readonly string[];
}

/** A piece of the request by its number, such as the second of `batten`. */
interface NumberedPiece {
  readonly piece: WantedPiece;
  readonly pieceIndex: number;
  readonly number: number;
}

const idOf = ({ piece, number }: NumberedPiece): string => `${piece.id}#${number}`;

/** All groups together, bars in the order of the groups, pieces numbered from the first of their line. */
export function assemble(
  request: CutRequest,
  solved: readonly { readonly group: CutGroup; readonly solution: GroupSolution }[],
): Assembled {
  const parts = solved.map(({ group, solution }) => assembleGroup(request, group, solution));
  const made = parts
    .flatMap((part) => part.made)
    .toSorted((a, b) => a.pieceIndex - b.pieceIndex || a.number - b.number);
  return {
    bars: parts.flatMap((part) => part.bars),
    joined: parts.flatMap((part) => part.joined),
    madeIds: made.map(idOf),
  };
}

function assembleGroup(
  request: CutRequest,
  group: CutGroup,
  { layout }: GroupSolution,
): { bars: readonly PlannedBar[]; joined: readonly PlannedJoinedPiece[]; made: readonly NumberedPiece[] } {
  const nextPiece = numberedPieces(request, group);
  const made: NumberedPiece[] = [];
  const take = (kindIndex: number): NumberedPiece => {
    const piece = nextPiece(kindIndex);
    made.push(piece);
    return piece;
  };
  const joinedPieces = layout.joined.map(({ pieceKindIndex }) => take(pieceKindIndex));
  const nextBar = numberedBars(request, group);
  const laid = layout.bars
    .toSorted((a, b) => a.barKindIndex - b.barKindIndex)
    .map((bar) => ({ bar, ...nextBar(bar.barKindIndex) }));
  const bars = laid.map(({ bar, barId, stockId }): PlannedBar => {
    const leftOverMm = roundedMm(leftOverQuanta(group, bar) * group.stepMm);
    return {
      barId,
      stockId,
      diameterMm: group.diameterMm,
      lengthMm: roundedMm((group.bars[bar.barKindIndex]?.lengthQuanta ?? 0) * group.stepMm),
      cuts: cutsOf(
        group,
        bar,
        (part) =>
          part.joinedIndex === null
            ? take(part.pieceKindIndex)
            : (joinedPieces[part.joinedIndex] ?? take(part.pieceKindIndex)),
        layout.joined.map(({ partsQuanta }) => partsQuanta.length),
      ),
      leftOverMm,
      isLeftOverUseful: leftOverMm >= SHORTEST_USEFUL_MM,
    };
  });
  const joined = layout.joined.map(({ partsQuanta }, index) => {
    const numbered = joinedPieces[index];
    if (numbered === undefined) throw new Error('a joined piece without a number');
    const barIds = partsQuanta.map((_, partIndex) => barOfPart(laid, index, partIndex));
    return joinedPiece(
      numbered,
      partsQuanta.map((part) => part * group.stepMm),
      barIds,
    );
  });
  return { bars, joined, made };
}

/** Longest first, so that a slip of the saw is found while there is still something to cut it from. */
function cutsOf(
  group: CutGroup,
  { parts }: LaidBar,
  pieceOf: (part: LaidPart) => NumberedPiece,
  partCounts: readonly number[],
): readonly PlannedCut[] {
  let fromQuanta = 0;
  return parts
    .toSorted((a, b) => b.lengthQuanta - a.lengthQuanta)
    .map((part): PlannedCut => {
      const toQuanta = fromQuanta + part.lengthQuanta;
      const cut = {
        pieceId: idOf(pieceOf(part)),
        partNumber: part.partIndex + 1,
        partCount: part.joinedIndex === null ? 1 : (partCounts[part.joinedIndex] ?? 1),
        fromMm: roundedMm(fromQuanta * group.stepMm),
        toMm: roundedMm(toQuanta * group.stepMm),
        lengthMm: roundedMm(part.lengthQuanta * group.stepMm),
      };
      fromQuanta = toQuanta + group.kerfQuanta;
      return cut;
    });
}

function barOfPart(
  laid: readonly { readonly bar: LaidBar; readonly barId: string }[],
  joinedIndex: number,
  partIndex: number,
): string {
  const holds = (part: LaidPart): boolean => part.joinedIndex === joinedIndex && part.partIndex === partIndex;
  return laid.find(({ bar }) => bar.parts.some(holds))?.barId ?? '';
}

function joinedPiece(
  numbered: NumberedPiece,
  partsMm: readonly number[],
  barIds: readonly string[],
): PlannedJoinedPiece {
  const { piece } = numbered;
  const wholeMm = piece.lengthMm + piece.endAllowanceMm;
  // As cut: what the parts are longer than the piece, shared by the joints.
  const overlapMm = (partsMm.reduce((sum, partMm) => sum + partMm, 0) - wholeMm) / Math.max(1, partsMm.length - 1);
  let endMm = 0;
  const joints = partsMm.slice(0, -1).map((partMm, index) => {
    endMm += partMm - (index === 0 ? 0 : overlapMm);
    return { fromMm: roundedMm(endMm - overlapMm), toMm: roundedMm(endMm) };
  });
  return {
    pieceId: idOf(numbered),
    diameterMm: piece.diameterMm,
    lengthMm: piece.lengthMm,
    endAllowanceMm: piece.endAllowanceMm,
    overlapMm: roundedMm(overlapMm),
    parts: partsMm.map((partMm, index) => ({ barId: barIds[index] ?? '', lengthMm: roundedMm(partMm) })),
    joints,
  };
}

/** Hands out the pieces of a kind one after another. */
function numberedPieces(request: CutRequest, { pieces }: CutGroup): (kindIndex: number) => NumberedPiece {
  const taken = pieces.map(() => 0);
  return (kindIndex) => {
    const place = taken[kindIndex] ?? 0;
    taken[kindIndex] = place + 1;
    const indexes = pieces[kindIndex]?.pieceIndexes ?? [];
    const pieceIndex = indexes[place] ?? -1;
    const piece = request.pieces[pieceIndex];
    if (piece === undefined) throw new Error('more pieces made than wanted');
    return { piece, pieceIndex, number: place - indexes.indexOf(pieceIndex) + 1 };
  };
}

/** Hands out the bars of a kind one after another, in the order of the stock. */
function numberedBars(
  request: CutRequest,
  group: CutGroup,
): (barKindIndex: number) => { readonly barId: string; readonly stockId: string } {
  const ids = group.bars.map(({ stockIndexes }) =>
    stockIndexes.flatMap((index) => {
      const line = request.stock[index];
      return line === undefined
        ? []
        : Array.from({ length: line.count }, (_, k) => ({ barId: `${line.id}#${k + 1}`, stockId: line.id }));
    }),
  );
  const taken = ids.map(() => 0);
  return (barKindIndex) => {
    const place = taken[barKindIndex] ?? 0;
    taken[barKindIndex] = place + 1;
    const bar = ids[barKindIndex]?.[place];
    if (bar === undefined) throw new Error('more bars cut than there are');
    return bar;
  };
}
