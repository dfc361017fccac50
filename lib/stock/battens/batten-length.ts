/** How long a batten is cut for its pocket, by the fitting at its end. Measure the pocket empty, taut, twice. */
import { assertNever } from '../../result/index.ts';

/**
 * The length rule of a fitting.
 *
 * - `exact`: as long as the pocket.
 * - `minus-end-fitting`: the fitting at the end takes its own length.
 * - `plus-compression`: longer, to be pressed into its bend; 0.5 … 1 % unless said (common practice, no source).
 * - `pocket-shorter`: longer by what the pocket is short of it, 13 … 25 mm unless said.
 *
 * @see sources.BATTEN_POCKET_LENGTHS, pocket half an inch to an inch short, for that builder's fittings
 */
export type LengthRule =
  | { readonly kind: 'exact' }
  | { readonly kind: 'minus-end-fitting'; readonly fittingMm: number }
  | { readonly kind: 'plus-compression'; readonly leastRatio?: number; readonly mostRatio?: number }
  | { readonly kind: 'pocket-shorter'; readonly leastMm?: number; readonly mostMm?: number };

const COMPRESSION_RATIO = { least: 0.005, most: 0.01 } as const;
const POCKET_SHORTER_MM = { least: 13, most: 25 } as const;

/** A length from … to; both ends equal where the rule leaves no choice. */
export interface LengthRange {
  readonly leastMm: number;
  readonly mostMm: number;
}

/** Length of the batten for a pocket of this inner length; throws for a fitting as long as the pocket. */
export function battenLengthMm(pocketMm: number, rule: LengthRule): LengthRange {
  switch (rule.kind) {
    case 'exact':
      return { leastMm: pocketMm, mostMm: pocketMm };
    case 'minus-end-fitting': {
      const leftMm = pocketMm - rule.fittingMm;
      if (!(leftMm > 0)) throw new Error(`an end fitting of ${rule.fittingMm} mm in a pocket of ${pocketMm} mm`);
      return { leastMm: leftMm, mostMm: leftMm };
    }
    case 'plus-compression':
      return {
        leastMm: pocketMm * (1 + (rule.leastRatio ?? COMPRESSION_RATIO.least)),
        mostMm: pocketMm * (1 + (rule.mostRatio ?? COMPRESSION_RATIO.most)),
      };
    case 'pocket-shorter':
      return {
        leastMm: pocketMm + (rule.leastMm ?? POCKET_SHORTER_MM.least),
        mostMm: pocketMm + (rule.mostMm ?? POCKET_SHORTER_MM.most),
      };
    default:
      return assertNever(rule);
  }
}
