const MINUTE_MS = 60_000;
/** Wrong keys in a row an address may give before it has to wait: fingers are cold. */
export const FREE_ATTEMPTS_COUNT = 5;
/** The first wait; each wrong key after it doubles it. */
export const FIRST_WAIT_MS = 10_000;
export const LONGEST_WAIT_MS = 15 * MINUTE_MS;
/** Wrong keys of an address are forgotten after so long without another. */
const FORGET_MS = 60 * MINUTE_MS;
/** Wrong keys of all addresses together before everyone unknown waits for his turn, and how often there is one. */
export const ALL_ATTEMPTS_COUNT = 60;
export const TURN_MS = 10_000;
/** Addresses remembered; of more, those that failed longest ago are forgotten. */
const MOST_ADDRESSES_COUNT = 1000;

interface Failures {
  readonly count: number;
  readonly lastMs: number;
}

/** How often a key may be tried. */
export interface Attempts {
  /** How long an address has to wait before it may try a key [ms]; 0: it may. */
  readonly waitMs: (address: string) => number;
  /** It gave a wrong key; how many in a row now. */
  readonly failed: (address: string) => number;
  readonly succeeded: (address: string) => void;
}

/**
 * Counts wrong keys, for each address and for all together: whoever can take any address of a network must not get more
 * attempts by it. An address that gave the right key since the start does not wait for the others.
 *
 * @param nowMs a clock that is never set
 */
export function countAttempts(nowMs: () => number): Attempts {
  const failures = new Map<string, Failures>();
  const known = new Set<string>();
  let left = { count: ALL_ATTEMPTS_COUNT, atMs: nowMs() };

  const failuresOf = (address: string): Failures => {
    const found = failures.get(address);
    return found === undefined || nowMs() - found.lastMs > FORGET_MS ? { count: 0, lastMs: 0 } : found;
  };
  const leftNow = (): number => Math.min(ALL_ATTEMPTS_COUNT, left.count + (nowMs() - left.atMs) / TURN_MS);
  const ownWaitMs = (address: string): number => {
    const { count, lastMs } = failuresOf(address);
    return count < FREE_ATTEMPTS_COUNT ? 0 : Math.max(0, lastMs + waitAfterMs(count) - nowMs());
  };
  const sharedWaitMs = (address: string): number => (known.has(address) ? 0 : Math.max(0, (1 - leftNow()) * TURN_MS));

  return {
    waitMs: (address) => Math.max(ownWaitMs(address), sharedWaitMs(address)),
    failed: (address) => {
      left = { count: Math.max(0, leftNow() - 1), atMs: nowMs() };
      const count = failuresOf(address).count + 1;
      failures.delete(address);
      failures.set(address, { count, lastMs: nowMs() });
      forgetFirst(failures);
      return count;
    },
    succeeded: (address) => {
      failures.delete(address);
      known.add(address);
      forgetFirst(known);
    },
  };
}

/** After so many wrong keys in a row. */
const waitAfterMs = (count: number): number =>
  Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (count - FREE_ATTEMPTS_COUNT));

function forgetFirst(of: Map<string, unknown> | Set<string>): void {
  const [first] = of.keys();
  if (first !== undefined && of.size > MOST_ADDRESSES_COUNT) of.delete(first);
}
