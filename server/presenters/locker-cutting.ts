import {
  type CutPlan,
  type CutRequest,
  cutSheet,
  type CuttingFile,
  lockerChanges,
  type SheetSection,
} from '../../lib/stock/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { lockerAfterSawing, madeCountOf } from '../locker-forms/index.ts';
import { type BarDrawing, barDrawing, joinedDrawing, longestDrawnMm } from './locker-bars.ts';
import { type ChangeView, changeViews } from './locker-words.ts';
import { timeTexts } from './time-texts.ts';

/** What is wanted cut, and the sheet to saw by. */
export interface CuttingView {
  readonly pieces: readonly PieceRow[];
  readonly kerf: Figure;
  /** What the plan comes to. */
  readonly summary: readonly string[];
  readonly bars: readonly DrawnSection[];
  readonly joined: readonly DrawnSection[];
  readonly notMade: readonly { readonly name: string; readonly href: string; readonly text: string }[];
  /** Left over, what to mind. */
  readonly rest: readonly SheetSection[];
  /** Pieces could be sawn. */
  readonly canBeSawn: boolean;
}

/** A figure in words, and whether it is the program's own. */
export interface Figure {
  readonly text: string;
  readonly isDefault: boolean;
}

export interface DrawnSection extends SheetSection {
  readonly drawing: BarDrawing;
}

export interface PieceRow {
  readonly href: string;
  readonly name: string;
  readonly size: string;
  /** How many of them the bars make. */
  readonly made: string;
  readonly isAllMade: boolean;
  readonly priority: Figure;
  readonly joins: readonly Figure[];
}

interface PassageCut {
  /** As the passage has it. */
  readonly cutting: CuttingFile;
  /** With every default filled in. */
  readonly request: CutRequest;
  readonly plan: CutPlan;
}

const pieceHref = (index: number): string => `/locker/pieces/${index}`;

export function cuttingView(cut: PassageCut): CuttingView {
  const { request, plan } = cut;
  const [summary, ...sections] = cutSheet(plan);
  const longestMm = longestDrawnMm(plan);
  const barSections = sections.slice(0, plan.bars.length);
  const joinedSections = sections.slice(plan.bars.length, plan.bars.length + plan.joined.length);
  return {
    pieces: request.pieces.map((_, index) => pieceRow(cut, index)),
    kerf: { text: `${request.kerfMm} mm`, isDefault: isDefault(request, 'kerfMm') },
    summary: summary?.lines ?? [],
    bars: plan.bars.map((bar, index) => ({
      heading: barSections[index]?.heading ?? '',
      lines: numbered(barSections[index]?.lines ?? [], bar.cuts.length),
      drawing: barDrawing(bar, longestMm),
    })),
    joined: plan.joined.map((joined, index) => ({
      heading: joinedSections[index]?.heading ?? '',
      lines: joinedSections[index]?.lines ?? [],
      drawing: joinedDrawing(joined, request, longestMm),
    })),
    notMade: notMadeViews(cut),
    rest: sections
      .slice(barSections.length + joinedSections.length)
      .filter(({ heading }) => !SAID_ELSEWHERE.has(heading)),
    canBeSawn: plan.bars.length > 0,
  };
}

/** They stand in words of the page: with the pieces, with a link to what is to be changed. */
const SAID_ELSEWHERE: ReadonlySet<string> = new Set(['Not made', 'Taken as default']);

/** The numbers of the drawing before the lines of the cuts. */
const numbered = (lines: readonly string[], cutCount: number): readonly string[] =>
  lines.map((line, index) => (index < cutCount ? `${index + 1}. ${line}` : line));

const isDefault = ({ defaultsUsed }: CutRequest, path: string): boolean =>
  defaultsUsed.some((line) => line.startsWith(`${path}: `));

function pieceRow({ cutting, request, plan }: PassageCut, index: number): PieceRow {
  const piece = request.pieces[index];
  if (piece === undefined) throw new Error('a piece without its line');
  const madeCount = madeCountOf(plan, piece.id);
  const at = (key: string): boolean => isDefault(request, `pieces[${index}].${key}`);
  return {
    href: pieceHref(index),
    name: piece.id,
    size: `${piece.lengthMm} mm long, ${piece.diameterMm} mm thick${
      piece.endAllowanceMm === 0 ? '' : `, cut ${piece.endAllowanceMm} mm longer`
    }`,
    made: `${madeCount} of ${piece.count}`,
    isAllMade: madeCount === piece.count,
    priority: { text: String(piece.priority), isDefault: cutting.pieces[index]?.priority === undefined },
    joins:
      piece.maxJoinCount === 0
        ? [{ text: 'no join', isDefault: false }]
        : [
            { text: `at most ${piece.maxJoinCount}`, isDefault: false },
            { text: `overlap ${piece.overlapMm} mm`, isDefault: at('overlapMm') },
            { text: `no part under ${piece.shortestPartMm} mm`, isDefault: at('shortestPartMm') },
            ...(piece.noJoinZonesMm.length === 0
              ? []
              : [
                  {
                    text: `none in ${piece.noJoinZonesMm.map(([fromMm, toMm]) => `${fromMm}–${toMm}`).join(', ')} mm`,
                    isDefault: false,
                  },
                ]),
          ],
  };
}

/** Pieces of one kind that are not made for one reason stand together. */
function notMadeViews({ request, plan }: PassageCut): CuttingView['notMade'] {
  return request.pieces.flatMap((piece, index) => {
    const own = plan.notMade.filter(({ pieceId }) => pieceId.slice(0, pieceId.lastIndexOf('#')) === piece.id);
    const [first] = own;
    if (first === undefined) return [];
    // The form has words for what the file has keys for.
    const remedy = first.remedy.replace(/\(maxJoins (\d+), /, '(');
    return [{ name: `${own.length} × ${piece.id}`, href: pieceHref(index), text: `${first.what} ${remedy}` }];
  });
}

/** What is different once the plan is sawn. */
export interface SawnView {
  readonly changes: readonly ChangeView[];
  /** Pieces no longer wanted, and those that still are. */
  readonly made: readonly string[];
  readonly stillWanted: readonly string[];
}

export function sawnView(passage: Passage, { request, plan }: PassageCut): SawnView {
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const counts = request.pieces.map((piece) => ({ piece, madeCount: madeCountOf(plan, piece.id) }));
  return {
    changes: changeViews(lockerChanges(passage.locker, lockerAfterSawing(passage.locker, plan)), times),
    made: counts.filter(({ madeCount }) => madeCount > 0).map(({ piece, madeCount }) => `${madeCount} × ${piece.id}`),
    stillWanted: counts
      .filter(({ piece, madeCount }) => madeCount < piece.count)
      .map(({ piece, madeCount }) => `${piece.count - madeCount} × ${piece.id}`),
  };
}
