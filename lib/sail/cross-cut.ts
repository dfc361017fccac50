/** Panels of a cross-cut sail: of equal width along the leech, seams square to the straight leech. */
import type { SailOutline } from './outline.ts';
import type { Panel, Panels } from './panel.ts';
import { dot, leftOf, minus, plus, times, unitOf, type PointM, type SegmentM } from './point.ts';
import { leftPart, rightPart, segmentInside, type LineM } from './polygon.ts';

interface Leech {
  readonly up: PointM;
  readonly widthM: number;
}

const leechOf = ({ clew, head, leechM }: SailOutline, panelCount: number): Leech => ({
  up: unitOf(minus(head, clew)),
  widthM: leechM / panelCount,
});

/** The line square to the leech at a height along it, toward the luff. */
const squareAt = ({ clew }: SailOutline, { up }: Leech, alongM: number): LineM => ({
  at: plus(clew, times(up, alongM)),
  toward: leftOf(up),
});

export function crossCutPanels(outline: SailOutline, panelCount: number): Panels {
  const leech = leechOf(outline, panelCount);
  const lineAt = (widthsCount: number): LineM => squareAt(outline, leech, widthsCount * leech.widthM);
  const acrossAt = (widthsCount: number): SegmentM => acrossSail(outline, lineAt(widthsCount));
  const seamLines = Array.from({ length: panelCount - 1 }, (_, index) => acrossAt(index + 1));
  return {
    panels: Array.from({ length: panelCount }, (_, index): Panel => {
      const above = index === 0 ? outline.edge : rightPart(outline.edge, lineAt(index));
      return {
        panelNumber: index + 1,
        corner: null,
        region: index === panelCount - 1 ? above : leftPart(above, lineAt(index + 1)),
        middle: acrossAt(index + 0.5),
        toNext: leech.up,
        seamBefore: seamLines[index - 1] ?? null,
        seamNext: seamLines[index] ?? null,
      };
    }),
    seams: seamLines.map((line, index) => ({ line, panelNumbers: [index + 1, index + 2], corners: null })),
  };
}

/** From luff or foot to the leech. */
function acrossSail(outline: SailOutline, line: LineM): SegmentM {
  const inside = segmentInside(outline.edge, line);
  if (inside === null) throw new Error('a seam passes by its sail');
  return { from: inside.to, to: inside.from };
}

/** The panel that reaches the tack, where a count up the luff begins. */
export function panelAtTack(outline: SailOutline, panelCount: number): number {
  const { up, widthM } = leechOf(outline, panelCount);
  const alongM = dot(minus(outline.tack, outline.clew), up);
  return Math.min(panelCount, Math.max(0, Math.floor(alongM / widthM)) + 1);
}
