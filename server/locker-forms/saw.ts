import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import {
  barsOf,
  type CutPlan,
  type CuttingFile,
  itemKey,
  type Locker,
  LOCKER_ITEM_DEFAULTS,
  type LockerItem,
  PIECES,
} from '../../lib/stock/index.ts';
import { withLocker } from './change-locker.ts';

type PlannedBar = CutPlan['bars'][number];

/**
 * The locker once a plan is sawn: bars that are cut go out, left-overs worth keeping come in, to the millimetre below. A
 * line of which none is left and none is to be kept goes.
 */
export function lockerAfterSawing(locker: Locker, plan: CutPlan): Locker {
  const left = locker.items.flatMap((line) => {
    const cutCount = plan.bars.filter(({ stockId }) => stockId === stockIdOf(line)).length;
    if (cutCount === 0) return [line];
    const onBoardAmount = line.onBoardAmount - cutCount;
    return onBoardAmount === 0 && line.keepAmount === 0 ? [] : [{ ...line, onBoardAmount }];
  });
  const offCuts = plan.bars.filter(({ isLeftOverUseful }) => isLeftOverUseful);
  return {
    items: offCuts.reduce<readonly LockerItem[]>((items, bar) => {
      const of = locker.items.find((line) => stockIdOf(line) === bar.stockId);
      return of === undefined ? items : withOffCut(items, bar, of);
    }, left),
  };
}

/** Name of a line in a cut plan; null: nothing is cut from it. */
const stockIdOf = (line: LockerItem): string | null => barsOf({ items: [line] })[0]?.id ?? null;

/** One left-over more, with others of its item and size. */
function withOffCut(items: readonly LockerItem[], { leftOverMm }: PlannedBar, of: LockerItem): readonly LockerItem[] {
  const lengthMm = Math.floor(leftOverMm);
  const same = items.find(
    (line) =>
      itemKey(line.item) === itemKey(of.item) && line.lengthMm === lengthMm && line.diameterMm === of.diameterMm,
  );
  if (same !== undefined)
    return items.map((line) => (line === same ? { ...line, onBoardAmount: line.onBoardAmount + 1 } : line));
  const { item, place, diameterMm } = of;
  const offCut = { item, place, diameterMm, lengthMm, kind: 'bar', unit: PIECES, onBoardAmount: 1 } as const;
  return [...items, { ...LOCKER_ITEM_DEFAULTS, ...offCut }];
}

/** How many of a piece a plan makes. */
export const madeCountOf = ({ madeIds }: Pick<CutPlan, 'madeIds'>, pieceId: string): number =>
  madeIds.filter((id) => id.slice(0, id.lastIndexOf('#')) === pieceId).length;

/** What is still wanted once a plan is sawn; null: nothing. */
function cuttingAfterSawing(cutting: CuttingFile, plan: CutPlan): CuttingFile | null {
  const pieces = cutting.pieces.flatMap((piece) => {
    const madeCount = madeCountOf(plan, piece.id);
    const leftCount = (piece.count ?? 1) - madeCount;
    if (madeCount === 0) return [piece];
    return leftCount > 0 ? [{ ...piece, count: leftCount }] : [];
  });
  return pieces.length === 0 ? null : { ...cutting, pieces };
}

/** The passage once a plan is sawn: its locker, and without the pieces that are made. */
export function withSawn(file: PassageFile, { locker, cutting }: Passage, plan: CutPlan): Result<PassageFile> {
  if (cutting === null || plan.bars.length === 0) return failed(nothingToSaw);
  const { cutting: _, ...others } = withLocker(file, locker, lockerAfterSawing(locker, plan));
  const left = cuttingAfterSawing(cutting, plan);
  return ok(left === null ? others : { ...others, cutting: left });
}

const nothingToSaw: Problem = {
  code: 'cut.nothing-to-saw',
  where: 'cutting',
  what: 'There is nothing to saw: no wanted piece can be made of the bars in the locker.',
  expected: 'a piece that can be cut',
  remedy: 'Look at the cut sheet: it says what bar would do.',
};
