import type { CutGroup, PieceKind } from './cut-group.ts';
import { decide } from './decide.ts';
import type { BarSlot } from './layout.ts';
import { loadQuanta } from './recipes.ts';
import { WorkBudget } from './work-budget.ts';

const ALONE_STEPS = 20_000;

/**
 * Fewest joints with which one piece of a kind can be made when all bars are there for it alone; null: not at all.
 *
 * @param slots longest first
 * @param mostJointCount what is allowed, or more to see what would be needed
 */
export function leastJointsAlone(
  group: CutGroup,
  kindIndex: number,
  slots: readonly BarSlot[],
  mostJointCount: number,
): number | null {
  const piece = group.pieces[kindIndex];
  if (piece === undefined) return null;
  if (loadQuanta(piece, 0, group.kerfQuanta) <= (slots[0]?.roomQuanta ?? 0)) return 0;
  const one: PieceKind = { ...piece, count: 1, maxJoinCount: mostJointCount, valueWeight: 1 };
  const alone: CutGroup = { ...group, pieces: [one] };
  // One piece cannot use more bars than it has parts, and of those the longest do.
  const longest = slots.slice(0, mostJointCount + 1);
  for (let jointCount = 1; jointCount <= mostJointCount; jointCount++) {
    const question = { slots: longest, madeWeight: 1, jointCount, leastLoadQuanta: 0 };
    if (decide(alone, question, [0], new WorkBudget(ALONE_STEPS)).kind === 'possible') return jointCount;
  }
  return null;
}
