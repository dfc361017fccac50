import { joinLengthMm } from '../battens/joins.ts';
import { SHORTEST_USEFUL_MM } from './assemble.ts';
import type { CutPlan, OpenLevel, PlannedBar, PlannedCut, PlannedJoinedPiece } from './planned.ts';
import { inchesText } from './inches.ts';

/** One part of the sheet: a heading, and lines to be read in order. */
export interface SheetSection {
  readonly heading: string;
  readonly lines: readonly string[];
}

/**
 * The plan as a sheet to saw by: bar by bar with marks, then how the joined pieces go together, what is not made, what is
 * left, and what to mind. Lengths in millimetres and in inches to the nearest sixteenth.
 */
export const cutSheet = (plan: CutPlan): readonly SheetSection[] =>
  [
    { heading: 'Cut plan', lines: summaryLines(plan) },
    ...plan.bars.map((bar) => barSection(bar, plan.kerfMm)),
    ...plan.joined.map(joinedSection),
    {
      heading: 'Not made',
      lines: plan.notMade.map(({ pieceId, field, what, remedy }) => `${pieceId} (${field}): ${what} ${remedy}`),
    },
    { heading: 'Left over', lines: leftOverLines(plan) },
    { heading: 'Mind', lines: plan.bars.length === 0 ? [] : cautionLines(plan) },
    { heading: 'Taken as default', lines: plan.defaultsUsed },
  ].filter(({ lines }) => lines.length > 0);

/** Millimetres and inches of one length. */
const lengthText = (lengthMm: number): string => `${lengthMm} mm (${inchesText(lengthMm)})`;

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

function summaryLines(plan: CutPlan): readonly string[] {
  const wantedCount = plan.madeIds.length + plan.notMade.length;
  return [
    `${plan.madeIds.length} of ${counted(wantedCount, 'piece')} made, ${counted(plan.jointCount, 'join')}, ${counted(plan.barCount, 'bar')} cut, longest left-over ${lengthText(plan.longestLeftOverMm)}, saw cut ${plan.kerfMm} mm.`,
    plan.open === null
      ? 'No better plan exists: more pieces by priority, then fewer joins, fewer bars, a longer left-over.'
      : openLine(plan.open),
  ];
}

const OPEN_WORDS = {
  made: 'More may be possible',
  joins: 'Fewer joins may be possible',
  bars: 'Fewer bars may be possible',
  'left-over': 'A longer left-over may be possible',
} as const;

const openLine = ({ level, foundAmount, boundAmount, unit }: OpenLevel): string =>
  `Best found, not proven best. ${OPEN_WORDS[level]}: found ${foundAmount}, not ruled out ${boundAmount} (${unit}).`;

function barSection(bar: PlannedBar, kerfMm: number): SheetSection {
  return {
    heading: `Bar ${bar.barId}: ${bar.diameterMm} mm, ${lengthText(bar.lengthMm)} long`,
    lines: [
      ...bar.cuts.map((cut) => cutLine(cut, bar, kerfMm)),
      `Left over: ${lengthText(bar.leftOverMm)}${leftOverWords(bar)}.`,
    ],
  };
}

/** Where the mark is, measured from the first end of the bar; the blade goes beyond it. */
function cutLine(cut: PlannedCut, bar: PlannedBar, kerfMm: number): string {
  const part = cut.partCount === 1 ? '' : `, part ${cut.partNumber} of ${cut.partCount}`;
  const isWhole = cut.toMm >= bar.lengthMm;
  const mark = isWhole
    ? `no cut, runs to the end of the bar at ${lengthText(bar.lengthMm)}`
    : `mark at ${lengthText(cut.toMm)}, saw beyond the mark (${kerfMm} mm lost)`;
  return `${cut.pieceId}${part}: from ${cut.fromMm} mm, ${lengthText(cut.lengthMm)} long; ${mark}.`;
}

function leftOverWords({ leftOverMm, isLeftOverUseful }: PlannedBar): string {
  if (leftOverMm === 0) return '';
  return isLeftOverUseful ? ', back to the locker' : ', scrap';
}

function joinedSection(piece: PlannedJoinedPiece): SheetSection {
  const trim = piece.endAllowanceMm === 0 ? '' : `, ${piece.endAllowanceMm} mm longer as cut, left on at the far end`;
  return {
    heading: `Join ${piece.pieceId}: ${piece.diameterMm} mm, ${lengthText(piece.lengthMm)} finished${trim}`,
    lines: [
      ...piece.parts.map(
        ({ barId, lengthMm }, index) =>
          `Part ${index + 1}, from the first end: ${lengthText(lengthMm)} from bar ${barId}.`,
      ),
      ...piece.joints.map(
        ({ fromMm, toMm }, index) =>
          `Join part ${index + 1} to part ${index + 2}: overlap ${lengthText(piece.overlapMm)}, on the finished piece from ${lengthText(fromMm)} to ${lengthText(toMm)} from the first end.`,
      ),
    ],
  };
}

const leftOverLines = ({ bars }: CutPlan): readonly string[] =>
  bars
    .filter(({ isLeftOverUseful }) => isLeftOverUseful)
    .map(
      ({ stockId, barId, diameterMm, leftOverMm }) =>
        `Enter in the locker: ${diameterMm} mm, ${lengthText(leftOverMm)}, off-cut of ${barId} (${stockId}).`,
    );

function cautionLines(plan: CutPlan): readonly string[] {
  return [
    'Measure twice, from the end named, along the bar; the marks count a saw cut of the width given. Try yours on scrap first: a wider one shortens the last piece.',
    'Wrap tape 25 mm each side of the mark, fine teeth, turn the rod as you saw.',
    'Glass and carbon dust: mask, glasses, gloves, long sleeves; cut wet, outside and to leeward; wipe, do not blow; wash with soap, these clothes apart.',
    ...plan.joined.flatMap(overlapCaution),
    ...(plan.joined.length === 0 ? [] : ['Dry fit every joined piece and measure it before any resin is mixed.']),
    `Off-cuts under ${SHORTEST_USEFUL_MM} mm are counted as scrap.`,
  ];
}

function overlapCaution({ pieceId, diameterMm, overlapMm }: PlannedJoinedPiece): readonly string[] {
  const { leastMm, mostMm } = joinLengthMm('scarf', diameterMm);
  const ratio = Math.round((overlapMm / diameterMm) * 10) / 10;
  if (overlapMm < leastMm)
    return [
      `${pieceId}: an overlap of ${overlapMm} mm is ${ratio} diameters; a scarf in a rod that is bent wants ${leastMm} mm at least (12:1). Sleeve it, or take a longer overlap.`,
    ];
  return overlapMm < mostMm
    ? [
        `${pieceId}: an overlap of ${overlapMm} mm is ${ratio} diameters; usual for a rod that is bent is ${mostMm} mm (20:1).`,
      ]
    : [];
}
