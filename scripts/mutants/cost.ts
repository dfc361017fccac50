/** What an input costs, and what it may. */
import { withPeakMemory } from './peak-memory.ts';

/** Longest an input may take [ms of processor time]. */
const MOST_MS = 2000;
/** Most memory an input, or a server under many, may take [octets]. */
export const MOST_GROWN_OCTETS = 512 * 2 ** 20;

/** What trying an input came to. */
interface Tried {
  /** What was wrong; null: nothing. */
  readonly fault: string | null;
}

export interface Cost {
  readonly tookMs: number;
  readonly grownOctets: number;
}

/** Does the work; that it took too much is a fault, where it has no other. */
export function costed<T extends Tried>(work: () => T): T & Cost {
  const before = process.cpuUsage();
  const { result, grownOctets } = withPeakMemory(work);
  const { user, system } = process.cpuUsage(before);
  const tookMs = (user + system) / 1000;
  return { ...result, fault: result.fault ?? costFault({ tookMs, grownOctets }), tookMs, grownOctets };
}

function costFault({ tookMs, grownOctets }: Cost): string | null {
  if (tookMs > MOST_MS) return `took ${tookMs.toFixed(0)} ms`;
  return grownOctets > MOST_GROWN_OCTETS ? `grew by ${(grownOctets / 2 ** 20).toFixed(0)} MiB` : null;
}
