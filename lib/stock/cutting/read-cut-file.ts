import { okUnless, type Result } from '../../result/index.ts';
import { parseJsonText, readShape } from '../../shape/index.ts';
import { joinLengthMm } from '../battens/joins.ts';
import { cutFile, type CutFile, type CuttingFile, type PieceFile } from './cut-file.ts';
import { cutProblems } from './cut-problems.ts';
import type { CutRequest, StockLine, WantedPiece } from './cut-request.ts';

/** A hand-held saw with a fine blade, with what the hand adds to it; common practice, no source. */
const DEFAULT_KERF_MM = 3;
/** As important as a job of the middle priority. */
const DEFAULT_PRIORITY = 5;
/** Parts that are shorter than two overlaps would be all joint. */
const SHORTEST_PART_IN_OVERLAPS = 2;
const MOST_CHARACTERS = 2_000_000;

/**
 * Reads a cut file: shape, ranges, what contradicts itself, defaults.
 *
 * @param text JSON
 * @param where name of the file, put before the path in every problem
 * @returns the request, or every problem found: `cut.*`
 */
export function readCutFile(text: string, where: string): Result<CutRequest> {
  const json = parseJsonText(text, {
    where,
    codeWord: 'cut',
    most: { characterCount: MOST_CHARACTERS, remedy: 'Leave out stock that is not needed.' },
  });
  if (!json.ok) return json;
  const file = readShape(cutFile, json.value, { where, path: [], codeWord: 'cut' });
  const problems = [...(file.ok ? [] : file.problems), ...cutProblems(json.value, where)];
  return okUnless(problems, () => {
    if (!file.ok) throw new Error('a problem was lost');
    return withDefaults(file.value);
  });
}

/** The request of a checked part of a passage, from bars there are. */
export const cutRequestOf = (cutting: CuttingFile, stock: readonly StockLine[]): CutRequest =>
  withDefaults({ ...cutting, stock: stock.map((line) => ({ ...line })) });

function withDefaults(file: CutFile): CutRequest {
  const defaultsUsed: string[] = [];
  const take = (path: string, givenMm: number | undefined, defaultMm: number): number => {
    if (givenMm === undefined) defaultsUsed.push(`${path}: ${defaultMm}`);
    return givenMm ?? defaultMm;
  };
  return {
    kerfMm: take('kerfMm', file.kerfMm, DEFAULT_KERF_MM),
    stock: file.stock.map((line): StockLine => ({ ...line, count: line.count ?? 1 })),
    pieces: file.pieces.map((piece, index) => wantedPiece(piece, `pieces[${index}]`, take)),
    defaultsUsed,
  };
}

type Take = (path: string, givenMm: number | undefined, defaultMm: number) => number;

function wantedPiece(piece: PieceFile, path: string, take: Take): WantedPiece {
  const maxJoinCount = piece.maxJoins ?? 0;
  const given = piece.overlapMm ?? (piece.overlapRatio === undefined ? undefined : overlapOf(piece));
  // Nobody needs to know how long joints would be that are not allowed.
  const takeForJoins: Take = maxJoinCount > 0 ? take : (_, givenMm, defaultMm) => givenMm ?? defaultMm;
  const overlapMm = takeForJoins(`${path}.overlapMm`, given, joinLengthMm('scarf', piece.diameterMm).mostMm);
  return {
    id: piece.id,
    lengthMm: piece.lengthMm,
    diameterMm: piece.diameterMm,
    count: piece.count ?? 1,
    priority: piece.priority ?? DEFAULT_PRIORITY,
    maxJoinCount,
    overlapMm,
    endAllowanceMm: piece.endAllowanceMm ?? 0,
    shortestPartMm: takeForJoins(`${path}.shortestPartMm`, piece.shortestPartMm, SHORTEST_PART_IN_OVERLAPS * overlapMm),
    noJoinZonesMm: piece.noJoinZonesMm ?? [],
  };
}

const overlapOf = ({ overlapRatio, diameterMm }: PieceFile): number =>
  Math.round((overlapRatio ?? 0) * diameterMm * 1e6) / 1e6;
