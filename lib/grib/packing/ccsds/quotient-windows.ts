/**
 * Fundamental sequences read several at a time. A fundamental sequence is a number of zeros and then a one; tables say for each
 * pattern of eleven bits which ones it holds. In forecast fields they are two to three bits long on average, so that eleven
 * bits mostly hold four or five: an entry has four.
 */

export const WINDOW_BITS = 11;
/** Sequences of an entry. */
export const WINDOW_CODES = 4;

const WINDOWS_COUNT = 2 ** WINDOW_BITS;

/** By pattern: the zeros of up to four sequences, an octet each, the first in the least significant octet. */
export const windowQuotients = new Int32Array(WINDOWS_COUNT);
/** By pattern: how many sequences (bits 0-2), and how many bits they take in all (bits 3-6). */
export const windowLengths = new Uint8Array(WINDOWS_COUNT);
/** By pattern times four plus i: bits of the first i + 1 sequences. */
export const windowPrefixes = new Uint8Array(WINDOWS_COUNT * WINDOW_CODES);

for (let window = 0; window < WINDOWS_COUNT; window++) {
  let count = 0;
  let lengthBits = 0;
  for (let i = 0; i < WINDOW_BITS && count < WINDOW_CODES; i++) {
    if (((window >>> (WINDOW_BITS - 1 - i)) & 1) === 0) continue;
    windowQuotients[window] = (windowQuotients[window] ?? 0) | ((i - lengthBits) << (8 * count));
    lengthBits = i + 1;
    windowPrefixes[window * WINDOW_CODES + count] = lengthBits;
    count += 1;
  }
  windowLengths[window] = count | (lengthBits << 3);
}
