/** What a batten that is cracked, joined or missing means for the sail that may be set; common practice, no source. */
import type { BattenLimit } from './finding.ts';
import { TOP_BATTEN_REEF_NUMBER } from './sail-defaults.table.ts';
import type { BattenLine, SailShape } from './sail-shape.ts';

/**
 * Without its top batten the sail carries no more than reef 2; without a lower one the least reef that puts its pocket
 * into the lowered part. A cracked batten counts as missing: it breaks when the wind gets up. A short batten costs no
 * drive, but its leech flutters to pieces.
 */
export const battenLimits = (shape: SailShape): readonly BattenLimit[] =>
  shape.battens.flatMap((batten): readonly BattenLimit[] =>
    batten.state === 'whole'
      ? []
      : [
          {
            code: 'batten.limit',
            count: batten.count,
            state: batten.state,
            isShort: shape.sail.battens?.kind === 'short',
            ...limitOf(shape, batten),
          },
        ],
  );

function limitOf(shape: SailShape, { state, count, heightM }: BattenLine): Pick<BattenLimit, 'reef' | 'why'> {
  if (state === 'joined') return { reef: null, why: 'joined' };
  if (shape.sail.battens?.kind === 'short') return { reef: null, why: 'flutter' };
  const deepest = shape.reefs.at(-1);
  if (deepest === undefined) return { reef: null, why: 'no-reefs' };
  if (count.itsNumber === 1) {
    const second = shape.reefs[TOP_BATTEN_REEF_NUMBER - 1];
    return second === undefined
      ? { reef: deepest.count, why: 'deepest-for-top' }
      : { reef: second.count, why: 'top-batten' };
  }
  const reef = shape.reefs.find((one) => one.heightM > heightM);
  return reef === undefined ? { reef: null, why: 'no-reef-above' } : { reef: reef.count, why: 'below-reef' };
}
