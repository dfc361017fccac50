/**
 * Moves labels apart so that none stands on another.
 *
 * @param wantedPx where each label would like to stand, any order
 * @param room least distance between two labels, and the stretch they may use [px]
 * @returns a place for each, in the order given, as near to the wish as the room allows; when the stretch is too short
 *   for all they are set at equal distances
 */
export function spreadLabels(
  wantedPx: readonly number[],
  room: { gapPx: number; fromPx: number; toPx: number },
): number[] {
  const order = wantedPx.map((_, i) => i).toSorted((a, b) => (wantedPx[a] ?? 0) - (wantedPx[b] ?? 0));
  const gapPx = Math.min(room.gapPx, (room.toPx - room.fromPx) / Math.max(1, wantedPx.length - 1));
  const places: number[] = [];
  let freePx = room.fromPx;
  for (const i of order) {
    places[i] = Math.max(freePx, wantedPx[i] ?? 0);
    freePx = places[i] + gapPx;
  }
  let lastPx = room.toPx;
  for (const i of order.toReversed()) {
    places[i] = Math.min(lastPx, places[i] ?? 0);
    lastPx = places[i] - gapPx;
  }
  return places;
}
