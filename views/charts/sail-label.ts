/** Words of a sail drawing and the room they take. */
import type { PointM } from '../../lib/sail/index.ts';
import { textWidthPx } from './label-rows.ts';
import type { SailFrame } from './sail-frame.ts';

export interface SailLabel {
  readonly text: string;
  readonly x: number;
  /** Of the foot of its letters. */
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly sizePx: number;
  readonly kind: 'corner' | 'edge' | 'panel' | 'panel torn' | 'batten' | 'reef' | 'tear' | 'tear-more' | 'key';
}

export interface Labelled {
  readonly labels: readonly SailLabel[];
  /** Paths from a label to what it names. */
  readonly leaders: readonly string[];
}

export const TEXT_PX = 12;
export const TEAR_PX = 14;
/** From the foot of the letters up to their middle. */
export const HALF_TEXT_PX = 4;
export const LINE_PX = 14;
export const GAP_PX = 8;

interface Box {
  readonly leftPx: number;
  readonly rightPx: number;
  readonly topPx: number;
  readonly bottomPx: number;
}

/** Room a label takes. */
export function labelBox({ text, x, y, anchor, sizePx }: SailLabel): Box {
  const widthPx = textWidthPx(text, sizePx);
  const leftPx = anchor === 'start' ? x : anchor === 'end' ? x - widthPx : x - widthPx / 2;
  return { leftPx, rightPx: leftPx + widthPx, topPx: y - sizePx * 0.8, bottomPx: y + sizePx * 0.22 };
}

export const boxesMeet = (a: Box, b: Box): boolean =>
  a.leftPx < b.rightPx && b.leftPx < a.rightPx && a.topPx < b.bottomPx && b.topPx < a.bottomPx;

export function isOnAnother(label: SailLabel, others: readonly SailLabel[]): boolean {
  const own = labelBox(label);
  return others.some((other) => boxesMeet(own, labelBox(other)));
}

/** Room a tear takes, teeth included. */
export function tearBox({ place }: SailFrame, line: { from: PointM; to: PointM }): Box {
  const [from, to] = [place(line.from), place(line.to)];
  return {
    leftPx: Math.min(from.x, to.x) - 3,
    rightPx: Math.max(from.x, to.x) + 3,
    topPx: Math.min(from.y, to.y) - 3,
    bottomPx: Math.max(from.y, to.y) + 3,
  };
}
