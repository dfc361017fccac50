import type { CutPlan, CutRequest } from '../../lib/stock/index.ts';

/** A bar, or a piece put together, drawn to scale. Shares are of the longest bar or piece drawn. */
export interface BarDrawing {
  readonly lengthShare: number;
  readonly parts: readonly BarPart[];
  /** Places on it, from its first end. */
  readonly marks: readonly BarMark[];
  /** All that is drawn, in words. */
  readonly description: string;
}

export interface BarPart {
  readonly kind: 'piece' | 'left-over' | 'scrap' | 'joint' | 'zone';
  readonly fromShare: number;
  readonly toShare: number;
  /** In it where there is room; empty: nothing. */
  readonly label: string;
}

export interface BarMark {
  readonly atShare: number;
  readonly text: string;
}

type PlannedBar = CutPlan['bars'][number];
type JoinedPiece = CutPlan['joined'][number];

/** Length that fills the width of the drawings of a plan. */
export const longestDrawnMm = ({ bars, joined }: CutPlan): number =>
  Math.max(1, ...bars.map(({ lengthMm }) => lengthMm), ...joined.map(cutLengthMm));

const cutLengthMm = ({ lengthMm, endAllowanceMm }: JoinedPiece): number => lengthMm + endAllowanceMm;

const mm = (lengthMm: number): string => `${lengthMm} mm`;

/** A bar with its cuts from the first end on, numbered as the lines of the sheet are. */
export function barDrawing(bar: PlannedBar, longestMm: number): BarDrawing {
  const share = (lengthMm: number): number => lengthMm / longestMm;
  const leftFromMm = bar.lengthMm - bar.leftOverMm;
  const pieces = bar.cuts.map((cut, index): BarPart => ({
    kind: 'piece',
    fromShare: share(cut.fromMm),
    toShare: share(cut.toMm),
    label: String(index + 1),
  }));
  const left: BarPart = {
    kind: bar.isLeftOverUseful ? 'left-over' : 'scrap',
    fromShare: share(leftFromMm),
    toShare: share(bar.lengthMm),
    label: bar.isLeftOverUseful ? `left ${bar.leftOverMm}` : 'scrap',
  };
  const cutWords = bar.cuts.map(
    ({ pieceId, partNumber, partCount, fromMm, toMm }, index) =>
      `${index + 1}, ${pieceId}${partCount === 1 ? '' : ` part ${partNumber} of ${partCount}`}, from ${fromMm} to ${mm(toMm)}`,
  );
  const leftWords =
    bar.leftOverMm === 0
      ? 'nothing left over'
      : `${mm(bar.leftOverMm)} left over${bar.isLeftOverUseful ? '' : ', scrap'}`;
  return {
    lengthShare: share(bar.lengthMm),
    parts: bar.leftOverMm > 0 ? [...pieces, left] : pieces,
    marks: bar.cuts
      .filter(({ toMm }) => toMm < bar.lengthMm)
      .map(({ toMm }) => ({ atShare: share(toMm), text: String(toMm) })),
    description: `Bar of ${mm(bar.lengthMm)}, from its first end: ${[...cutWords, leftWords].join('; ')}.`,
  };
}

/** A joined piece as it is when it is done: its joints, and where none may lie. */
export function joinedDrawing(joined: JoinedPiece, request: CutRequest, longestMm: number): BarDrawing {
  const share = (lengthMm: number): number => lengthMm / longestMm;
  const id = joined.pieceId.slice(0, joined.pieceId.lastIndexOf('#'));
  const zones = request.pieces.find((piece) => piece.id === id)?.noJoinZonesMm ?? [];
  const wholeMm = cutLengthMm(joined);
  const span = (kind: BarPart['kind'], fromMm: number, toMm: number): BarPart => ({
    kind,
    fromShare: share(fromMm),
    toShare: share(Math.min(toMm, wholeMm)),
    label: '',
  });
  const said = (spans: readonly { fromMm: number; toMm: number }[]): string =>
    spans.map(({ fromMm, toMm }) => `${fromMm} to ${mm(toMm)}`).join(', ');
  const kept = zones.map(([fromMm, toMm]) => ({ fromMm, toMm }));
  return {
    lengthShare: share(wholeMm),
    parts: [
      span('piece', 0, wholeMm),
      ...kept.map(({ fromMm, toMm }) => span('zone', fromMm, toMm)),
      ...joined.joints.map(({ fromMm, toMm }) => span('joint', fromMm, toMm)),
    ],
    marks: joined.joints.map(({ fromMm }) => ({ atShare: share(fromMm), text: String(fromMm) })),
    description: `${joined.pieceId}, ${mm(wholeMm)} as cut, from its first end: joined from ${said(joined.joints)}${
      kept.length === 0 ? '' : `; no join from ${said(kept)}`
    }.`,
  };
}
