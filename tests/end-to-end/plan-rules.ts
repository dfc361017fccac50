/** Rules every published plan must keep, read from its JSON alone. */
import type { Plan, PlanEntry } from '../../lib/planner/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../lib/time/index.ts';

export const ofJob = (plan: Plan, jobId: string): readonly PlanEntry[] =>
  plan.entries.filter((entry) => entry.jobId === jobId);

export function jobOf(plan: Plan, jobId: string): Plan['jobs'][number] {
  const job = plan.jobs.find((candidate) => candidate.jobId === jobId);
  if (job === undefined) throw new Error(`no job ${jobId}`);
  return job;
}

export const startMs = ({ startUtc }: { startUtc: string | null }): number => Date.parse(startUtc ?? '');
export const endMs = ({ endUtc }: { endUtc: string | null }): number => Date.parse(endUtc ?? '');
export const hoursBetween = (fromMs: number, toMs: number): number => (toMs - fromMs) / MS_PER_H;

/** Pairs of entries that claim the one person at the same time, work or sleep. */
export function overlaps(plan: Plan): readonly string[] {
  // Background waits need nobody.
  const inOrder = plan.entries.filter(({ kind }) => kind !== 'wait').toSorted((a, b) => startMs(a) - startMs(b));
  return inOrder.flatMap((entry, index) => {
    const before = inOrder[index - 1];
    return before !== undefined && endMs(before) > startMs(entry)
      ? [`${before.kind} ${before.startUtc} and ${entry.kind} ${entry.startUtc}`]
      : [];
  });
}

/** Hours of sleep between two instants. */
export function sleepH(plan: Plan, fromMs: number, toMs: number): number {
  return plan.entries
    .filter(({ kind }) => kind === 'sleep')
    .reduce((sum, sleep) => {
      const lastMs = Math.min(toMs, endMs(sleep));
      return sum + Math.max(0, hoursBetween(Math.max(fromMs, startMs(sleep)), lastMs));
    }, 0);
}

/** Minutes awake before an entry begins; null where no sleep of the plan stands before it. */
export function awakeMinBefore(plan: Plan, entry: PlanEntry): number | null {
  const wokenMs = plan.entries.filter(({ kind, endUtc }) => kind === 'sleep' && endUtc <= entry.startUtc).map(endMs);
  return wokenMs.length === 0 ? null : (startMs(entry) - Math.max(...wokenMs)) / MS_PER_MIN;
}

/** Hour of day of the sun at a longitude, mean time: the body clock of a sailor without a lag. */
export const solarHourH = (epochMs: number, lon: number): number => (((epochMs / MS_PER_H + lon / 15) % 24) + 24) % 24;

/**
 * Height of the sun's centre [degrees], without refraction: low-precision formulae of the Astronomical Almanac
 * (section C; from memory), good to 0.05 degrees in this century.
 */
export function sunAltitudeDeg(epochMs: number, at: { lat: number; lon: number }): number {
  const rad = (deg: number): number => (deg * Math.PI) / 180;
  const days = (epochMs - Date.UTC(2000, 0, 1, 12)) / (24 * MS_PER_H);
  const meanLonDeg = 280.46 + 0.985_647_4 * days;
  const anomaly = rad(357.528 + 0.985_600_3 * days);
  const lambda = rad(meanLonDeg + 1.915 * Math.sin(anomaly) + 0.02 * Math.sin(2 * anomaly));
  const obliquity = rad(23.439 - 4e-7 * days);
  const declination = Math.asin(Math.sin(obliquity) * Math.sin(lambda));
  const ascension = Math.atan2(Math.cos(obliquity) * Math.sin(lambda), Math.cos(lambda));
  const siderealDeg = 280.460_618_37 + 360.985_647_366_29 * days;
  const hourAngle = rad(siderealDeg + at.lon) - ascension;
  const lat = rad(at.lat);
  const sine = Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(hourAngle);
  return (Math.asin(sine) * 180) / Math.PI;
}

/**
 * Mean sleepiness at an alertness: 9.68 - 0.46 points, three-process model (Ingre et al. 2014, PLoS ONE
 * 9(10):e108679); agrees with `tests/golden/person`: 11.2545 gives 4.5029, 7.6309 gives 6.1698.
 */
export const kssAt = (alertnessPoints: number): number => 9.68 - 0.46 * alertnessPoints;
