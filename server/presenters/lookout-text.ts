import type { BlockLane } from './strip-model.ts';

/** Said beside any sleep that is shown without the whole rule: in the card, under a strip. */
export const SHORT_LOOKOUT_TEXT =
  'While you sleep nobody keeps the look-out that COLREG Rule 5 asks for at all times: sleep is the lesser risk, not a permitted one.';

/** The same for a strip; null: it shows no sleep. */
export const lookoutOf = (lanes: readonly BlockLane[]): string | null =>
  lanes.some(({ id, blocks }) => id === 'sleep' && blocks.length > 0) ? SHORT_LOOKOUT_TEXT : null;
