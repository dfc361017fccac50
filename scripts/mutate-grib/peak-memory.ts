/** The largest memory a piece of work holds, seen from inside its own process. */
import { readFileSync, writeFileSync } from 'node:fs';

const OCTETS_OF_KB = 1024;
/** Above this what earlier work left behind is collected first, so that it is not reused unseen. */
const MOST_LEFT_OCTETS = 48 * 2 ** 20;

function statusOctets(name: 'VmRSS' | 'VmHWM'): number {
  const found = new RegExp(`^${name}:\\s+(\\d+) kB`, 'm').exec(readFileSync('/proc/self/status', 'utf8'));
  return Number(found?.[1] ?? Number.NaN) * OCTETS_OF_KB;
}

/**
 * Does the work and says by how many octets the process grew at the highest: pages touched, by the kernel's high-water mark
 * (proc(5): clear_refs 5, VmHWM). Memory asked for and never touched does not count. NaN where there is no such mark.
 */
export function withPeakMemory<T>(work: () => T): { readonly result: T; readonly grownOctets: number } {
  if (process.memoryUsage().arrayBuffers > MOST_LEFT_OCTETS) globalThis.gc?.();
  const before = markLow();
  const result = work();
  return { result, grownOctets: Number.isNaN(before) ? before : Math.max(0, statusOctets('VmHWM') - before) };
}

function markLow(): number {
  try {
    writeFileSync('/proc/self/clear_refs', '5');
    return statusOctets('VmRSS');
  } catch {
    return Number.NaN;
  }
}
