/** A sail drawing with every path and label in its place; `sail-drawing.tsx` turns it into SVG. */
import type { DamageReport, PointM, SegmentM } from '../../lib/sail/index.ts';
import { pathOf, SAIL_BOX, sailFrame, type PlacePx, type SailFrame, WIDTH_PX } from './sail-frame.ts';
import { type SailLabel, TEXT_PX } from './sail-label.ts';
import { cornerLabels, luffLabels } from './sail-labels.ts';
import { panelLabels } from './sail-panel-labels.ts';
import { leechLabel, tearLabels } from './sail-tear-labels.ts';

export interface SailShapePath {
  readonly kind:
    | 'outline'
    | 'lowered'
    | 'seam'
    | 'batten'
    | 'reef'
    | 'load'
    | 'may-lie'
    | 'tear-ground'
    | 'tear'
    | 'scale';
  /** Its state, where it has one: of a batten, or `set` of the reef that is in. */
  readonly state: string;
  readonly d: string;
}

export interface SailLayout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pxPerM: number;
  readonly paths: readonly SailShapePath[];
  readonly leaders: readonly string[];
  readonly tearLeaders: readonly string[];
  readonly labels: readonly SailLabel[];
}

const KEY_LINE_PX = 15;
/** A bar of the scale is at least this long. */
const LEAST_BAR_PX = 18;
const TOOTH_PX = 5;

export function sailLayout(report: DamageReport): SailLayout {
  const frame = sailFrame(report.shape);
  const corners = cornerLabels(report, frame);
  const luff = luffLabels(report, frame);
  const panels = panelLabels(report, frame, [...corners, ...luff.labels]);
  const tears = tearLabels(report, frame, panels);
  const named = [...corners, ...luff.labels, ...panels, ...tears.labels];
  const lowestPx = Math.max(...corners.map(({ y }) => y));
  const key = keyOf(report, frame, lowestPx + 26);
  return {
    widthPx: WIDTH_PX,
    heightPx: Math.max(SAIL_BOX.bottomPx, ...key.labels.map(({ y }) => y)) + 10,
    pxPerM: frame.pxPerM,
    paths: [...shapePaths(report, frame), ...tearPaths(report, frame), ...key.paths],
    leaders: luff.leaders,
    tearLeaders: tears.leaders,
    labels: [...named, ...leechLabel(report, frame, { panels, all: named }), ...key.labels],
  };
}

function shapePaths({ shape }: DamageReport, { place }: SailFrame): readonly SailShapePath[] {
  const line = ({ from, to }: SegmentM): string => pathOf([place(from), place(to)]);
  const area = (points: readonly PointM[]): string => pathOf(points.map(place), true);
  const path = (kind: SailShapePath['kind'], d: string, state = ''): SailShapePath => ({ kind, d, state });
  return [
    path('outline', area(shape.outline.edge)),
    ...(shape.lowered.length === 0 ? [] : [path('lowered', area(shape.lowered))]),
    ...shape.loadLines.map((points) => path('load', pathOf(points.map(place)))),
    ...shape.seams.map((seam) => path('seam', line(seam.line))),
    ...shape.reefs.map((reef) =>
      path('reef', line(reef.line), shape.sail.reefs?.set === reef.count.itsNumber ? 'set' : ''),
    ),
    ...shape.battens.map((batten) => path('batten', line(batten.line), batten.state)),
  ];
}

function tearPaths({ tears }: DamageReport, { place }: SailFrame): readonly SailShapePath[] {
  return tears.flatMap(({ tear }): readonly SailShapePath[] => {
    const ragged = pathOf(raggedLine(place(tear.line.from), place(tear.line.to)));
    return [
      { kind: 'may-lie', state: '', d: pathOf(tear.mayLie.map(place), true) },
      { kind: 'tear-ground', state: '', d: ragged },
      { kind: 'tear', state: '', d: ragged },
    ];
  });
}

/** From end to end with small teeth: the ends are to scale. */
function raggedLine(from: PlacePx, to: PlacePx): readonly PlacePx[] {
  const lengthPx = Math.hypot(to.x - from.x, to.y - from.y);
  const teeth = Math.max(1, Math.round(lengthPx / TOOTH_PX));
  const [acrossX, acrossY] = lengthPx === 0 ? [0, 0] : [(from.y - to.y) / lengthPx, (to.x - from.x) / lengthPx];
  const inner = Array.from({ length: teeth }, (_, index) => {
    const share = (index + 0.5) / teeth;
    const offPx = index % 2 === 0 ? 2 : -2;
    return {
      x: from.x + (to.x - from.x) * share + acrossX * offPx,
      y: from.y + (to.y - from.y) * share + acrossY * offPx,
    };
  });
  return [from, ...inner, to];
}

/** Scale and what the marks mean, under the sail. */
function keyOf(
  report: DamageReport,
  frame: SailFrame,
  topPx: number,
): { labels: readonly SailLabel[]; paths: readonly SailShapePath[] } {
  const { shape, tears } = report;
  const isTypical = shape.outline.scale === 'typical';
  const barM = [1, 2, 5, 10].find((lengthM) => lengthM * frame.pxPerM >= LEAST_BAR_PX) ?? 20;
  const barPx = barM * frame.pxPerM;
  const scaleText = shape.outline.scale === 'measured' ? `${barM} m` : `${barM} m, one side of the sail known`;
  const lines = [
    ...(shape.sail.cut === 'radial'
      ? ['gores 3 (10): 3rd from the tack around by the clew,', '10th the other way round']
      : ['↑ counted up from clew or foot, ↓ down from the head']),
    ...(tears.length === 0 ? [] : ['hatched: where the tear may lie, as counted']),
    'dotted curves: run of the load; shapes approximate',
    'seen from starboard, bow to the left',
  ];
  const at = (text: string, row: number, x = 8): SailLabel => ({
    text,
    x,
    y: topPx + row * KEY_LINE_PX,
    anchor: 'start',
    sizePx: TEXT_PX,
    kind: 'key',
  });
  return {
    labels: [
      isTypical ? at('not to scale: no side of the sail is known', 0) : at(scaleText, 0, 8 + barPx + 8),
      ...lines.map((text, index) => at(text, index + 1)),
    ],
    paths: isTypical
      ? []
      : [
          {
            kind: 'scale',
            state: '',
            d: `M8 ${topPx - 8}v8M8 ${topPx - 4}H${8 + barPx}M${8 + barPx} ${topPx - 8}v8`,
          },
        ],
  };
}
