import type { CutRequest } from '../../lib/stock/index.ts';

/** What cutting by hand comes to: longest piece first, each from the first bar that is long enough; nothing joined. */
export function firstFit(request: CutRequest): { readonly madeCount: number; readonly barCount: number } {
  const bars = request.stock
    .flatMap(({ lengthMm, diameterMm, count }) =>
      Array.from({ length: count }, () => ({ diameterMm, roomMm: lengthMm + request.kerfMm, isOpen: false })),
    )
    .toSorted((a, b) => b.roomMm - a.roomMm);
  const pieces = request.pieces
    .flatMap((piece) => Array.from({ length: piece.count }, () => piece))
    .toSorted((a, b) => b.lengthMm - a.lengthMm);
  let madeCount = 0;
  for (const { lengthMm, endAllowanceMm, diameterMm } of pieces) {
    const sizeMm = lengthMm + endAllowanceMm + request.kerfMm;
    const bar = bars.find((one) => one.diameterMm === diameterMm && one.roomMm >= sizeMm);
    if (bar === undefined) continue;
    bar.roomMm -= sizeMm;
    bar.isOpen = true;
    madeCount++;
  }
  return { madeCount, barCount: bars.filter(({ isOpen }) => isOpen).length };
}
