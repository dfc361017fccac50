import { failed, ok, type Result } from '../../../lib/result/index.ts';
import { formatUtc, MS_PER_H, MS_PER_MIN } from '../../../lib/time/index.ts';
import type { ForecastSource } from './source.ts';

const MS_PER_DAY = 24 * MS_PER_H;

/** The latest cycle whose steps should all be published at `nowEpochMs`, as an instant UTC. */
export function latestCycle(source: Pick<ForecastSource, 'cyclesH' | 'delayMin'>, nowEpochMs: number): number {
  const readyEpochMs = nowEpochMs - source.delayMin * MS_PER_MIN;
  const dayEpochMs = Math.floor(readyEpochMs / MS_PER_DAY) * MS_PER_DAY;
  const ofTwoDays = [dayEpochMs - MS_PER_DAY, dayEpochMs].flatMap((startEpochMs) =>
    source.cyclesH.map((cycleH) => startEpochMs + cycleH * MS_PER_H),
  );
  return Math.max(...ofTwoDays.filter((cycleEpochMs) => cycleEpochMs <= readyEpochMs));
}

/**
 * A cycle as it is asked for: `latest`, or the hour it began, `2026-05-27T18`.
 *
 * @returns `source.cycle-unreadable` | `source.no-such-cycle` | `source.cycle-not-yet`
 */
export function parseCycle(asked: string, source: ForecastSource, nowEpochMs: number): Result<number> {
  if (asked === 'latest') return ok(latestCycle(source, nowEpochMs));
  const cycleEpochMs = /^\d{4}-\d{2}-\d{2}T\d{2}(:00)?Z?$/.test(asked)
    ? Date.parse(`${asked.slice(0, 13)}:00Z`)
    : Number.NaN;
  const hours = source.cyclesH.map((cycleH) => String(cycleH).padStart(2, '0')).join(', ');
  const problem = (code: string, what: string, expected: string) =>
    failed({ code, where: `cycle ${asked}`, what, expected, remedy: 'Give another one, or latest.' });
  // Date.parse takes the 30th of February for the 2nd of March.
  if (Number.isNaN(cycleEpochMs) || !formatUtc(cycleEpochMs).startsWith(asked.slice(0, 13)))
    return problem('source.cycle-unreadable', 'It is no date and hour.', 'latest, or such as 2026-05-27T18');
  if (!source.cyclesH.includes(new Date(cycleEpochMs).getUTCHours()))
    return problem('source.no-such-cycle', `${source.name} has no run at this hour.`, `an hour of ${hours} UTC`);
  if (cycleEpochMs > nowEpochMs)
    return problem('source.cycle-not-yet', 'This run has not begun yet.', `at the latest ${formatUtc(nowEpochMs)}`);
  return ok(cycleEpochMs);
}
