/** From metres on the sail to places of its drawing. */
import type { PointM, SailShape } from '../../lib/sail/index.ts';
import { tenth } from './plot.ts';

/** Width of the drawing, and the room of the sail in it [px]; labels stand left and right of it. */
export const WIDTH_PX = 460;
export const SAIL_BOX = { leftPx: 104, rightPx: 286, topPx: 34, bottomPx: 510 } as const;

export interface PlacePx {
  readonly x: number;
  readonly y: number;
}

export interface SailFrame {
  /** Pixels to the metre. */
  readonly pxPerM: number;
  readonly place: (point: PointM) => PlacePx;
  /** Fore and after edge of the sail at a height of the drawing, the nearest there is above and below it [px]. */
  readonly edgesAt: (y: number) => { readonly luffPx: number; readonly leechPx: number };
}

/** The sail as large as its box allows, its foot at the bottom of it. */
export function sailFrame({ outline }: SailShape): SailFrame {
  const xs = outline.edge.map(({ xM }) => xM);
  const ys = outline.edge.map(({ yM }) => yM);
  const [leftM, rightM] = [Math.min(...xs), Math.max(...xs)];
  const [lowM, highM] = [Math.min(...ys), Math.max(...ys)];
  const pxPerM = Math.min(
    (SAIL_BOX.rightPx - SAIL_BOX.leftPx) / (rightM - leftM),
    (SAIL_BOX.bottomPx - SAIL_BOX.topPx) / (highM - lowM),
  );
  const place = ({ xM, yM }: PointM): PlacePx => ({
    x: tenth(SAIL_BOX.leftPx + (xM - leftM) * pxPerM),
    y: tenth(SAIL_BOX.bottomPx - (yM - lowM) * pxPerM),
  });
  const edge = outline.edge.map(place);
  return { pxPerM, place, edgesAt: (y) => edgesAt(edge, y) };
}

function edgesAt(edge: readonly PlacePx[], y: number): { luffPx: number; leechPx: number } {
  const ys = edge.map((corner) => corner.y);
  const inside = Math.min(Math.max(...ys), Math.max(Math.min(...ys), y));
  const xs = edge.flatMap((from, index) => {
    const to = edge[(index + 1) % edge.length] ?? from;
    const isReached = Math.min(from.y, to.y) <= inside && inside <= Math.max(from.y, to.y);
    if (!isReached) return [];
    return from.y === to.y ? [from.x, to.x] : [from.x + ((to.x - from.x) * (inside - from.y)) / (to.y - from.y)];
  });
  return { luffPx: Math.min(...xs), leechPx: Math.max(...xs) };
}

/** `M x y L …`, closed or not. */
export const pathOf = (places: readonly PlacePx[], isClosed = false): string =>
  places.length === 0
    ? ''
    : `${places.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`).join('')}${isClosed ? 'Z' : ''}`;
