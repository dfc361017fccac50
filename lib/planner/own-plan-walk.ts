import type { Handling } from '../boat/index.ts';
import type { GateState } from '../person/index.ts';
import { tiredFactorRatio } from '../person/index.ts';
import { MS_PER_MIN } from '../time/index.ts';
import type { OwnEntry, OwnPlan } from './own-plan-input.ts';
import { awakeUntil, ownKss, ownPersonAt } from './own-plan-person.ts';
import { gateStateAt } from './place.ts';
import type { Preparation } from './prepare.ts';
import { problemOf } from './prepare.ts';
import type { PlanningProblem, Unit } from './problem.ts';

/** An entry carried out on the nominal voyage, whatever speaks against it. */
export interface WalkedEntry {
  readonly jobId: string;
  /** null: no work of this job is left. */
  readonly unit: Unit | null;
  /** null: no handling of the job exists with what is set, and none was named. */
  readonly handling: Handling | null;
  readonly sailStateId: string;
  readonly startSlot: number;
  readonly endSlot: number;
  readonly plannedMin: number;
  readonly workMin: number;
  readonly resumeMin: number;
  readonly tiredRatio: number;
  readonly lagNm: number;
  readonly finishes: boolean;
  readonly kssStart: number;
  readonly kssEnd: number;
  readonly gateStart: GateState;
  readonly gateEnd: GateState;
}

/** Where the walk is. */
interface Walk {
  readonly slot: number;
  readonly lagNm: number;
  readonly sailStateId: string;
  readonly leftMin: readonly number[];
}

/** Sleepiness beyond which no time factor is known: work there is refused, and reckoned as slow as just below it. */
const MOST_TIRED_KSS = 7.99;

/** Carries out every entry in order of time: sail states, miles lost and work left follow from those before it. */
export function walkOwnPlan(preparation: Preparation, own: OwnPlan): WalkedEntry[] {
  const problem = problemOf(preparation, 1);
  let walk: Walk = {
    slot: preparation.fromSlot,
    lagNm: 0,
    sailStateId: problem.startSailStateId,
    leftMin: problem.units.map((unit) => unit.totalWorkMin),
  };
  return own.entries
    .toSorted((a, b) => a.startEpochMs - b.startEpochMs)
    .map((entry) => {
      const walked = walkEntry({ preparation, problem, own }, walk, entry);
      walk = after(problem, walk, walked);
      return walked;
    });
}

interface Facts {
  readonly preparation: Preparation;
  readonly problem: PlanningProblem;
  readonly own: OwnPlan;
}

function walkEntry(facts: Facts, walk: Walk, entry: OwnEntry): WalkedEntry {
  const { preparation, problem } = facts;
  const { grid } = preparation;
  const startSlot = Math.round((entry.startEpochMs - grid.firstEpochMs) / (grid.slotMin * MS_PER_MIN));
  const unit = unitOf(problem, walk, entry);
  const handling = handlingOf(preparation, { entry, unit, sailStateId: walk.sailStateId });
  const person = ownPersonAt(preparation, facts.own.sleeps, startSlot);
  const kssStart = ownKss(preparation, person);
  const { timeFactors } = preparation.passage.watchkeeper;
  const tiredRatio = tiredFactorRatio(kssStart, timeFactors) ?? tiredFactorRatio(MOST_TIRED_KSS, timeFactors) ?? 1;
  const lagNm = walk.lagNm + lostNm(problem, walk, { handling: null, fromSlot: walk.slot, toSlot: startSlot });
  const portion = unit === null ? { workMin: 0, resumeMin: 0 } : portionOf(unit, walk.leftMin[unit.index] ?? 0);
  const work = { ...portion, tiredRatio, lagNm, sailStateId: walk.sailStateId };
  const plannedMin = plannedMinOf(problem, { unit, handling, startSlot, work });
  const endSlot = startSlot + (unit === null ? 0 : Math.max(1, Math.ceil(plannedMin / grid.slotMin - 1e-6)));
  const personAfter = awakeUntil(preparation, person, endSlot);
  const left = unit === null ? 0 : (walk.leftMin[unit.index] ?? 0);
  return {
    jobId: entry.jobId,
    unit,
    handling,
    startSlot,
    endSlot,
    plannedMin,
    ...work,
    finishes: unit !== null && left - work.workMin < 1,
    kssStart,
    kssEnd: ownKss(preparation, personAfter),
    gateStart: gateStateAt(problem, person),
    gateEnd: gateStateAt(problem, personAfter),
  };
}

/** The block named, else the first of the job with work left. */
function unitOf(problem: PlanningProblem, walk: Walk, entry: OwnEntry): Unit | null {
  const units = problem.units.filter(
    (unit) =>
      unit.job.id === entry.jobId &&
      (entry.blockIndex === null ? (walk.leftMin[unit.index] ?? 0) > 0 : unit.block.index === entry.blockIndex),
  );
  return units[0] ?? null;
}

/** The handling named, be it allowed or not, else the first of the job that exists with what is set, else its first. */
function handlingOf(
  preparation: Preparation,
  of: { entry: OwnEntry; unit: Unit | null; sailStateId: string },
): Handling | null {
  const { handlingId } = of.entry;
  if (handlingId !== null) return preparation.passage.boat.handlings.find(({ id }) => id === handlingId) ?? null;
  const allowed = of.unit?.handlings ?? [];
  return allowed.find(({ sailStates }) => sailStates.includes(of.sailStateId)) ?? allowed[0] ?? null;
}

/** All that is left of a core; of work in sessions no more than a session, or half of what would leave too little. */
function portionOf(unit: Unit, leftMin: number): { workMin: number; resumeMin: number } {
  const workLeftMin = leftMin > 0 ? leftMin : unit.totalWorkMin;
  const { session } = unit.block;
  if (session === null) return { workMin: workLeftMin, resumeMin: 0 };
  const resumeMin = workLeftMin < unit.totalWorkMin ? session.resumeMin : 0;
  const longestMin = session.longestMin - resumeMin;
  const overMin = workLeftMin - longestMin;
  if (overMin <= 0) return { workMin: workLeftMin, resumeMin };
  return { workMin: overMin < session.leastUsefulMin ? workLeftMin / 2 : longestMin, resumeMin };
}

/** Planned minutes there; where the planner would refuse to reckon them, the work at pace 1. */
function plannedMinOf(
  problem: PlanningProblem,
  of: {
    unit: Unit | null;
    handling: Handling | null;
    startSlot: number;
    work: Pick<WalkedEntry, 'workMin' | 'resumeMin' | 'tiredRatio' | 'lagNm' | 'sailStateId'>;
  },
): number {
  const plainMin = of.work.resumeMin + of.work.workMin * of.work.tiredRatio;
  if (of.unit === null || of.handling === null || of.startSlot < 0) return plainMin;
  const table = problem.startFor(of.unit, { ...of.work, handling: of.handling }, of.startSlot);
  const plannedMin = table.plannedMin[of.startSlot] ?? Number.NaN;
  return Number.isNaN(plannedMin) ? plainMin : plannedMin;
}

function lostNm(
  problem: PlanningProblem,
  walk: Walk,
  sailed: { handling: Handling | null; fromSlot: number; toSlot: number },
): number {
  const span = { ...sailed, sailStateId: walk.sailStateId, toSlot: Math.max(sailed.fromSlot, sailed.toSlot) };
  return problem.lag.lostNm(walk.lagNm, span);
}

function after(problem: PlanningProblem, walk: Walk, entry: WalkedEntry): Walk {
  const { unit } = entry;
  if (unit === null) return walk;
  const fromSlot = Math.max(walk.slot, entry.startSlot);
  const worked = { handling: entry.handling, fromSlot, toSlot: entry.endSlot };
  const sailStateId = (entry.finishes ? unit.block.sailStateAfter : null) ?? walk.sailStateId;
  return {
    slot: Math.max(walk.slot, entry.endSlot),
    lagNm: entry.lagNm + lostNm(problem, { ...walk, lagNm: entry.lagNm }, worked),
    sailStateId,
    leftMin: walk.leftMin.map((leftMin, index) =>
      index === unit.index ? (entry.finishes ? 0 : leftMin - entry.workMin) : leftMin,
    ),
  };
}
