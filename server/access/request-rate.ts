/** Requests an address may send at once, after a while without any: a page and what belongs to it are about ten. */
export const BURST_COUNT = 200;
/** And on the long run [requests a second]. */
export const PER_S_COUNT = 20;
/** Addresses remembered; of more, those heard longest ago begin anew. */
const MOST_ADDRESSES_COUNT = 4096;

interface Bucket {
  readonly leftCount: number;
  readonly atMs: number;
}

/**
 * A bucket for each address, out of which every request takes one and which fills again.
 *
 * @param nowMs a clock that is never set
 * @returns how long the address has to wait before it asks again [ms]; 0: it was let through
 */
export function keepRequestRate(nowMs: () => number): (address: string) => number {
  const buckets = new Map<string, Bucket>();
  return (address) => {
    const atMs = nowMs();
    const before = buckets.get(address) ?? { leftCount: BURST_COUNT, atMs };
    const leftCount = Math.min(BURST_COUNT, before.leftCount + ((atMs - before.atMs) / 1000) * PER_S_COUNT);
    const isLet = leftCount >= 1;
    buckets.delete(address);
    buckets.set(address, { leftCount: isLet ? leftCount - 1 : leftCount, atMs });
    const [first] = buckets.keys();
    if (first !== undefined && buckets.size > MOST_ADDRESSES_COUNT) buckets.delete(first);
    return isLet ? 0 : ((1 - leftCount) / PER_S_COUNT) * 1000;
  };
}
