/** Loaded before a program that runs in a process of its own: on its end that process tells what it took, on file 3. */
import { readFileSync, writeSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

/** Linux counts what the process held before it became this program into `maxRSS`; its own highest mark stands in proc(5). */
function ownPeakKib() {
  try {
    return Number(/^VmHWM:\s*(\d+) kB$/m.exec(readFileSync('/proc/self/status', 'utf8'))[1]);
  } catch {
    return process.resourceUsage().maxRSS;
  }
}

if (isMainThread) {
  process.on('exit', () => {
    const { userCPUTime, systemCPUTime } = process.resourceUsage();
    writeSync(
      3,
      JSON.stringify({ processorMs: (userCPUTime + systemCPUTime) / 1000, peakOctets: ownPeakKib() * 1024 }),
    );
  });
}
