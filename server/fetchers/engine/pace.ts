import type { World } from './world.ts';

/** Holds the mean rate of reading below a cap. */
export interface Pace {
  /** Resolves when so many octets may be read; a piece of any size is let through, and paid for afterwards. */
  spend(octets: number, signal: AbortSignal): Promise<void>;
}

/** Seconds of reading that may be saved up while the line is slower than the cap. */
const SAVED_S = 1;

/**
 * A token bucket: tokens are octets, `octetsPerS` of them are added each second, at most one second's worth is kept. Over
 * any time t the octets let through are at most `octetsPerS · (t + 1 s)` and one piece.
 *
 * @param octetsPerS null: no cap
 */
export function tokenBucket(octetsPerS: number | null, world: Pick<World, 'nowEpochMs' | 'sleep'>): Pace {
  if (octetsPerS === null) return { spend: () => Promise.resolve() };
  const mostOctets = octetsPerS * SAVED_S;
  let savedOctets = 0;
  let countedEpochMs = world.nowEpochMs();
  const refill = (): void => {
    const nowEpochMs = world.nowEpochMs();
    // A clock set back adds nothing.
    const passedS = Math.max(0, nowEpochMs - countedEpochMs) / 1000;
    savedOctets = Math.min(mostOctets, savedOctets + passedS * octetsPerS);
    countedEpochMs = nowEpochMs;
  };
  return {
    spend: async (octets, signal) => {
      refill();
      savedOctets -= octets;
      if (savedOctets < 0) {
        await world.sleep(Math.ceil((-savedOctets / octetsPerS) * 1000), signal);
        refill();
      }
    },
  };
}
