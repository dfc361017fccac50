import type { CutPlan } from '../../lib/stock/index.ts';

/** A bar drawn to scale: what is cut from it, left to right. */
export interface BarDrawing {
  readonly barId: string;
  /** `3000 mm, 8 mm thick` */
  readonly size: string;
  /** Share of the longest bar. */
  readonly lengthShare: number;
  readonly parts: readonly BarPart[];
  /** Everything in it, in a sentence. */
  readonly description: string;
}

export interface BarPart {
  /** Shares of the bar. */
  readonly fromShare: number;
  readonly toShare: number;
  readonly name: string;
  readonly lengthText: string;
  readonly isLeftOver: boolean;
}

/** The bars of a plan, one under the other on one scale. */
export function barDrawings(plan: CutPlan): readonly BarDrawing[] {
  const longestMm = Math.max(0, ...plan.bars.map(({ lengthMm }) => lengthMm));
  return plan.bars.map((bar) => {
    const parts = bar.cuts.map((cut) => ({
      fromShare: cut.fromMm / bar.lengthMm,
      toShare: cut.toMm / bar.lengthMm,
      name: cut.partCount === 1 ? cut.pieceId : `${cut.pieceId}, part ${cut.partNumber}`,
      lengthText: `${cut.lengthMm} mm`,
      isLeftOver: false,
    }));
    const left = {
      fromShare: 1 - bar.leftOverMm / bar.lengthMm,
      toShare: 1,
      name: bar.isLeftOverUseful ? 'left over' : 'scrap',
      lengthText: `${bar.leftOverMm} mm`,
      isLeftOver: true,
    };
    const all = bar.leftOverMm > 0 ? [...parts, left] : parts;
    return {
      barId: bar.barId,
      size: `${bar.lengthMm} mm, ${bar.diameterMm} mm thick`,
      lengthShare: bar.lengthMm / longestMm,
      parts: all,
      description: `${bar.barId}: ${all.map(({ name, lengthText }) => `${name} ${lengthText}`).join(', ')}.`,
    };
  });
}
