/** Every way to cut on a grid, tried one by one: slow, plain, and shares nothing with the planner. */
export interface PlainPiece {
  readonly length: number;
  readonly weight: number;
  readonly mostJoints: number;
  readonly overlap: number;
  readonly shortest: number;
  readonly zones: readonly (readonly [number, number])[];
}

export interface PlainProblem {
  readonly kerf: number;
  readonly bars: readonly number[];
  readonly pieces: readonly PlainPiece[];
  /** All lengths are multiples of it. */
  readonly grid: number;
}

/** Weight made, joints, bars opened, longest left-over of an opened bar. */
export type PlainScore = readonly [weight: number, joints: number, bars: number, leftOver: number];

interface Bar {
  readonly length: number;
  room: number;
  isOpen: boolean;
}

/** Best score by weight, then fewest joints, then fewest bars, then longest left-over. */
export function plainBest(problem: PlainProblem): PlainScore {
  const { kerf, grid, pieces } = problem;
  const bars: Bar[] = problem.bars.map((length) => ({ length, room: length + kerf, isOpen: false }));
  const seen = new Map<string, (readonly [number, number])[]>();
  let best: PlainScore = [0, 0, 0, 0];

  function finish(weight: number, joints: number): void {
    const open = bars.filter(({ isOpen }) => isOpen);
    const leftOver = Math.max(0, ...open.map(({ room }) => room - kerf));
    const score: PlainScore = [weight, joints, open.length, leftOver];
    if (isBetter(score, best)) best = score;
  }

  function isWorse(index: number, weight: number, joints: number): boolean {
    const key = [index, ...bars.map(({ length, room, isOpen }) => `${length}:${room}:${isOpen}`).toSorted()].join(' ');
    const before = seen.get(key) ?? [];
    if (before.some(([w, j]) => w >= weight && j <= joints)) return true;
    seen.set(key, [...before, [weight, joints]]);
    return false;
  }

  function next(index: number, weight: number, joints: number): void {
    if (isWorse(index, weight, joints)) return;
    const piece = pieces[index];
    if (piece === undefined) return finish(weight, joints);
    next(index + 1, weight, joints);
    cut(piece, { index, weight, joints }, [], 0);
  }

  /** Cuts the next part, whose beginning is at `begin` on the piece; `parts` were cut before. */
  function cut(
    piece: PlainPiece,
    so: { readonly index: number; readonly weight: number; readonly joints: number },
    parts: readonly number[],
    begin: number,
  ): void {
    for (const bar of bars) {
      const wasOpen = bar.isOpen;
      const most = Math.min(bar.room - kerf, piece.length - begin);
      for (let length = grid; length <= most; length += grid) {
        const end = begin + length;
        const isLast = end === piece.length;
        if (!isLast && (parts.length === piece.mostJoints || !isLegalJoint(piece, end))) continue;
        const all = [...parts, length];
        if (!areLongEnough(piece, all, isLast)) continue;
        bar.room -= length + kerf;
        bar.isOpen = true;
        if (isLast) next(so.index + 1, so.weight + piece.weight, so.joints + parts.length);
        else cut(piece, so, all, end - piece.overlap);
        bar.room += length + kerf;
        bar.isOpen = wasOpen;
      }
    }
  }

  next(0, 0, 0);
  return best;
}

/** A joint may touch a zone's edge, not enter it, and lies on the piece. */
const isLegalJoint = ({ overlap, zones }: PlainPiece, end: number): boolean =>
  end >= overlap && zones.every(([from, to]) => end <= from || end - overlap >= to);

/** Parts of a joined piece: none shorter than the shortest, joints beside one another. */
function areLongEnough({ shortest, overlap }: PlainPiece, parts: readonly number[], isLast: boolean): boolean {
  if (isLast && parts.length === 1) return true;
  const place = parts.length - 1;
  const isEnd = place === 0 || isLast;
  return (parts[place] ?? 0) >= Math.max(shortest, isEnd ? overlap : 2 * overlap);
}

function isBetter(score: PlainScore, than: PlainScore): boolean {
  if (score[0] !== than[0]) return score[0] > than[0];
  if (score[1] !== than[1]) return score[1] < than[1];
  return score[2] === than[2] ? score[3] > than[3] : score[2] < than[2];
}
