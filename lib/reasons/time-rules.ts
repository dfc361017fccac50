/** Rules of the clock: minutes too early, too late, or in an hour that is not to be worked in. */
import type { UtcInterval } from '../time/index.ts';
import { MS_PER_MIN } from '../time/index.ts';
import type { Finding } from './finding.ts';
import { atLeast, atMost } from './finding.ts';

/** Work from its start to its planned end. */
export interface WorkSpan extends UtcInterval {
  readonly jobId: string;
}

const minutesFrom = (fromEpochMs: number, toEpochMs: number): number => (toEpochMs - fromEpochMs) / MS_PER_MIN;

/** Nothing can be begun before the plan begins. */
export function pastFinding(work: WorkSpan, nowEpochMs: number): Finding {
  const observed = minutesFrom(nowEpochMs, work.startEpochMs);
  return atLeast({ rule: 'past', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs: nowEpochMs });
}

/** Work ends before the plan, or the forecast, does. */
export function horizonFinding(work: WorkSpan, untilEpochMs: number): Finding {
  const observed = minutesFrom(untilEpochMs, work.endEpochMs);
  return atMost({ rule: 'horizon', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs: untilEpochMs });
}

/** Parts or helpers are there from an instant on. */
export function notBeforeFinding(work: WorkSpan, notBeforeEpochMs: number): Finding {
  const observed = minutesFrom(notBeforeEpochMs, work.startEpochMs);
  const atEpochMs = notBeforeEpochMs;
  return atLeast({ rule: 'not-before', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs });
}

/** The skipper wants it done by an instant. */
export function finishByFinding(work: WorkSpan, finishByEpochMs: number): Finding {
  const observed = minutesFrom(finishByEpochMs, work.endEpochMs);
  const atEpochMs = finishByEpochMs;
  return atMost({ rule: 'finish-by', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs });
}

/** Minutes of the work that lie in hours it may not be worked in, and where they begin. */
export function forbiddenFinding(work: WorkSpan, forbidden: UtcInterval): Finding {
  const observed = sharedMin(work, forbidden);
  const atEpochMs = Math.max(work.startEpochMs, forbidden.startEpochMs);
  return atMost({ rule: 'forbidden-hours', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs });
}

/** One person does one thing at a time: minutes shared with another piece of work, or with sleep. */
export function overlapFinding(work: WorkSpan, other: UtcInterval & { readonly name: string }): Finding {
  const observed = sharedMin(work, other);
  const atEpochMs = Math.max(work.startEpochMs, other.startEpochMs);
  const names = [other.name];
  return atMost({ rule: 'overlap', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs, names });
}

/** There is one of each tool on board: minutes of the work in which another job holds it, waits after its work included. */
export function toolFinding(
  work: WorkSpan,
  held: UtcInterval & { readonly tool: string; readonly byName: string },
): Finding {
  const observed = sharedMin(work, held);
  const atEpochMs = Math.max(work.startEpochMs, held.startEpochMs);
  const names = [held.tool, held.byName];
  return atMost({ rule: 'tool', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs, names });
}

/** Hands rest between two sessions of one piece of work. */
export function sessionRestFinding(work: WorkSpan, of: { endedEpochMs: number; restMin: number }): Finding {
  const observed = minutesFrom(of.endedEpochMs, work.startEpochMs);
  const atEpochMs = work.startEpochMs;
  return atLeast({ rule: 'session-rest', jobId: work.jobId, observed, required: of.restMin, unit: 'min', atEpochMs });
}

/** The body rests between heavy work of two jobs. */
export function effortRestFinding(
  work: WorkSpan,
  of: { endedEpochMs: number; restMin: number; afterId: string },
): Finding {
  const observed = minutesFrom(of.endedEpochMs, work.startEpochMs);
  const common = { rule: 'effort-rest', jobId: work.jobId, unit: 'min', names: [of.afterId] } as const;
  return atLeast({ ...common, observed, required: of.restMin, atEpochMs: work.startEpochMs });
}

/** The boat is settled under the handling before the work begins: minutes since hands were last busy. */
export function settleFinding(
  work: WorkSpan,
  of: { freeFromEpochMs: number; settleMin: number; handlingId: string },
): Finding {
  const observed = minutesFrom(of.freeFromEpochMs, work.startEpochMs);
  const common = { rule: 'settle', jobId: work.jobId, unit: 'min', atEpochMs: work.startEpochMs } as const;
  return atLeast({ ...common, observed, required: of.settleMin, names: [of.handlingId] });
}

/** No sleep is longer than the traffic allows; it belongs to no job. */
export function longestSleepFinding(sleep: UtcInterval, longestSleepMin: number): Finding {
  const observed = minutesFrom(sleep.startEpochMs, sleep.endEpochMs);
  const common = { rule: 'longest-sleep', jobId: '', unit: 'min', atEpochMs: sleep.startEpochMs } as const;
  return atMost({ ...common, observed, required: longestSleepMin });
}

/** A start the skipper has fixed stays where it is: minutes away from it, either way. */
export function lockFinding(work: WorkSpan, lockedStartEpochMs: number): Finding {
  const observed = Math.abs(minutesFrom(lockedStartEpochMs, work.startEpochMs));
  const atEpochMs = lockedStartEpochMs;
  return atMost({ rule: 'lock', jobId: work.jobId, observed, required: 0, unit: 'min', atEpochMs });
}

/** Minutes two spans share; touching spans share none. */
function sharedMin(a: UtcInterval, b: UtcInterval): number {
  const fromEpochMs = Math.max(a.startEpochMs, b.startEpochMs);
  return Math.max(0, minutesFrom(fromEpochMs, Math.min(a.endEpochMs, b.endEpochMs)));
}
