/** A sail as it can be drawn: outline, panels, battens, reefs, load lines. Origin at the tack, x aft, y up [m]. */
import { counted, type Counted } from './counting.ts';
import { crossCutPanels } from './cross-cut.ts';
import { goreCounts, radialPanels } from './gores.ts';
import { loadLines } from './load-line.ts';
import { heightAboveFootM, sailOutline, type SailOutline, type Taken } from './outline.ts';
import type { Panels } from './panel.ts';
import { between, lengthOf, minus, plus, times, unitOf, type PointM, type SegmentM } from './point.ts';
import { rightPart, segmentInside } from './polygon.ts';
import { OUR_DEFAULT, REEF_SHARES, SHORT_BATTEN_SHARE } from './sail-defaults.table.ts';
import type { BattenState, SailFile } from './sail-file.ts';

/** A batten; 1 is the top one. */
export interface BattenLine {
  /** From the head; the other number is from the foot. */
  readonly count: Counted;
  readonly state: BattenState;
  /** The batten itself, from its fore end to the leech. */
  readonly line: SegmentM;
  /** The same line from the luff to the leech. */
  readonly across: SegmentM;
  readonly heightM: number;
}

/** A reef; 1 is the lowest. */
export interface ReefLine {
  /** From the foot; the other number is from the head. */
  readonly count: Counted;
  readonly line: SegmentM;
  /** Above the foot [m]. */
  readonly heightM: number;
}

export interface SailShape extends Panels {
  readonly sail: SailFile;
  readonly outline: SailOutline;
  readonly battens: readonly BattenLine[];
  readonly reefs: readonly ReefLine[];
  /** What lies below the reef that is in; empty: none is. */
  readonly lowered: readonly PointM[];
  readonly loadLines: readonly (readonly PointM[])[];
  /** What was not given, and what was taken instead: our defaults. */
  readonly taken: readonly Taken[];
}

/** The shape of a checked sail (`readDamageFile`). */
export function sailShape(sail: SailFile): SailShape {
  const outline = sailOutline(sail);
  const panels =
    sail.cut === 'radial' ? radialPanels(outline, goreCounts(sail)) : crossCutPanels(outline, sail.panelCount);
  const reefs = reefLines(sail, outline);
  return {
    ...panels,
    sail,
    outline,
    battens: battenLines(sail, outline),
    reefs,
    lowered: loweredPart(sail, outline, reefs),
    loadLines: loadLines(outline),
    taken: [...outline.taken, ...takenOf(sail)].map(({ what, value }) => ({
      what,
      value: `${value} (${OUR_DEFAULT})`,
    })),
  };
}

function loweredPart(sail: SailFile, outline: SailOutline, reefs: readonly ReefLine[]): readonly PointM[] {
  const set = reefs[(sail.reefs?.set ?? 0) - 1];
  if (set === undefined) return [];
  return rightPart(outline.edge, { at: set.line.from, toward: unitOf(minus(outline.clew, outline.tack)) });
}

function takenOf(sail: SailFile): readonly Taken[] {
  const { battens, reefs } = sail;
  return [
    ...(sail.cut === 'cross-cut'
      ? [{ what: 'panels', value: 'equal widths' }]
      : [{ what: 'gores', value: `${goreText(sail)}, equal angles` }]),
    ...((battens?.count ?? 0) > 0 && battens?.leechHeightsM === undefined
      ? [{ what: 'battens', value: 'equal spacing' }]
      : []),
    ...((reefs?.count ?? 0) > 0 && reefs?.luffHeightsM === undefined
      ? [{ what: 'reefs', value: `at ${(REEF_SHARES[reefs?.count ?? 0] ?? []).join(', ')} of the luff` }]
      : []),
  ];
}

function goreText(sail: SailFile): string {
  const { tack, clew, head } = goreCounts(sail);
  return `${tack} from the tack, ${clew} from the clew, ${head} from the head`;
}

/** The line parallel to the foot through a point, luff to leech; a point at the outermost corner gives no line. */
function acrossAt(outline: SailOutline, at: PointM): SegmentM {
  const toward = unitOf(minus(outline.clew, outline.tack));
  return segmentInside(outline.edge, { at, toward }) ?? { from: at, to: at };
}

function battenLines({ battens }: SailFile, outline: SailOutline): readonly BattenLine[] {
  const battenCount = battens?.count ?? 0;
  return Array.from({ length: battenCount }, (_, index): BattenLine => {
    const alongM = battens?.leechHeightsM?.[index];
    const share = alongM === undefined ? 1 - (index + 1) / (battenCount + 1) : alongM / outline.leechM;
    const across = acrossAt(outline, between(outline.clew, outline.head, share));
    const chordM = lengthOf(minus(across.to, across.from));
    const lengthM =
      battens?.kind === 'short' ? Math.min(chordM, battens.lengthM ?? SHORT_BATTEN_SHARE * chordM) : chordM;
    const forward = chordM === 0 ? { xM: 0, yM: 0 } : unitOf(minus(across.from, across.to));
    const count = counted(index + 1, battenCount);
    return {
      count,
      state: stateOf(battens, count),
      line: { from: plus(across.to, times(forward, lengthM)), to: across.to },
      across,
      heightM: heightAboveFootM(outline, across.to),
    };
  });
}

function stateOf(battens: SailFile['battens'], { itsNumber, otherNumber }: Counted): BattenState {
  const said = battens?.states?.find(({ batten, from }) => batten === (from === 'foot' ? otherNumber : itsNumber));
  return said?.state ?? 'whole';
}

function reefLines({ reefs }: SailFile, outline: SailOutline): readonly ReefLine[] {
  const reefCount = reefs?.count ?? 0;
  return Array.from({ length: reefCount }, (_, index): ReefLine => {
    const alongM = reefs?.luffHeightsM?.[index];
    const share = alongM === undefined ? (REEF_SHARES[reefCount]?.[index] ?? 0) : alongM / outline.luffM;
    const line = acrossAt(outline, between(outline.tack, outline.head, share));
    return { count: counted(index + 1, reefCount), line, heightM: heightAboveFootM(outline, line.from) };
  });
}
