import { gateFindings, kssFromAlertness, tiredFactorRatio, type GateState } from '../person/index.ts';
import { findingText, personFindings, shipTime } from '../reasons/index.ts';
import { slotEpochMs } from '../time/index.ts';
import { gateStateAt } from './place.ts';
import type { Preparation } from './prepare.ts';
import type { SlotSleep, Unit } from './problem.ts';
import type { Report } from './report.ts';
import { personAfterSleeps, stayAwake } from './rest.ts';
import { slotWording } from './slot-wording.ts';
import type { Placed } from './state.ts';

/** What a sleep is for. */
export interface SleepWorth {
  readonly jobId: string | null;
  readonly text: string;
}

/**
 * What a sleep of a plan buys, together with those it shares free hours with: the first work after them that would not
 * pass its gate without them, or would take longer; else by how much more awake the next work begins. All other sleeps
 * stay as they are.
 */
export function sleepWorth(preparation: Preparation, report: Report, sleep: SlotSleep): SleepWorth {
  const after = report.entries.map(({ placed }) => placed).filter(({ startSlot }) => startSlot >= sleep.toSlot);
  const together = oneRest(preparation, report, sleep);
  const others = report.sleeps.filter((other) => !together.includes(other));
  const asked = { preparation, report, others, together };
  for (const placed of after) {
    const worth = barredWithout(asked, placed);
    if (worth !== null) return worth;
  }
  for (const placed of after) {
    const worth = slowerWithout(asked, placed);
    if (worth !== null) return worth;
  }
  const [next] = after;
  return next === undefined ? restAfterwards(asked) : moreAwake(asked, next);
}

/** Sleeps with nothing but a look round between them and the one asked about. */
function oneRest({ grid }: Preparation, report: Report, sleep: SlotSleep): SlotSleep[] {
  const nearSlots = MOST_UP_BETWEEN_MIN / grid.slotMin;
  const { sleeps } = report;
  const k = sleeps.findIndex(({ fromSlot }) => fromSlot === sleep.fromSlot);
  const isNear = (a: SlotSleep | undefined, b: SlotSleep | undefined): boolean =>
    a !== undefined && b !== undefined && b.fromSlot - a.toSlot <= nearSlots && !isWorkBetween(report, a, b);
  let [first, last] = [k, k];
  while (isNear(sleeps[first - 1], sleeps[first])) first -= 1;
  while (isNear(sleeps[last], sleeps[last + 1])) last += 1;
  return sleeps.slice(first, last + 1);
}

/** Up for longer than this makes two rests of it. */
const MOST_UP_BETWEEN_MIN = 60;

const isWorkBetween = ({ entries }: Report, a: SlotSleep, b: SlotSleep): boolean =>
  entries.some(({ placed }) => placed.startSlot >= a.toSlot && placed.startSlot < b.fromSlot);

interface Asked {
  readonly preparation: Preparation;
  readonly report: Report;
  /** The sleep asked about, with those of the same free hours, and all the rest. */
  readonly together: readonly SlotSleep[];
  readonly others: readonly SlotSleep[];
}

const without = ({ together }: Asked): string =>
  together.length === 1 ? 'Without this sleep' : `Without these ${together.length} sleeps`;

function stateAt({ preparation }: Asked, sleeps: readonly SlotSleep[], slot: number): GateState {
  const { start, person, grid } = preparation;
  const had = sleeps.filter(({ toSlot }) => toSlot <= slot);
  return gateStateAt(preparation, stayAwake(personAfterSleeps(start, person, had, grid.slotMin), slot, grid.slotMin));
}

const unitOf = ({ preparation }: Asked, placed: Placed): Unit | undefined => preparation.units[placed.unit];

function nameAndTime(asked: Asked, placed: Placed): string {
  const { preparation } = asked;
  const time = shipTime(slotEpochMs(preparation.grid, placed.startSlot), slotWording(preparation));
  return `"${unitOf(asked, placed)?.job.name ?? ''}" (${time})`;
}

function barredWithout(asked: Asked, placed: Placed): SleepWorth | null {
  const unit = unitOf(asked, placed);
  if (unit === undefined) return null;
  for (const slot of [placed.startSlot, placed.endSlot]) {
    const state = stateAt(asked, asked.others, slot);
    if (gateFindings(state, unit.gate).length === 0) continue;
    const epochMs = slotEpochMs(asked.preparation.grid, slot);
    const [finding] = personFindings(unit.job.id, { state, gate: unit.gate, epochMs });
    const against = finding === undefined ? '' : findingText(finding, slotWording(asked.preparation));
    const when = slot === placed.startSlot ? '' : 'at its end ';
    return {
      jobId: unit.job.id,
      text: `${without(asked)} ${nameAndTime(asked, placed)} is barred: ${when}${against}.`,
    };
  }
  return null;
}

function slowerWithout(asked: Asked, placed: Placed): SleepWorth | null {
  const unit = unitOf(asked, placed);
  const kssPoints = kssFromAlertness(stateAt(asked, asked.others, placed.startSlot).alertnessPoints);
  const tiredRatio = tiredFactorRatio(kssPoints, asked.preparation.person.watchkeeper.timeFactors);
  if (unit === undefined || (tiredRatio !== null && tiredRatio <= placed.tiredRatio + 1e-9)) return null;
  const sleepier = `sleepiness ${kssPoints.toFixed(1)} instead of ${placed.kssStart.toFixed(1)}`;
  const name = nameAndTime(asked, placed);
  if (tiredRatio === null) return { jobId: unit.job.id, text: `${without(asked)} ${name} is refused: ${sleepier}.` };
  const longerMin = placed.workMin * (tiredRatio / placed.tiredRatio - 1);
  return {
    jobId: unit.job.id,
    text: `${without(asked)} ${name} takes ${longerMin.toFixed(0)} min longer: ${sleepier}.`,
  };
}

function moreAwake(asked: Asked, next: Placed): SleepWorth {
  const [own, unslept] = [asked.report.sleeps, asked.others].map((sleeps) => stateAt(asked, sleeps, next.startSlot));
  const points = (state: GateState | undefined): string => (state?.alertnessPoints ?? 0).toFixed(1);
  return {
    jobId: unitOf(asked, next)?.job.id ?? null,
    text: `${nameAndTime(asked, next)} begins at alertness ${points(own)} instead of ${points(unslept)}.`,
  };
}

function restAfterwards(asked: Asked): SleepWorth {
  const wokeSlot = asked.together.at(-1)?.toSlot ?? 0;
  const [own, unslept] = [asked.report.sleeps, asked.others].map((sleeps) => stateAt(asked, sleeps, wokeSlot));
  const change = (of: (state: GateState) => number): string =>
    own === undefined || unslept === undefined ? '' : `${of(own).toFixed(1)} instead of ${of(unslept).toFixed(1)}`;
  return {
    jobId: null,
    text: `Rest after the work: in the end alertness ${change((state) => state.alertnessPoints)}, lapses ${change((state) => state.lapses)}.`,
  };
}
