import type { Finding, StartStretch } from '../reasons/index.ts';
import {
  costFinding,
  forbiddenFinding,
  jointFinding,
  notBeforeFinding,
  overlapFinding,
  personFindings,
  probabilityFinding,
  settleFinding,
  startJudge,
  whyNotEarlier,
} from '../reasons/index.ts';
import { slotEpochMs } from '../time/index.ts';
import type { UtcInterval } from '../time/index.ts';
import { fullMask, intersect, setOfTable, totalWeight, weightOf } from '../windows/index.ts';
import type { StartJudge } from '../reasons/index.ts';
import { LEAST_PLANNED_ALERTNESS_POINTS } from './model/unit-tasks.ts';
import { gateStateAt } from './place.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import type { Report } from './report.ts';
import { exposurePoints, POINTS_PER_LOST_NM, tiredPoints } from './score.ts';
import type { Placed, PlanState } from './state.ts';
import { placedInOrder } from './state.ts';
import { overAt } from './wait-table.ts';

/** An entry of a plan whose earlier starts are asked about. */
export interface AskedEntry {
  /** Limits as they stand. */
  readonly problem: PlanningProblem;
  readonly state: PlanState;
  readonly report: Report;
  readonly unit: Unit;
  readonly placed: Placed;
}

/**
 * What stands against an earlier start of an entry, the rest of the plan staying as it is.
 *
 * Asked of every slot from when what must come before is finished: the weather under every handling, the person as the
 * plan finds them then, the other entries, the joint probability, and last the cost.
 */
export function notEarlier(asked: AskedEntry): StartStretch[] {
  const judges = judgesOf(asked);
  const jointNow = weightOf(asked.state.mask, asked.problem.weights);
  const others = jointOfOthers(asked);
  return whyNotEarlier({
    fromSlot: earliestSlot(asked),
    plannedSlot: asked.placed.startSlot,
    against: (slot) => {
      const plain = [...orderFindings(asked, slot), ...personAt(asked, slot), ...overlaps(asked, slot)];
      return judges.map((judge) => [
        ...weatherAt(asked, judge, slot),
        ...plain,
        ...settling(asked, judge, slot),
        ...restOfPlan(asked, { judge, slot, jointNowWeight: jointNow, others }),
      ]);
    },
  });
}

/** When all that must come before it is finished, and has had its wait. */
export function earliestSlot({ problem, state, unit }: Pick<AskedEntry, 'problem' | 'state' | 'unit'>): number {
  return Math.max(
    problem.fromSlot,
    ...unit.predecessors.map((before) => overAt(before.waitSlots, state.finishedSlot[before.unit] ?? 0)),
  );
}

function judgesOf({ problem, unit, placed }: AskedEntry): StartJudge[] {
  const { sailStateId, workMin, resumeMin, tiredRatio } = placed;
  const search = {
    conditions: problem.lag.conditionsAt(placed.lagNm),
    settings: problem.settings,
    wantedProbability: problem.neededWeight / totalWeight(problem.weights),
  };
  return unit.handlings
    .filter((handling) => handling.sailStates.includes(sailStateId))
    .map((handling) =>
      startJudge({ block: unit.block, handling, sailStateId, workMin, resumeMin, tiredRatio }, search),
    );
}

/** Limits that break in some scenarios count only where they take more than the wanted probability leaves. */
function weatherAt({ problem, unit }: AskedEntry, judge: StartJudge, slot: number): Finding[] {
  if (judge.isFair(slot)) return [];
  const findings = judge.findingsAt(slot);
  const wantedProbability = problem.neededWeight / totalWeight(problem.weights);
  const greatestShare = Math.max(0, ...findings.map(({ scenarioShare }) => scenarioShare ?? 1));
  if (greatestShare > 1 - wantedProbability) return findings;
  // No limit alone breaks in too many scenarios: together they do.
  const probability = judge.probabilityAt(slot);
  const atEpochMs = slotEpochMs(problem.grid, slot);
  return [probabilityFinding({ jobId: unit.job.id, probability, wantedProbability, atEpochMs }), ...findings];
}

function orderFindings({ problem, unit, placed }: AskedEntry, slot: number): Finding[] {
  const work = workSpan(problem, { jobId: unit.job.id, fromSlot: slot, slots: placed.endSlot - placed.startSlot });
  const order = problem.orders.jobs.get(unit.job.id);
  const findings: Finding[] = [];
  if (order?.notBeforeEpochMs !== null && order?.notBeforeEpochMs !== undefined)
    findings.push(notBeforeFinding(work, order.notBeforeEpochMs));
  for (const { fromEpochMs, toEpochMs, jobId } of problem.orders.forbidden) {
    if (jobId === null || jobId === unit.job.id)
      findings.push(forbiddenFinding(work, { startEpochMs: fromEpochMs, endEpochMs: toEpochMs }));
  }
  return findings.filter(isBroken);
}

/** The person as the plan has slept by then: what bars the work itself, or keeps the search from placing any. */
function personAt({ problem, report, unit }: AskedEntry, slot: number): Finding[] {
  const person = report.personBySlot[slot - problem.fromSlot];
  if (person === undefined) return [];
  const state = gateStateAt(problem, person);
  const leastAlertnessPoints = Math.max(unit.gate.leastAlertnessPoints, LEAST_PLANNED_ALERTNESS_POINTS);
  return personFindings(unit.job.id, {
    state,
    gate: { ...unit.gate, leastAlertnessPoints },
    epochMs: slotEpochMs(problem.grid, slot),
  });
}

function overlaps({ problem, state, unit, placed }: AskedEntry, slot: number): Finding[] {
  const work = workSpan(problem, { jobId: unit.job.id, fromSlot: slot, slots: placed.endSlot - placed.startSlot });
  return placedInOrder(state)
    .filter((other) => other.unit !== placed.unit || other.startSlot !== placed.startSlot)
    .map((other) => {
      const name = problem.units[other.unit]?.job.id ?? '';
      const span = workSpan(problem, {
        jobId: name,
        fromSlot: other.startSlot - other.settleSlots,
        slots: other.endSlot - other.startSlot + other.settleSlots,
      });
      return overlapFinding(work, { ...span, name });
    })
    .filter(isBroken);
}

/** Time to settle the boat under the handling, between the work before and this. */
function settling({ problem, state, placed, unit }: AskedEntry, { work }: StartJudge, slot: number): Finding[] {
  const before = placedInOrder(state).filter((other) => other.endSlot <= slot && other !== placed);
  const last = before.at(-1);
  const isSettled =
    last !== undefined &&
    last.endSlot === slot &&
    problem.units[last.unit]?.handlings[last.handling]?.id === work.handling.id;
  const free = last?.endSlot ?? problem.fromSlot;
  const settleMin = isSettled ? 0 : work.handling.settleMin;
  const span = workSpan(problem, { jobId: unit.job.id, fromSlot: slot, slots: placed.endSlot - placed.startSlot });
  const freeFromEpochMs = slotEpochMs(problem.grid, free);
  return [settleFinding(span, { freeFromEpochMs, settleMin, handlingId: work.handling.id })].filter(isBroken);
}

function restOfPlan(
  { problem, unit, placed }: AskedEntry,
  of: { judge: StartJudge; slot: number; jointNowWeight: number; others: Uint32Array },
): Finding[] {
  const total = totalWeight(problem.weights);
  const own = setOfTable(of.judge.at(of.slot), of.slot);
  const joint = placed.unknownBits === 0 ? weightOf(intersect(of.others, own), problem.weights) : of.jointNowWeight;
  const atEpochMs = slotEpochMs(problem.grid, of.slot);
  if (joint < of.jointNowWeight - 0.005 * total) {
    const [jointProbability, insteadOfProbability] = [joint / total, of.jointNowWeight / total];
    return [jointFinding({ jobId: unit.job.id, jointProbability, insteadOfProbability, atEpochMs })];
  }
  const [costPoints, insteadOfPoints] = [costAt(of.judge, of.slot), costAt(of.judge, placed.startSlot)];
  return costPoints > insteadOfPoints + 1
    ? [costFinding({ jobId: unit.job.id, costPoints, insteadOfPoints, atEpochMs })]
    : [];

  /** Exposure and miles lost by working it from a slot. */
  function costAt(judge: StartJudge, slot: number): number {
    const { work } = judge;
    const plannedMin = judge.at(slot).plannedMin[slot] ?? 0;
    const light = problem.lag.conditionsAt(placed.lagNm).light[slot] ?? 0;
    const toSlot = slot + Math.ceil(plannedMin / problem.grid.slotMin);
    const { handling, sailStateId } = work;
    const lostNm = problem.lag.lostNm(placed.lagNm, { handling, sailStateId, fromSlot: slot, toSlot });
    const exposure = exposurePoints(unit, {
      plannedMin,
      lightIndex: light,
      tiredPoints: tiredPoints(placed.tiredRatio),
    });
    return exposure + Math.max(0, lostNm) * POINTS_PER_LOST_NM;
  }
}

/** Scenarios in which all other unconditional entries hold. */
function jointOfOthers({ problem, state, placed }: AskedEntry): Uint32Array {
  return placedInOrder(state)
    .filter((other) => other.startSlot !== placed.startSlot && state.conditional[other.unit] !== 1)
    .reduce((mask, other) => intersect(mask, other.mask), fullMask(problem.weights.length));
}

const isBroken = (finding: Finding): boolean => finding.margin !== null && finding.margin < 0;

function workSpan(
  { grid }: PlanningProblem,
  of: { jobId: string; fromSlot: number; slots: number },
): UtcInterval & { jobId: string } {
  return {
    jobId: of.jobId,
    startEpochMs: slotEpochMs(grid, of.fromSlot),
    endEpochMs: slotEpochMs(grid, of.fromSlot) + of.slots * grid.slotMin * 60_000,
  };
}
