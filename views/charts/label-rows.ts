/** Mean width of a character of the label type [share of its size]; measured on B612 lower case. */
const CHARACTER_EM = 0.6;

export const textWidthPx = (text: string, sizePx: number): number => text.length * CHARACTER_EM * sizePx;

interface Span {
  readonly fromPx: number;
  readonly toPx: number;
}

/** Where a label stands: in its block, or beginning at `fromPx` in a row of labels under the blocks. */
export type LabelPlace = { readonly inside: true } | { readonly inside: false; readonly rowIndex: number; readonly fromPx: number };

/**
 * Puts labels inside their blocks where they fit, else in the first row below where they stand on no other label.
 *
 * @param labels block and text width of each, by time
 * @returns one place per label
 */
export function labelRows(
  labels: readonly { readonly block: Span; readonly widthPx: number }[],
  room: { gapPx: number; toPx: number },
): LabelPlace[] {
  const rowEndsPx: number[] = [];
  return labels.map(({ block, widthPx }) => {
    if (widthPx + room.gapPx <= block.toPx - block.fromPx) return { inside: true };
    const fromPx = Math.min(block.fromPx, room.toPx - widthPx);
    const free = rowEndsPx.findIndex((endPx) => endPx + room.gapPx <= fromPx);
    const rowIndex = free === -1 ? rowEndsPx.length : free;
    rowEndsPx[rowIndex] = fromPx + widthPx;
    return { inside: false, rowIndex, fromPx };
  });
}
