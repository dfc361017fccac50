/** Where length and direction of tears stand. */
import type { DamageReport } from '../../lib/sail/index.ts';
import { textWidthPx } from './label-rows.ts';
import { pathOf, SAIL_BOX, type PlacePx, type SailFrame, WIDTH_PX } from './sail-frame.ts';
import {
  GAP_PX,
  HALF_TEXT_PX,
  isOnAnother,
  labelBox,
  type Labelled,
  LINE_PX,
  type SailLabel,
  TEAR_PX,
  TEXT_PX,
} from './sail-label.ts';
import { spreadLabels } from './spread-labels.ts';

/** With more tears than these only lengths find room. */
const MOST_WITH_DIRECTION = 10;

const runWords = { across: 'across the load', aslant: 'aslant to load', along: 'along the load' } as const;

/** Length and direction of each tear in a column at the right edge; of many the length alone. */
export function tearLabels(report: DamageReport, frame: SailFrame, panels: readonly SailLabel[]): Labelled {
  const isCrowded = report.tears.length > MOST_WITH_DIRECTION;
  const middles = report.tears.map(({ tear }) => frame.place(between(tear.line)));
  const heights = spreadLabels(
    middles.map(({ y }) => y),
    {
      gapPx: isCrowded ? LINE_PX + 6 : 2 * LINE_PX + 10,
      fromPx: SAIL_BOX.topPx,
      toPx: SAIL_BOX.bottomPx - LINE_PX,
    },
  );
  const parts = report.tears.map((tear, index) => {
    const middle = middles[index] ?? { x: 0, y: 0 };
    return tearCallout(frame, panels, { lines: linesOf(tear, isCrowded), y: heights[index] ?? middle.y, middle });
  });
  return { labels: parts.flatMap(({ labels }) => labels), leaders: parts.map(({ leader }) => leader) };
}

const between = ({ from, to }: DamageReport['tears'][number]['tear']['line']): typeof from => ({
  xM: (from.xM + to.xM) / 2,
  yM: (from.yM + to.yM) / 2,
});

function linesOf({ tear, findings, mark }: DamageReport['tears'][number], isCrowded: boolean): readonly string[] {
  const load = findings.find((finding) => finding.code === 'tear.load');
  const length = `${mark === '' ? '' : `${mark}  `}${Number(tear.lengthM.toFixed(2))} m`;
  return isCrowded || load === undefined ? [length] : [length, runWords[load.runs]];
}

/** Places of the word along the leech, from the head down [share of its height], the best first. */
const LEECH_SHARES = [0.15, 0.2, 0.25, 0.3, 0.1, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9] as const;

/** The word leech, behind the panel numbers where there is room. */
export function leechLabel(
  { shape }: DamageReport,
  frame: SailFrame,
  taken: { panels: readonly SailLabel[]; all: readonly SailLabel[] },
): readonly SailLabel[] {
  const [headY, clewY] = [frame.place(shape.outline.head).y, frame.place(shape.outline.clew).y];
  const found = LEECH_SHARES.map((share): SailLabel => {
    const y = headY + (clewY - headY) * share;
    const x = columnEnd(frame, taken.panels, y) + GAP_PX;
    return { text: 'leech', x, y: y + HALF_TEXT_PX, anchor: 'start', sizePx: TEXT_PX, kind: 'edge' };
  }).find((label) => !isOnAnother(label, taken.all));
  return found === undefined ? [] : [found];
}

function tearCallout(
  frame: SailFrame,
  panels: readonly SailLabel[],
  { lines, y, middle }: { lines: readonly string[]; y: number; middle: PlacePx },
): { labels: readonly SailLabel[]; leader: string } {
  const widthPx = Math.max(...lines.map((text, row) => textWidthPx(text, row === 0 ? TEAR_PX : TEXT_PX)));
  const x = WIDTH_PX - 4 - widthPx;
  const gate = gateAt(frame, panels, (y + middle.y) / 2);
  return {
    labels: lines.map((text, row) => ({
      text,
      x,
      y: y + HALF_TEXT_PX + row * (LINE_PX + 1),
      anchor: 'start',
      sizePx: row === 0 ? TEAR_PX : TEXT_PX,
      kind: row === 0 ? 'tear' : 'tear-more',
    })),
    leader: pathOf([middle, ...gate, { x: x - 3, y }]),
  };
}

/** Right end of the column of panel numbers at a height. */
const columnEnd = (frame: SailFrame, panels: readonly SailLabel[], y: number): number =>
  Math.max(
    frame.edgesAt(y).leechPx,
    ...panels
      .filter((label) => label.anchor === 'start' && Math.abs(label.y - y) < 30)
      .map((label) => labelBox(label).rightPx),
  );

/** The way between two panel numbers, nearest to a height. */
function gateAt(frame: SailFrame, panels: readonly SailLabel[], y: number): readonly PlacePx[] {
  const middles = panels.filter(({ anchor }) => anchor === 'start').map((label) => label.y - HALF_TEXT_PX);
  const rows = middles.toSorted((a, b) => a - b);
  const gaps = rows.slice(1).map((row, index) => (row + (rows[index] ?? row)) / 2);
  const all = rows.length === 0 ? [] : [(rows[0] ?? 0) - 9, ...gaps, (rows.at(-1) ?? 0) + 9];
  const nearest = all.toSorted((a, b) => Math.abs(a - y) - Math.abs(b - y))[0];
  if (nearest === undefined) return [];
  const { leechPx } = frame.edgesAt(nearest);
  return [
    { x: leechPx + 3, y: nearest },
    { x: columnEnd(frame, panels, nearest) + 3, y: nearest },
  ];
}
