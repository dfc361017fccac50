import { readFileSync } from 'node:fs';

/** Numbers of /proc/PID/status (proc(5)) that are used; those in kB are given in octets. */
type StatusName = 'VmRSS' | 'VmHWM' | 'Threads';

/** NaN: another system, or the process has ended. */
export function processStatus(name: StatusName, pid: number | 'self' = 'self'): number {
  const [, figure, unit] = new RegExp(`^${name}:\\s+(\\d+)( kB)?`, 'm').exec(statusText(pid)) ?? [];
  return Number(figure ?? Number.NaN) * (unit === undefined ? 1 : 1024);
}

function statusText(pid: number | 'self'): string {
  try {
    return readFileSync(`/proc/${pid}/status`, 'utf8');
  } catch {
    return '';
  }
}
