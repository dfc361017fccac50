/** Everything that can be said of one tear. */
import { counted } from './counting.ts';
import type {
  BattenFinding,
  LoadFinding,
  PanelFound,
  ReefLineFinding,
  SeamFinding,
  TearFinding,
  Urgency,
  Zone,
  ZonesFinding,
} from './finding.ts';
import { goreCounts, goresBefore } from './gores.ts';
import type { Panel } from './panel.ts';
import type { Tear } from './place-tear.ts';
import { angleBetweenLinesDeg, distanceBetweenM, distanceM, minus, unitOf, type SegmentM } from './point.ts';
import { stretchInside } from './polygon.ts';
import { firstAnswer, reefFindings, tearHeights } from './reef-findings.ts';
import { ACROSS_LEAST_DEG, ALONG_MOST_DEG, HALF_POCKET_M } from './sail-defaults.table.ts';
import type { SailShape } from './sail-shape.ts';
import { zonesAlong } from './zones.ts';

/** A tear nearer to a seam than this and running with it runs along it. */
const ON_SEAM_M = 0.06;
const WITH_SEAM_DEG = 10;
/** A tear lies in a panel with this much of it [m]; less is a touch of its edge. */
const LEAST_IN_PANEL_M = 0.01;
/** Moved less than this is rounding. */
const LEAST_MOVED_M = 0.01;

export function tearFindings(shape: SailShape, tear: Tear): readonly TearFinding[] {
  const { upM, downM } = tearHeights(shape, tear);
  const zones = zonesOf(shape, tear);
  const reefs = reefFindings(shape, tear);
  return [
    { code: 'tear.length', lengthM: tear.lengthM, drawnM: distanceM(tear.line.from, tear.line.to) },
    {
      code: 'tear.place',
      panels: panelsOf(shape, tear.line).map((panel) => panelFound(shape, panel)),
      betweenBattens: tear.said.betweenBattens ?? null,
      upM,
      downM,
      isPlaceSaid: tear.isPlaceSaid,
      scale: shape.outline.scale,
    },
    ...(tear.movedM > LEAST_MOVED_M ? [{ code: 'tear.moved' as const, movedM: tear.movedM }] : []),
    loadOf(tear, zones.zones),
    zones,
    ...seamsOf(shape, tear.line),
    ...battensOf(shape, tear.line),
    ...reefLinesOf(shape, tear.line),
    ...reefs,
    firstAnswer(shape, reefs),
  ];
}

/** Panels that hold some of the tear; on a seam both. */
function panelsOf(shape: SailShape, { from, to }: SegmentM): readonly Panel[] {
  const lengthM = distanceM(from, to);
  if (lengthM === 0) return [];
  const toward = unitOf(minus(to, from));
  return shape.panels.filter(({ region }) => {
    const inside = stretchInside(region, { at: from, toward });
    if (inside === null) return false;
    const heldM = Math.min(lengthM, inside.toM) - Math.max(0, inside.fromM);
    return heldM > Math.min(LEAST_IN_PANEL_M, lengthM / 4);
  });
}

/** A panel with both of its counts, a gore in its fan too. */
function panelFound(shape: SailShape, { panelNumber, corner }: Panel): PanelFound {
  const count = counted(panelNumber, shape.panels.length);
  if (corner === null) return { count, fan: null };
  const counts = goreCounts(shape.sail);
  return { count, fan: { corner, count: counted(panelNumber - goresBefore(counts, corner), counts[corner]) } };
}

function zonesOf(shape: SailShape, tear: Tear): ZonesFinding {
  const zones = zonesAlong(shape.outline, tear.line);
  const shifted = tear.mayBeMiddle.flatMap((at) => {
    const by = minus(at, tear.middle);
    const move = (end: typeof at): typeof at => ({ xM: end.xM + by.xM, yM: end.yM + by.yM });
    return zonesAlong(shape.outline, { from: move(tear.line.from), to: move(tear.line.to) });
  });
  return { code: 'tear.zones', zones, maybe: [...new Set(shifted)].filter((zone) => !zones.includes(zone)) };
}

/** Across the load a tear opens, along it it runs slowly (common practice, no source); leech and corner are loaded most. */
function loadOf(tear: Tear, zones: readonly Zone[]): LoadFinding {
  const { loadAngleDeg } = tear;
  const runs = loadAngleDeg >= ACROSS_LEAST_DEG ? 'across' : loadAngleDeg <= ALONG_MOST_DEG ? 'along' : 'aslant';
  const isLoadedMost = zones.includes('leech') || zones.includes('corner');
  const urgencyOf: Readonly<Record<typeof runs, Urgency>> = {
    across: 'urgent',
    aslant: isLoadedMost ? 'urgent' : 'soon',
    along: isLoadedMost ? 'soon' : 'slow',
  };
  return {
    code: 'tear.load',
    loadAngleDeg,
    runs,
    urgency: urgencyOf[runs],
    isDirectionSaid: tear.isDirectionSaid,
  };
}

function seamsOf(shape: SailShape, line: SegmentM): readonly SeamFinding[] {
  const along = minus(line.to, line.from);
  return shape.seams.flatMap(({ line: seam, panelNumbers, corners }): readonly SeamFinding[] => {
    const isWith = angleBetweenLinesDeg(along, minus(seam.to, seam.from)) <= WITH_SEAM_DEG;
    const apartM = distanceBetweenM(line, seam);
    const isAlong = isWith && apartM <= ON_SEAM_M;
    return isAlong || apartM === 0
      ? [{ code: 'tear.seam', panelNumbers, corners, panelCount: shape.panels.length, isAlong }]
      : [];
  });
}

const battensOf = (shape: SailShape, line: SegmentM): readonly BattenFinding[] =>
  shape.battens.flatMap(({ count, line: batten }) => {
    const apartM = distanceBetweenM(line, batten);
    return apartM <= HALF_POCKET_M ? [{ code: 'tear.batten' as const, count, isCrossed: apartM === 0 }] : [];
  });

const reefLinesOf = (shape: SailShape, line: SegmentM): readonly ReefLineFinding[] =>
  shape.reefs.flatMap(({ count, line: reef }) =>
    distanceBetweenM(line, reef) === 0 ? [{ code: 'tear.reef-line' as const, count }] : [],
  );
