/** Where the names of corners, battens and reefs stand. */
import type { Counted, DamageReport } from '../../lib/sail/index.ts';
import { pathOf, SAIL_BOX, type SailFrame } from './sail-frame.ts';
import { GAP_PX, HALF_TEXT_PX, type Labelled, LINE_PX, type SailLabel, TEXT_PX } from './sail-label.ts';
import { spreadLabels } from './spread-labels.ts';

/** `3↓ 4↑`: 3rd down from the head, 4th up from the foot. */
const downUp = ({ itsNumber, otherNumber }: Counted): string => `${itsNumber}↓ ${otherNumber}↑`;
const upDown = ({ itsNumber, otherNumber }: Counted): string => `${itsNumber}↑ ${otherNumber}↓`;

/** Words at the corners and under the foot. */
export function cornerLabels({ shape }: DamageReport, { place }: SailFrame): readonly SailLabel[] {
  const { tack, clew, head } = shape.outline;
  const [tackAt, clewAt, headAt] = [place(tack), place(clew), place(head)];
  const word = (text: string, x: number, y: number, kind: SailLabel['kind']): SailLabel => ({
    text,
    x,
    y,
    anchor: 'middle',
    sizePx: TEXT_PX,
    kind,
  });
  const footY = Math.max(tackAt.y, clewAt.y) + 18;
  return [
    // Beginning at the luff: names before the luff end there.
    { ...word('head', headAt.x - 4, headAt.y - 10, 'corner'), anchor: 'start' },
    word('tack', tackAt.x - 4, footY, 'corner'),
    word('foot', (tackAt.x + clewAt.x) / 2, footY, 'edge'),
    { ...word('clew', Math.max(clewAt.x, tackAt.x + 76), Math.max(clewAt.y, footY - 4) + 4, 'corner') },
  ];
}

/** With more battens and reefs than these there is no room for their states: the style of their lines tells. */
const MOST_WITH_STATE = 14;

/** Battens, reefs and the word luff, in one column before the luff. */
export function luffLabels({ shape }: DamageReport, frame: SailFrame): Labelled {
  const { outline, battens, reefs, sail } = shape;
  const hasRoom = battens.length + reefs.length <= MOST_WITH_STATE;
  const wanted = [
    ...battens.map(({ count, state, line }) => ({
      lines: [`batten ${downUp(count)}`, ...(state === 'whole' || !hasRoom ? [] : [state])],
      at: frame.place(line.from),
      kind: 'batten' as const,
    })),
    ...reefs.map(({ count, line }) => ({
      lines: [`reef ${upDown(count)}`, ...(sail.reefs?.set === count.itsNumber && hasRoom ? ['is in'] : [])],
      at: frame.place(line.from),
      kind: 'reef' as const,
    })),
    {
      lines: ['luff'],
      at: frame.place({ xM: outline.head.xM * 0.62, yM: outline.head.yM * 0.62 }),
      kind: 'edge' as const,
    },
  ];
  const mostLines = Math.max(...wanted.map(({ lines }) => lines.length));
  const heights = spreadLabels(
    wanted.map(({ at }) => at.y),
    { gapPx: mostLines * LINE_PX + 1, fromPx: SAIL_BOX.topPx, toPx: SAIL_BOX.bottomPx - LINE_PX },
  );
  const parts = wanted.map(({ lines, at, kind }, index) => {
    const y = heights[index] ?? at.y;
    const x = Math.min(...[-6, 18].map((off) => frame.edgesAt(y + off).luffPx)) - GAP_PX;
    return {
      labels: lines.map((text, row): SailLabel => ({
        text,
        x,
        y: y + HALF_TEXT_PX + row * LINE_PX,
        anchor: 'end',
        sizePx: TEXT_PX,
        kind,
      })),
      leader: kind === 'edge' ? null : pathOf([{ x: x + 2, y }, at]),
    };
  });
  return {
    labels: parts.flatMap(({ labels }) => labels),
    leaders: parts.flatMap(({ leader }) => (leader === null ? [] : [leader])),
  };
}
