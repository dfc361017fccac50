import type { GateFinding } from '../person/index.ts';
import { gateFindings } from '../person/index.ts';
import { slotEpochMs } from '../time/index.ts';
import { totalWeight, weightOf } from '../windows/index.ts';
import { decisionsOf, replay } from './improve.ts';
import { gateStateAt, place } from './place.ts';
import type { Preparation } from './prepare.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import type { ReportedEntry } from './report.ts';
import { bufferSlotsFor, spendGap } from './rest.ts';
import type { Solution } from './solve.ts';
import type { Placed, PlanState } from './state.ts';
import { placedInOrder, startOfPlan } from './state.ts';
import { amountText, limitWords, ofHundred, shipTime } from './words.ts';

/** One job of the plan being explained: its first unit and entry. */
export interface Explained {
  readonly preparation: Preparation;
  readonly solution: Solution;
  readonly unit: Unit;
  readonly entry: ReportedEntry;
}

/** Why the job stands where it does, in the sailor's words, with the number that decides. */
export function whyThen(of: Explained): string {
  const sentences = [conditionalSentence(of), standsMoreSentence(of) ?? roomSentence(of)];
  return sentences.filter((sentence) => sentence !== null).join(' ');
}

function conditionalSentence({ entry }: Explained): string | null {
  if (entry.unknownLimits.length === 0) return null;
  const list = entry.unknownLimits.map(limitWords).join(', ');
  return `Conditional: the forecast does not hold ${list}, so only what it holds was judged.`;
}

/** The point of planning jointly: what stands more wind is done in more wind, and the lull is kept for what does not. */
function standsMoreSentence({ preparation, solution, unit, entry }: Explained): string | null {
  const own = strictestWind(unit);
  const later = placedInOrder(solution.state).filter((placed) => placed.startSlot > entry.placed.startSlot);
  const weaker = later
    .map((placed) => preparation.units[placed.unit])
    .filter((other): other is Unit => other !== undefined && other.job.id !== unit.job.id)
    .map((other) => ({ other, noGoKn: strictestWind(other) }))
    .filter(({ noGoKn }) => noGoKn !== null && own !== null && noGoKn < own - 3)
    .toSorted((a, b) => (a.noGoKn ?? 0) - (b.noGoKn ?? 0))[0];
  const deckKn = entry.marginsOf().find((margin) => margin.limit === 'deck-wind')?.observed;
  if (weaker === undefined || own === null || deckKn === undefined || deckKn < (weaker.noGoKn ?? 0) * 0.75) return null;
  return `It stands ${own.toFixed(0)} kn over the deck and gets ${deckKn.toFixed(0)}; "${weaker.other.job.name}" stands only ${(weaker.noGoKn ?? 0).toFixed(0)}. Done now, the lighter hours are left for that.`;
}

function strictestWind(unit: Unit): number | null {
  const limits = unit.block.steps.flatMap((step) => step.limits.deckWindKn?.noGo ?? []);
  return limits.length === 0 ? null : Math.min(...limits);
}

function roomSentence({ entry }: Explained): string | null {
  const [margin] = entry.marginsOf();
  if (margin === undefined) return 'It has no limit that weather could break.';
  return `What binds is ${limitWords(margin.limit)}: ${amountText(margin.observed, margin.unit)} expected at the worst moment, ${amountText(margin.required, margin.unit)} allowed.`;
}

/** What stands against an earlier start. */
export function whyNotEarlier(of: Explained): string {
  const { solution, unit, preparation } = of;
  const { placed } = of.entry;
  if (placed.startSlot <= preparation.fromSlot + 1) return 'It starts at once.';
  const before = waitedFor(of);
  if (before !== null) return before;
  const earlier = earliestFair(of);
  const { shipTimeOffsetMin } = preparation.passage.settings;
  if (earlier === null)
    return `No earlier start keeps its limits in ${ofHundred(preparation.passage.settings.wantedProbability)}.`;
  const at = shipTime(slotEpochMs(preparation.grid, earlier), shipTimeOffsetMin);
  const tired = tiredAt(of, earlier);
  if (tired !== null) return `At ${at} the weather would do, but not you: ${tired}.`;
  const moved = replay(solution.problem, movedTo(solution.state, placed, earlier));
  const joint = weightOf(solution.state.mask, solution.problem.weights) / totalWeight(solution.problem.weights);
  if (moved === null)
    return `At ${at} it would be fair by itself, but would be in the way of "${inTheWay(of, earlier)}".`;
  const movedJoint = weightOf(moved.mask, solution.problem.weights) / totalWeight(solution.problem.weights);
  if (movedJoint < joint - 0.005) {
    return `Started at ${at}, all planned jobs would hold together in ${ofHundred(movedJoint)} of the scenarios searched instead of ${ofHundred(joint)}.`;
  }
  return `From ${at} on it would be fair too; "${unit.job.name}" costs less exposure, distance or sleep where it stands.`;
}

function waitedFor({ preparation, solution, unit, entry }: Explained): string | null {
  for (const { unit: index, waitSlots } of unit.predecessors) {
    const before = preparation.units[index];
    const finished = solution.state.finishedSlot[index] ?? -1;
    if (before === undefined || entry.placed.startSlot > finished + waitSlots + 1) continue;
    const waits = waitSlots === 0 ? 'is finished' : `has had its ${before.block.waitAfterH} h`;
    return `It starts as soon as "${before.job.name}" ${waits}.`;
  }
  return null;
}

function earliestFair({ solution, unit, entry }: Explained): number | null {
  const { problem } = solution;
  const handling = unit.handlings[entry.placed.handling];
  if (handling === undefined) return null;
  const table = problem.tableFor(unit, { ...entry.placed, handling });
  const first = Math.max(
    problem.fromSlot,
    ...unit.predecessors.map(({ unit: index, waitSlots }) => (solution.state.finishedSlot[index] ?? 0) + waitSlots),
  );
  for (let i = first; i < entry.placed.startSlot; i++) {
    if ((table.referenceSlots[i] ?? 0) > 0 && (table.weight[i] ?? 0) >= problem.neededWeight) return i;
  }
  return null;
}

/** The state of the plan just before an entry. */
function stateBefore(problem: PlanningProblem, state: PlanState, beforeSlot: number): PlanState {
  let current = startOfPlan(problem);
  for (const decision of decisionsOf(state)) {
    if (decision.startSlot >= beforeSlot) break;
    const placement = place(problem, current, decision);
    if (!placement.ok) break;
    current = placement.state;
  }
  return current;
}

function tiredAt({ solution, unit }: Explained, slot: number): string | null {
  const { problem } = solution;
  const before = stateBefore(problem, solution.state, slot);
  if (before.slot > slot) return null;
  const bufferSlots = bufferSlotsFor(unit.gate.inertiaMultiplierRatio, problem.grid.slotMin);
  const person = spendGap(before.person, problem.person, { toSlot: slot, bufferSlots, slotMin: problem.grid.slotMin });
  const [finding] = gateFindings(gateStateAt(problem, person), unit.gate);
  if (finding === undefined) return null;
  return gateText(finding);
}

const GATE_WORDS: Readonly<Record<GateFinding['rule'], (observed: string, required: string) => string>> = {
  alertness: (observed, required) => `alertness ${observed}, ${required} needed`,
  'low-hours': (observed) => `it is ${observed} h on your body clock, and hard work waits for 06`,
  awake: (observed, required) => `${observed} h awake, ${required} at most`,
  inertia: (observed, required) => `${observed} min after waking, ${required} needed to shake off sleep`,
  'sleep-24h': (observed, required) => `${observed} h slept in 24, ${required} needed`,
  'sleep-48h': (observed, required) => `${observed} h slept in 48, ${required} needed`,
  'awake-beyond-sleep': (observed, required) => `${observed} h awake, more than the ${required} h slept in 48`,
};

function gateText({ rule, observed, required }: GateFinding): string {
  return GATE_WORDS[rule](observed.toFixed(1), required.toFixed(1));
}

function movedTo(state: PlanState, placed: Placed, startSlot: number): ReturnType<typeof decisionsOf> {
  return decisionsOf(state).map((decision) =>
    decision.unit === placed.unit && decision.startSlot === placed.startSlot ? { ...decision, startSlot } : decision,
  );
}

function inTheWay({ preparation, solution, entry }: Explained, slot: number): string {
  const other = placedInOrder(solution.state).find(
    (placed) =>
      placed.unit !== entry.placed.unit && placed.endSlot > slot && placed.startSlot <= entry.placed.startSlot,
  );
  return preparation.units[other?.unit ?? -1]?.job.name ?? 'sleep';
}
