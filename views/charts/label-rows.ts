/** Mean width of a character of the label type [share of its size]; measured on B612 lower case. */
const CHARACTER_EM = 0.56;

export const textWidthPx = (text: string, sizePx: number): number => text.length * CHARACTER_EM * sizePx;

interface Span {
  readonly fromPx: number;
  readonly toPx: number;
}

/** Where a label stands: in its block, or beginning at `fromPx` in a row of labels under the blocks. */
export type LabelPlace = { readonly inside: true } | (Span & { readonly inside: false; readonly rowIndex: number });

/**
 * Puts labels inside their blocks where they fit, else into rows below. A label stands under every later one it would
 * touch, so that the leader of each runs down left of the labels above its own.
 *
 * @param labels block and text width of each, by time
 * @returns one place per label
 */
export function labelRows(
  labels: readonly { readonly block: Span; readonly widthPx: number }[],
  room: { gapPx: number; toPx: number },
): LabelPlace[] {
  const places: LabelPlace[] = [];
  for (const { block, widthPx } of labels.toReversed()) {
    places.unshift(placeOne(block, widthPx, { later: places, ...room }));
  }
  return places;
}

function placeOne(
  block: Span,
  widthPx: number,
  room: { later: readonly LabelPlace[]; gapPx: number; toPx: number },
): LabelPlace {
  if (widthPx + room.gapPx <= block.toPx - block.fromPx) return { inside: true };
  const fromPx = Math.min(block.fromPx, room.toPx - widthPx);
  const toPx = fromPx + widthPx;
  const touched = room.later.flatMap((place) =>
    !place.inside && place.fromPx < toPx + room.gapPx && fromPx < place.toPx + room.gapPx ? [place.rowIndex + 1] : [],
  );
  return { inside: false, rowIndex: Math.max(0, ...touched), fromPx, toPx };
}
