import type { CutPlan, CutRequest, PlannedCut, WantedPiece } from '../../../lib/stock/index.ts';

const NEGLIGIBLE_MM = 1e-6;

/** Everything about a plan that breaks a rule of the request, as sentences; counted anew from its bars and marks. */
export function broken(request: CutRequest, plan: CutPlan): readonly string[] {
  return [...brokenBars(request, plan), ...brokenPieces(request, plan), ...brokenFigures(request, plan)];
}

function brokenBars(request: CutRequest, plan: CutPlan): readonly string[] {
  const ids = new Set(plan.bars.map(({ barId }) => barId));
  const twice = ids.size === plan.bars.length ? [] : ['a bar is cut twice'];
  return plan.bars.reduce<readonly string[]>((found, bar) => {
    const line = request.stock.find(({ id }) => id === bar.stockId);
    const number = Number(bar.barId.split('#').at(-1));
    const exists = line?.lengthMm === bar.lengthMm && number >= 1 && number <= line.count;
    const takenMm = bar.cuts.reduce((sum, { lengthMm }) => sum + lengthMm + request.kerfMm, 0);
    const marks = bar.cuts.flatMap(({ fromMm, toMm, lengthMm, pieceId }, index) => {
      const beginMm = index === 0 ? 0 : (bar.cuts[index - 1]?.toMm ?? 0) + request.kerfMm;
      const isRight = Math.abs(fromMm - beginMm) < NEGLIGIBLE_MM && Math.abs(toMm - fromMm - lengthMm) < NEGLIGIBLE_MM;
      return isRight ? [] : [`${bar.barId}: mark of ${pieceId} is wrong`];
    });
    const leftMm = Math.max(0, bar.lengthMm - takenMm);
    return [
      ...found,
      ...(exists ? [] : [`${bar.barId} is not in the stock`]),
      ...(bar.cuts.length > 0 ? [] : [`${bar.barId} is opened for nothing`]),
      ...(takenMm <= bar.lengthMm + request.kerfMm + NEGLIGIBLE_MM ? [] : [`${bar.barId} is too short`]),
      ...(Math.abs(leftMm - bar.leftOverMm) < NEGLIGIBLE_MM ? [] : [`${bar.barId}: left-over is wrong`]),
      ...marks,
    ];
  }, twice);
}

function brokenPieces(request: CutRequest, plan: CutPlan): readonly string[] {
  const wanted = request.pieces.flatMap((piece) =>
    Array.from({ length: piece.count }, (_, k) => ({ id: `${piece.id}#${k + 1}`, piece })),
  );
  const told = [...plan.madeIds, ...plan.notMade.map(({ pieceId }) => pieceId)].toSorted();
  const expected = wanted.map(({ id }) => id).toSorted();
  const made = new Set(plan.madeIds);
  const partsById = new Map<string, Part[]>();
  for (const { cuts, diameterMm } of plan.bars)
    for (const cut of cuts) partsById.set(cut.pieceId, [...(partsById.get(cut.pieceId) ?? []), { ...cut, diameterMm }]);
  return [
    ...(JSON.stringify(told) === JSON.stringify(expected) ? [] : ['pieces made and not made are not those wanted']),
    ...(partsById.size === plan.madeIds.length ? [] : ['something is cut that is not made']),
    ...wanted.flatMap(({ id, piece }) => (made.has(id) ? brokenPiece(id, piece, plan, partsById.get(id) ?? []) : [])),
  ];
}

type Part = PlannedCut & { readonly diameterMm: number };

function brokenPiece(id: string, piece: WantedPiece, plan: CutPlan, cuts: readonly Part[]): readonly string[] {
  const parts = cuts.toSorted((a, b) => a.partNumber - b.partNumber);
  const jointCount = parts.length - 1;
  const wantedMm = piece.lengthMm + piece.endAllowanceMm + jointCount * piece.overlapMm;
  const cutMm = parts.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
  let endMm = 0;
  const joints = parts.slice(0, -1).map(({ lengthMm }, index) => {
    endMm += lengthMm - (index === 0 ? 0 : piece.overlapMm);
    return { fromMm: endMm - piece.overlapMm, toMm: endMm };
  });
  const entersZone = joints.some(({ fromMm, toMm }) =>
    piece.noJoinZonesMm.some(
      ([zoneFromMm, zoneToMm]) => fromMm < zoneToMm - NEGLIGIBLE_MM && toMm > zoneFromMm + NEGLIGIBLE_MM,
    ),
  );
  const isOff = joints.some(({ fromMm, toMm }) => fromMm < -NEGLIGIBLE_MM || toMm > piece.lengthMm + NEGLIGIBLE_MM);
  const overlaps = joints.some(
    ({ fromMm }, index) => index > 0 && fromMm < (joints[index - 1]?.toMm ?? 0) - NEGLIGIBLE_MM,
  );
  const isShort = jointCount > 0 && parts.some(({ lengthMm }) => lengthMm < piece.shortestPartMm - NEGLIGIBLE_MM);
  const told = plan.joined.find(({ pieceId }) => pieceId === id)?.joints ?? [];
  const areTold =
    JSON.stringify(told.map(({ fromMm }) => Math.round(fromMm * 100))) ===
    JSON.stringify(joints.map(({ fromMm }) => Math.round(fromMm * 100)));
  return [
    ...(parts.length >= 1 &&
    parts.every(({ partNumber, partCount }, k) => partNumber === k + 1 && partCount === parts.length)
      ? []
      : [`${id}: parts are missing`]),
    ...(Math.abs(cutMm - wantedMm) < NEGLIGIBLE_MM ? [] : [`${id}: ${cutMm} mm instead of ${wantedMm} mm`]),
    ...(jointCount <= piece.maxJoinCount ? [] : [`${id}: too many joins`]),
    ...(parts.every(({ diameterMm }) => diameterMm === piece.diameterMm) ? [] : [`${id}: wrong diameter`]),
    ...(entersZone ? [`${id}: a joint in a zone`] : []),
    ...(isOff ? [`${id}: a joint off the piece`] : []),
    ...(overlaps ? [`${id}: joints overlap`] : []),
    ...(isShort ? [`${id}: a part is too short`] : []),
    ...(areTold ? [] : [`${id}: joints are told wrong`]),
  ];
}

function brokenFigures(request: CutRequest, plan: CutPlan): readonly string[] {
  const jointCount = plan.joined.reduce((sum, { joints }) => sum + joints.length, 0);
  const longestMm = Math.max(0, ...plan.bars.map(({ leftOverMm }) => leftOverMm));
  return [
    ...(plan.jointCount === jointCount ? [] : ['joins are counted wrong']),
    ...(plan.barCount === plan.bars.length ? [] : ['bars are counted wrong']),
    ...(plan.longestLeftOverMm === longestMm ? [] : ['the longest left-over is another']),
    ...(plan.kerfMm === request.kerfMm ? [] : ['another kerf']),
  ];
}
