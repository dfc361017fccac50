import type { CutPlan } from './planned.ts';

/** The plan as `slatch cut --json` prints it. Lengths in millimetres; ids are `id#number`, counted from 1. */
export const publishedCutPlan = (plan: CutPlan) => ({
  made: plan.madeIds,
  joins: plan.jointCount,
  barsUsed: plan.barCount,
  longestLeftOverMm: plan.longestLeftOverMm,
  optimal: plan.isOptimal,
  notProven: plan.open,
  kerfMm: plan.kerfMm,
  cuts: plan.bars.flatMap(({ barId, stockId, diameterMm, cuts }) =>
    cuts.map((cut) => ({
      bar: barId,
      stockId,
      diameterMm,
      piece: cut.pieceId,
      part: cut.partNumber,
      ofParts: cut.partCount,
      fromMm: cut.fromMm,
      toMm: cut.toMm,
      lengthMm: cut.lengthMm,
    })),
  ),
  joined: plan.joined.map(({ pieceId, ...of }) => ({ piece: pieceId, ...of })),
  notMade: plan.notMade.map(({ pieceId, ...why }) => ({ piece: pieceId, ...why })),
  offCuts: plan.bars
    .filter(({ leftOverMm }) => leftOverMm > 0)
    .map(({ barId, stockId, diameterMm, leftOverMm, isLeftOverUseful }) => ({
      bar: barId,
      stockId,
      diameterMm,
      lengthMm: leftOverMm,
      scrap: !isLeftOverUseful,
    })),
  defaultsUsed: plan.defaultsUsed,
});
