/** The largest memory a piece of work holds, seen from inside its own process. */
import { writeFileSync } from 'node:fs';
import { processStatus } from '../process-status.ts';

/** Above this what earlier work left behind is collected first, so that it is not reused unseen. */
const MOST_LEFT_OCTETS = 48 * 2 ** 20;

/**
 * Does the work and says by how many octets the process grew at the highest: pages touched, by the kernel's high-water mark
 * (proc(5): clear_refs 5, VmHWM). Memory asked for and never touched does not count. NaN where there is no such mark.
 */
export function withPeakMemory<T>(work: () => T): { readonly result: T; readonly grownOctets: number } {
  if (process.memoryUsage().arrayBuffers > MOST_LEFT_OCTETS) globalThis.gc?.();
  const before = markLow();
  const result = work();
  return { result, grownOctets: Number.isNaN(before) ? before : Math.max(0, processStatus('VmHWM') - before) };
}

function markLow(): number {
  try {
    writeFileSync('/proc/self/clear_refs', '5');
    return processStatus('VmRSS');
  } catch {
    return Number.NaN;
  }
}
