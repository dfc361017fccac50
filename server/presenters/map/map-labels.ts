import { type MapFrame, pathOf, tenth } from './map-frame.ts';
import type { MapLabel, PxPoint } from './map-model.ts';

/** Something to name, and where it lies. */
export interface Named extends PxPoint {
  readonly text: string;
  readonly kind: 'job' | 'now';
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Size of the words on the map and the mean width of a character of it, both as drawn. */
const TEXT_PX = 12;
const CHARACTER_PX = 7.4;
/** Marks and arrows keep so much for themselves. */
const MARK_PX = 8;
const LEADER_PX = 2;
/** A label within this of its place needs no line to it. */
const NEAR_PX = 18;
const DISTANCES_PX = [14, 22, 32, 44, 58, 74, 92];
/** Right, then up and down, then left. */
const ANGLES_DEG = [-20, 20, -50, 50, -80, 80, -115, 115, -150, 150, 180];

/**
 * Sets a label to each place where it touches neither another label nor a mark, nearest first.
 *
 * @param taken marks that nothing may stand on
 * @param lines points along lines that no word may be drawn over
 * @returns labels in the order of the places, and lines to those that stand away; a label for which there is no room is
 *   left out: the table has it
 */
export function placedLabels(
  frame: MapFrame,
  named: readonly Named[],
  taken: readonly PxPoint[],
  lines: readonly PxPoint[] = [],
): { labels: MapLabel[]; leaders: string[] } {
  const used: Box[] = [
    ...taken.map((point) => around(point, MARK_PX)),
    ...lines.map((point) => around(point, LEADER_PX)),
  ];
  const labels: MapLabel[] = [];
  const leaders: string[] = [];
  for (const name of named) {
    const found = freePlace(frame, name, used);
    if (found === null) continue;
    used.push(found.box);
    labels.push(found.label);
    if (found.distancePx <= NEAR_PX) continue;
    const end = nearestIn(found.box, name);
    leaders.push(pathOf([name, end]));
    used.push(...between(name, end).map((point) => around(point, LEADER_PX)));
  }
  return { labels, leaders };
}

function freePlace(
  { inside }: MapFrame,
  name: Named,
  used: readonly Box[],
): { box: Box; label: MapLabel; distancePx: number } | null {
  const widthPx = name.text.length * CHARACTER_PX;
  for (const distancePx of DISTANCES_PX) {
    for (const angleDeg of ANGLES_DEG) {
      const angleRad = (angleDeg * Math.PI) / 180;
      const x = name.x + distancePx * Math.cos(angleRad);
      const y = name.y + distancePx * Math.sin(angleRad);
      const left = Math.abs(angleDeg) < 60 ? x : Math.abs(angleDeg) > 120 ? x - widthPx : x - widthPx / 2;
      const box = { left, right: left + widthPx, top: y - TEXT_PX / 2 - 1, bottom: y + TEXT_PX / 2 + 1 };
      if (!isWithin(box, inside) || used.some((other) => touch(box, other))) continue;
      const { text, kind } = name;
      return { box, label: { text, x: tenth(left), y: tenth(y + 4), anchor: 'start', kind }, distancePx };
    }
  }
  return null;
}

const nearestIn = (box: Box, { x, y }: PxPoint): PxPoint => ({
  x: Math.max(box.left, Math.min(box.right, x)),
  y: Math.max(box.top, Math.min(box.bottom, y)),
});

/** Points on a line, so near to one another that no word fits between them. */
export function between(from: PxPoint, to: PxPoint): PxPoint[] {
  const count = Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 6);
  return Array.from({ length: count + 1 }, (_, i) => {
    const share = count === 0 ? 0 : i / count;
    return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
  });
}

const around = ({ x, y }: PxPoint, px: number): Box => ({ left: x - px, right: x + px, top: y - px, bottom: y + px });

const isWithin = (box: Box, room: Box): boolean =>
  box.left >= room.left + 3 && box.right <= room.right - 3 && box.top >= room.top + 3 && box.bottom <= room.bottom - 3;

const touch = (a: Box, b: Box): boolean =>
  a.left < b.right + 3 && b.left < a.right + 3 && a.top < b.bottom + 1 && b.top < a.bottom + 1;
