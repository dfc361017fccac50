/** A whole report in sentences. */
import type { DamageReport, TearReport } from './assess-damage.ts';
import { battenLimitText, findingTexts, metresText } from './finding-text.ts';
import type { StitchProposal } from './stitch-proposal.ts';

/** Title of a tear: its letter on the drawing, id and length. */
export const tearTitle = ({ mark, tear }: TearReport): string =>
  `${mark === '' ? '' : `${mark}, `}${tear.id}: tear of ${metresText(tear.lengthM)}.`;

export function stitchText({ rowCount, cloth, patch, rowsReason, patchReason }: StitchProposal): string {
  const rows = `Sew ${rowCount === 1 ? '1 row' : `${rowCount} rows`}: ${rowsReason.text} (${rowsReason.provenance}).`;
  const patchPart =
    patch === null
      ? `No patch: ${patchReason.text} (${patchReason.provenance}).`
      : `Patch ${metresText(patch.tearLengthM + 2 * patch.overlapM)} by ${metresText(patch.tearWidthM + 2 * patch.overlapM)}, ${patch.layersPerSideCount === 1 ? 'one layer' : `${patch.layersPerSideCount} layers`} on each side: ${patchReason.text} (${patchReason.provenance}).`;
  return `${rows} ${patchPart}${cloth === null ? ' Say the cloth to have its hours reckoned.' : ''}`;
}

/** One sentence of the sail. */
export function sailText({ shape }: DamageReport): string {
  const { sail, battens, reefs, panels } = shape;
  const parts = [
    `${panels.length} ${sail.cut === 'radial' ? 'gores' : 'panels'}`,
    ...(battens.length === 0 ? [] : [`${battens.length} ${sail.battens?.kind ?? 'full'} battens`]),
    ...(reefs.length === 0 ? [] : [`${reefs.length} ${reefs.length === 1 ? 'reef' : 'reefs'}`]),
  ];
  const cut = sail.cut === 'radial' ? 'Radial' : 'Cross-cut';
  return `${cut} ${sail.kind}${sail.name === undefined ? '' : ` "${sail.name}"`}: ${parts.join(', ')}.`;
}

/** Paragraphs, one list for each: the sail, each tear with its sewing, battens, what was taken. */
export function reportTexts(report: DamageReport): readonly (readonly string[])[] {
  const { shape, tears, battens } = report;
  return [
    [sailText(report)],
    ...tears.map((one) => [tearTitle(one), ...findingTexts(one.findings), stitchText(one.stitch)]),
    ...(battens.length === 0 ? [] : [battens.map(battenLimitText)]),
    [`Taken, as not given: ${shape.taken.map(({ what, value }) => `${what} ${value}`).join('; ')}.`],
  ].filter((paragraph) => paragraph.length > 0);
}
