import { findingText, personFindings, shipTime } from '../reasons/index.ts';
import { formatUtc, slotEpochMs } from '../time/index.ts';
import { earliestSlot } from './not-earlier.ts';
import { gateStateAt } from './place.ts';
import type { SleepFirst } from './plan.ts';
import { publishedFinding } from './published-finding.ts';
import { personAfterSleeps, stayAwake } from './rest.ts';
import { rounded } from './rounded.ts';
import { slotWording } from './slot-wording.ts';
import type { StartRun } from './start-runs.ts';
import type { Explained } from './why.ts';

/**
 * The earliest hour at which the weather would do for a job, where its watchkeeper, staying up for it, would not; null:
 * there is no such hour before the start, or something else must be finished first.
 *
 * @param runs starts that are fair in the weather, in order of time
 */
export function sleepFirst(of: Explained, runs: readonly StartRun[]): SleepFirst | null {
  const { preparation, solution, unit, entry } = of;
  const { problem, report, state } = solution;
  const readySlot = earliestSlot({ problem, state, unit });
  const run = runs.find(({ lastSlot }) => lastSlot >= readySlot);
  const slot = Math.max(readySlot, run?.firstSlot ?? Infinity);
  if (slot >= entry.placed.startSlot) return null;
  const sleeps = report.sleeps.filter(({ toSlot }) => toSlot > slot && toSlot <= entry.placed.startSlot);
  if (sleeps.length === 0) return null;
  const { slotMin } = preparation.grid;
  const before = report.sleeps.filter(({ toSlot }) => toSlot <= slot);
  const person = stayAwake(personAfterSleeps(preparation.start, preparation.person, before, slotMin), slot, slotMin);
  const atEpochMs = slotEpochMs(preparation.grid, slot);
  const findings = personFindings(unit.job.id, {
    state: gateStateAt(problem, person),
    gate: unit.gate,
    epochMs: atEpochMs,
  });
  if (findings.length === 0) return null;
  const wording = slotWording(preparation);
  const inBunkSlots = sleeps.reduce((sum, sleep) => sum + sleep.toSlot - Math.max(slot, sleep.fromSlot), 0);
  const sleepH = rounded((inBunkSlots * slotMin) / 60, 1);
  const against = findings.map((finding) => findingText(finding, wording)).join('; ');
  return {
    weatherFromUtc: formatUtc(atEpochMs),
    findings: findings.map(publishedFinding),
    sleepH,
    text: `Sleep first. From ${shipTime(atEpochMs, wording)} the weather would do for "${unit.job.name}", but you would not: ${against}. So ${sleepH.toFixed(1)} h in the bunk come before it, and it starts at ${shipTime(slotEpochMs(preparation.grid, entry.placed.startSlot), wording)}.`,
  };
}
