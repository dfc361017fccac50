/** Faults of a code-stream: made here, told from results here. */
import type { StreamFault } from '../stream-fault.ts';

export const isFault = (result: object): result is StreamFault => 'what' in result && 'expected' in result;

/** A fault at an index of the stream, from 0. */
export const faultAt = (index: number, what: string, expected: string): StreamFault => ({
  octet: index + 1,
  what,
  expected,
});

/** A faculty of the standard that forecasts do not use and this decoder leaves out. */
export const leftOut = (index: number, faculty: string): StreamFault =>
  faultAt(index, `The code-stream uses ${faculty}, which is not supported.`, `a code-stream without ${faculty}`);
