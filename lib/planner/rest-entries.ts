import { kssFromAlertness } from '../person/index.ts';
import { formatUtc, slotEpochMs } from '../time/index.ts';
import { LIGHTS } from '../voyage/index.ts';
import type { PlanEntry } from './plan.ts';
import type { Preparation } from './prepare.ts';
import type { PersonAtSlot } from './problem.ts';
import type { Report } from './report.ts';
import { rounded } from './rounded.ts';
import { overAt } from './wait-table.ts';

const LOOKOUT_SLOTS = 1;

/** Background waits of a plan: soaks and cures that need nobody, to the end of its forecast at most. */
export function waitEntries(preparation: Preparation, report: Report): PlanEntry[] {
  return report.entries.flatMap(({ placed }) => {
    const unit = preparation.units[placed.unit];
    if (unit === undefined || !placed.finishes || unit.block.waitAfter === null) return [];
    const overSlot = Math.min(overAt(unit.waitSlots, placed.endSlot), preparation.grid.slotCount - 1);
    if (overSlot <= placed.endSlot) return [];
    const span = { kind: 'wait', fromSlot: placed.endSlot, toSlot: overSlot } as const;
    const stepIds = [unit.block.steps.at(-1)?.id ?? ''];
    return [{ ...restEntry(preparation, report, span), jobId: unit.job.id, stepIds }];
  });
}

/** Sleep of a plan, and the look round after each sleep, to the end of its horizon. */
export function restEntries(preparation: Preparation, report: Report): PlanEntry[] {
  const entries: PlanEntry[] = [];
  for (const [index, sleep] of report.sleeps.entries()) {
    entries.push(restEntry(preparation, report, { kind: 'sleep', ...sleep }));
    const next = report.sleeps[index + 1];
    const toSlot = sleep.toSlot + LOOKOUT_SLOTS;
    const isFree = !report.entries.some(({ placed }) => placed.startSlot < toSlot && placed.endSlot > sleep.toSlot);
    const isInside = toSlot <= preparation.untilSlot;
    if (isInside && isFree && (next === undefined || next.fromSlot >= toSlot)) {
      entries.push(restEntry(preparation, report, { kind: 'lookout', fromSlot: sleep.toSlot, toSlot }));
    }
  }
  return entries;
}

function restEntry(
  preparation: Preparation,
  report: Report,
  rest: { kind: 'sleep' | 'lookout' | 'wait'; fromSlot: number; toSlot: number },
): PlanEntry {
  const kssAt = (slotIndex: number): number => {
    const person = report.personBySlot[slotIndex - preparation.fromSlot];
    return person === undefined ? 0 : rounded(kssOfPerson(preparation, person), 2);
  };
  const last = report.entries.findLast(({ placed }) => placed.endSlot <= rest.fromSlot)?.placed;
  const block = preparation.units[last?.unit ?? -1]?.block;
  return {
    startUtc: formatUtc(slotEpochMs(preparation.grid, rest.fromSlot)),
    endUtc: formatUtc(slotEpochMs(preparation.grid, rest.toSlot)),
    kind: rest.kind,
    jobId: null,
    stepIds: [],
    handling: null,
    sailState:
      (last?.finishes === true ? block?.sailStateAfter : null) ??
      last?.sailStateId ??
      preparation.passage.start.sailStateId,
    place: null,
    settleMin: 0,
    factors: [],
    factorsTogetherRatio: null,
    restAfterMin: 0,
    lat: rounded(report.course.lat[rest.fromSlot] ?? 0, 3),
    lon: rounded(report.course.lon[rest.fromSlot] ?? 0, 3),
    deckWindKn: null,
    light: LIGHTS[preparation.lag.conditionsAt(0).light[rest.fromSlot] ?? 3] ?? 'night',
    kssStart: kssAt(rest.fromSlot),
    kssEnd: kssAt(Math.min(rest.toSlot, preparation.grid.slotCount - 1)),
  };
}

/** Mean sleepiness at the person's slot. */
function kssOfPerson(preparation: Preparation, person: PersonAtSlot): number {
  return kssFromAlertness(person.s + (preparation.person.rhythm[person.slot] ?? 0));
}
