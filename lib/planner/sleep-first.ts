import { findingText, personFindings, shipTime } from '../reasons/index.ts';
import { formatUtc, slotEpochMs } from '../time/index.ts';
import { earliestSlot } from './not-earlier.ts';
import { gateStateAt } from './place.ts';
import type { SleepFirst } from './plan.ts';
import { publishedFinding } from './published-finding.ts';
import { personAfterSleeps, stayAwake } from './rest.ts';
import { rounded } from './rounded.ts';
import { slotWording } from './slot-wording.ts';
import type { SlotSleep } from './problem.ts';
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
  const atEpochMs = slotEpochMs(preparation.grid, slot);
  const findings = findingsAt(of, slot, before);
  if (findings.length === 0) return null;
  const wording = slotWording(preparation);
  const sleepH = inBunkH(sleeps, { fromSlot: slot, toSlot: entry.placed.startSlot }, slotMin);
  const against = findings.map((finding) => findingText(finding, wording)).join('; ');
  const timeOf = (ofSlot: number): string => shipTime(slotEpochMs(preparation.grid, ofSlot), wording);
  return {
    weatherFromUtc: formatUtc(atEpochMs),
    findings: findings.map(publishedFinding),
    sleepH,
    text: `Sleep first. From ${timeOf(slot)} the weather would do for "${unit.job.name}", but you would not: ${against}. ${slept()}`,
  };

  /** Sleep beyond what the job asks for is not said to be needed for it. */
  function slept(): string {
    const starts = `it starts at ${timeOf(entry.placed.startSlot)}.`;
    const fit = fitSlot(of, slot);
    if ((entry.placed.startSlot - fit) * slotMin < MUCH_LATER_MIN)
      return `So ${sleepH.toFixed(1)} h in the bunk come before it, and ${starts}`;
    const neededH = inBunkH(sleeps, { fromSlot: slot, toSlot: fit }, slotMin);
    return `After ${neededH.toFixed(1)} h in the bunk you would do from ${timeOf(fit)}; ${starts}`;
  }
}

/** From here on the sleep before a start is more than it asked for. */
const MUCH_LATER_MIN = 120;

/** Gates of the job that do not open at a slot, after these sleeps and awake since. */
function findingsAt({ preparation, solution, unit }: Explained, slot: number, sleeps: readonly SlotSleep[]) {
  const { grid, start, person } = preparation;
  const awake = stayAwake(personAfterSleeps(start, person, sleeps, grid.slotMin), slot, grid.slotMin);
  return personFindings(unit.job.id, {
    state: gateStateAt(solution.problem, awake),
    gate: unit.gate,
    epochMs: slotEpochMs(grid, slot),
  });
}

/** First slot, awake, at which the sleeps of the plan have opened every gate; its start where none is earlier. */
function fitSlot(of: Explained, afterSlot: number): number {
  const { sleeps } = of.solution.report;
  for (let slot = afterSlot; slot < of.entry.placed.startSlot; slot += 1) {
    if (sleeps.some(({ fromSlot, toSlot }) => fromSlot < slot && slot < toSlot)) continue;
    const before = sleeps.filter(({ toSlot }) => toSlot <= slot);
    if (findingsAt(of, slot, before).length === 0) return slot;
  }
  return of.entry.placed.startSlot;
}

function inBunkH(sleeps: readonly SlotSleep[], within: SlotSleep, slotMin: number): number {
  const slots = sleeps.map(
    ({ fromSlot, toSlot }) => Math.min(toSlot, within.toSlot) - Math.max(fromSlot, within.fromSlot),
  );
  return rounded((slots.reduce((sum, count) => sum + Math.max(0, count), 0) * slotMin) / 60, 1);
}
