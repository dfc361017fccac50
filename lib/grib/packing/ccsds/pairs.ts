/**
 * The second extension: one fundamental sequence for two numbers. Pairs are counted by growing sum and, of one sum, by growing
 * second number: 0 is (0, 0), 1 is (1, 0), 2 is (0, 1), 3 is (2, 0), …
 */

/** Greatest pair encoders write: sums up to 12. */
export const GREATEST_PAIR = 90;

export const pairFirsts = new Uint8Array(GREATEST_PAIR + 1);
export const pairSeconds = new Uint8Array(GREATEST_PAIR + 1);

for (let sum = 0, pair = 0; pair <= GREATEST_PAIR; sum++) {
  for (let second = 0; second <= sum; second++, pair++) {
    pairFirsts[pair] = sum - second;
    pairSeconds[pair] = second;
  }
}
