import { toolsLeft, type Job, type JobReadiness } from '../jobs/index.ts';
import type { Finding, WorkSpan } from '../reasons/index.ts';
import {
  broken,
  effortRestFinding,
  finishByFinding,
  forbiddenFinding,
  handlingFinding,
  handlingStateFinding,
  horizonFinding,
  lockFinding,
  lockHandlingFinding,
  materialFindings,
  notBeforeFinding,
  overlapFinding,
  pastFinding,
  personFindings,
  precedenceFinding,
  sailStateFinding,
  sessionRestFinding,
  settleFinding,
  toolFinding,
  twiceFinding,
} from '../reasons/index.ts';
import { waitSlotsAt } from '../schedule/index.ts';
import { itemKey } from '../stock/index.ts';
import { MS_PER_MIN, slotEpochMs } from '../time/index.ts';
import { effortRestMin, isHeavy } from './effort-rest.ts';
import type { OwnPlan } from './own-plan-input.ts';
import type { WalkedEntry } from './own-plan-walk.ts';
import type { Preparation } from './prepare.ts';
import { passageReadiness, shortsOf } from './readiness.ts';
import type { Unit } from './problem.ts';

/** Names of what is no job: sleep, in overlaps. */
const SLEEP_NAME = 'sleep';

/** All that speaks against each walked entry, the weather left out; in the order of the entries. */
export function ownFindings(preparation: Preparation, walked: readonly WalkedEntry[], own: OwnPlan): Finding[][] {
  const begunIds = [...new Set(walked.map(({ jobId }) => jobId))];
  const facts = { preparation, walked, own, readiness: passageReadiness(preparation.passage, begunIds) };
  return walked.map((entry, index) =>
    broken([
      ...storeFindings(facts, entry, index),
      ...clockFindings(facts, entry),
      ...orderFindings(facts, entry, index),
      ...gearFindings(facts, entry, index),
      ...handsFindings(facts, entry, index),
      ...fitnessFindings(facts, entry),
    ]),
  );
}

interface Facts {
  readonly preparation: Preparation;
  readonly walked: readonly WalkedEntry[];
  readonly own: OwnPlan;
  /** Jobs of the plan, each taking from the locker in the order it is begun. */
  readonly readiness: readonly JobReadiness[];
}

function spanOf({ preparation }: Facts, entry: WalkedEntry): WorkSpan {
  const epochMs = (slot: number): number => slotEpochMs(preparation.grid, slot);
  return { jobId: entry.jobId, startEpochMs: epochMs(entry.startSlot), endEpochMs: epochMs(entry.endSlot) };
}

/** Parts and tools, told with the first entry of a job: jobs begun earlier in the plan have taken theirs. */
function storeFindings({ walked, readiness }: Facts, entry: WalkedEntry, index: number): Finding[] {
  const isFirst = walked.findIndex((other) => other.jobId === entry.jobId) === index;
  const found = readiness.find(({ jobId }) => jobId === entry.jobId);
  return isFirst && found !== undefined ? materialFindings(entry.jobId, shortsOf(found)) : [];
}

function clockFindings(facts: Facts, entry: WalkedEntry): Finding[] {
  const { grid, fromSlot, untilSlot, passage } = facts.preparation;
  const span = spanOf(facts, entry);
  const order = passage.orders.jobs.get(entry.jobId);
  const isFirst = facts.walked.find((other) => other.jobId === entry.jobId) === entry;
  const at = <T>(epochMs: number | null | undefined, rule: (epochMs: number) => T): T[] =>
    epochMs === null || epochMs === undefined ? [] : [rule(epochMs)];
  return [
    pastFinding(span, slotEpochMs(grid, fromSlot)),
    horizonFinding(span, slotEpochMs(grid, untilSlot)),
    ...at(order?.notBeforeEpochMs, (epochMs) => notBeforeFinding(span, epochMs)),
    ...at(order?.finishByEpochMs, (epochMs) => finishByFinding(span, epochMs)),
    ...(isFirst ? at(order?.lockedStartEpochMs, (epochMs) => lockFinding(span, epochMs)) : []),
    ...passage.orders.forbidden
      .filter(({ jobId }) => jobId === null || jobId === entry.jobId)
      .map(({ fromEpochMs, toEpochMs }) =>
        forbiddenFinding(span, { startEpochMs: fromEpochMs, endEpochMs: toEpochMs }),
      ),
  ];
}

function orderFindings(facts: Facts, entry: WalkedEntry, index: number): Finding[] {
  const { jobId, unit } = entry;
  const { startEpochMs } = spanOf(facts, entry);
  const isDoneBefore = facts.walked
    .slice(0, index)
    .some((other) => other.finishes && unit !== null && other.unit?.index === unit.index);
  if (unit === null || isDoneBefore) return [twiceFinding({ jobId, leftMin: 0, startEpochMs })];
  return [
    ...unit.predecessors.map((before) => beforeFinding(facts, entry, before)),
    ...sessionFindings(facts, entry, index),
  ];
}

function beforeFinding(facts: Facts, entry: WalkedEntry, before: Unit['predecessors'][number]): Finding {
  const { units, grid } = facts.preparation;
  const finished = facts.walked.find((other) => other.finishes && other.unit?.index === before.unit);
  return precedenceFinding({
    jobId: entry.jobId,
    beforeId: units[before.unit]?.job.id ?? '',
    startEpochMs: spanOf(facts, entry).startEpochMs,
    finishedEpochMs: finished === undefined ? null : spanOf(facts, finished).endEpochMs,
    waitMin: waitSlotsAt(before.waitSlots, finished?.endSlot ?? 0) * grid.slotMin,
  });
}

function sessionFindings(facts: Facts, entry: WalkedEntry, index: number): Finding[] {
  const last = facts.walked.slice(0, index).at(-1);
  const session = entry.unit?.block.session ?? null;
  if (session === null || last === undefined || last.unit?.index !== entry.unit?.index) return [];
  const endedEpochMs = spanOf(facts, last).endEpochMs;
  return [sessionRestFinding(spanOf(facts, entry), { endedEpochMs, restMin: session.restMin })];
}

function gearFindings(facts: Facts, entry: WalkedEntry, index: number): Finding[] {
  const { jobId, unit, handling, sailStateId } = entry;
  if (unit === null) return [];
  const span = spanOf(facts, entry);
  const { startEpochMs } = span;
  const lockedId = facts.preparation.passage.orders.jobs.get(jobId)?.lockedHandlingId ?? null;
  return [
    sailStateFinding({ jobId, sailStateId, allowedIds: unit.sailStates, startEpochMs }),
    handlingFinding({ jobId, handlingId: handling?.id ?? '', allowedIds: unit.job.handlings, startEpochMs }),
    ...(handling === null ? [] : [handlingStateFinding({ jobId, sailStateId, handling, startEpochMs })]),
    ...(handling === null || lockedId === null
      ? []
      : [lockHandlingFinding({ jobId, handlingId: handling.id, lockedId, startEpochMs })]),
    ...settleFindings(facts, entry, index),
    ...toolFindings(facts, entry),
    ...effortRestFindings(facts, entry, index),
  ];
}

/** Time to settle the boat, unless she lies under the same handling from the work just before. */
function settleFindings(facts: Facts, entry: WalkedEntry, index: number): Finding[] {
  const settleMin = entry.handling?.settleMin ?? 0;
  const last = facts.walked.slice(0, index).at(-1);
  const isSettled = last?.handling?.id === entry.handling?.id && last?.endSlot === entry.startSlot;
  if (entry.handling === null || settleMin === 0 || isSettled) return [];
  const span = spanOf(facts, entry);
  const busy = [
    slotEpochMs(facts.preparation.grid, facts.preparation.fromSlot),
    ...(last === undefined ? [] : [spanOf(facts, last).endEpochMs]),
    ...facts.own.sleeps.map((sleep) => sleep.endEpochMs),
  ].filter((epochMs) => epochMs <= span.startEpochMs);
  const freeFromEpochMs = Math.max(...busy);
  return [settleFinding(span, { freeFromEpochMs, settleMin, handlingId: entry.handling.id })];
}

/** Another job holds a tool that this one holds or uses, from its first work to the end of its last wait. */
function toolFindings(facts: Facts, entry: WalkedEntry): Finding[] {
  const { orders, jobs } = facts.preparation.passage;
  const isHeld = (job: Job, tool: string): boolean =>
    orders.jobs.get(job.id)?.tools.some((held) => itemKey(held) === itemKey(tool)) === true;
  return jobs
    .filter(({ id }) => id === entry.jobId)
    .flatMap((job) => toolsLeft(job, orders.jobs))
    .flatMap((tool) =>
      jobs
        .filter((job) => job.id !== entry.jobId && isHeld(job, tool))
        .flatMap((job) => {
          const spans = facts.walked.filter((other) => other.jobId === job.id && other.unit !== null);
          const [first] = spans;
          const last = spans.at(-1);
          if (first === undefined || last === undefined) return [];
          const waitSlots = last.finishes ? waitSlotsAt(last.unit?.waitSlots ?? 0, last.endSlot) : 0;
          const waitMs = waitSlots * facts.preparation.grid.slotMin * MS_PER_MIN;
          const held = {
            startEpochMs: spanOf(facts, first).startEpochMs,
            endEpochMs: spanOf(facts, last).endEpochMs + waitMs,
          };
          return [toolFinding(spanOf(facts, entry), { ...held, tool, byName: job.id })];
        }),
    );
}

/** Rest after heavy work of another job. */
function effortRestFindings(facts: Facts, entry: WalkedEntry, index: number): Finding[] {
  if (entry.unit === null || !isHeavy(entry.unit)) return [];
  return facts.walked.slice(0, index).flatMap((before) => {
    if (before.unit === null || before.jobId === entry.jobId || !before.finishes) return [];
    const restMin = effortRestMin(before.unit, facts.preparation.passage.watchkeeper);
    if (restMin === 0) return [];
    const endedEpochMs = spanOf(facts, before).endEpochMs;
    return [effortRestFinding(spanOf(facts, entry), { endedEpochMs, restMin, afterId: before.jobId })];
  });
}

/** One thing at a time: the work before that is not over, and sleep that lies in the work. */
function handsFindings(facts: Facts, entry: WalkedEntry, index: number): Finding[] {
  const span = spanOf(facts, entry);
  const earlier = facts.walked.slice(0, index).map((other) => ({ ...spanOf(facts, other), name: other.jobId }));
  const asleep = facts.own.sleeps.map((sleep) => ({ ...sleep, name: SLEEP_NAME }));
  return [...earlier, ...asleep].map((other) => overlapFinding(span, other));
}

/** Gates at the start and at the end; what fails at both is told once, from the start. */
function fitnessFindings({ preparation }: Facts, entry: WalkedEntry): Finding[] {
  const { unit, jobId } = entry;
  if (unit === null) return [];
  const epochMs = (slot: number): number => slotEpochMs(preparation.grid, slot);
  const atStart = personFindings(jobId, { state: entry.gateStart, gate: unit.gate, epochMs: epochMs(entry.startSlot) });
  const atEnd = personFindings(jobId, { state: entry.gateEnd, gate: unit.gate, epochMs: epochMs(entry.endSlot) });
  return [...atStart, ...atEnd.filter((finding) => !atStart.some(({ rule }) => rule === finding.rule))];
}
