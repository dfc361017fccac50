import type { Job } from '../jobs/index.ts';
import { formatUtc, slotEpochMs } from '../time/index.ts';
import type { BlockWindow, JobWindows } from '../windows/index.ts';
import { type AllowedSpan, allowedSpan, lockedSlot } from './model/start-rules.ts';
import type { NearestMiss } from './plan.ts';
import type { Preparation } from './prepare.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import { bindingLimit, ofHundred, shipTime } from './words.ts';

interface Sought {
  readonly job: Job;
  readonly problem: PlanningProblem;
  readonly windows: JobWindows;
}

/** A start inside a window. */
interface Start {
  readonly window: BlockWindow;
  readonly slot: number;
}

/**
 * The start its weather allows that comes nearest to what the user has fixed, where what is fixed (lock, bounds, forbidden
 * hours) leaves none of them; null: it leaves some, or nothing is fixed.
 */
export function fixedMiss(preparation: Preparation, { job, problem, windows }: Sought): NearestMiss | null {
  const unit = problem.units.find((candidate) => candidate.job.id === job.id);
  if (unit === undefined) return null;
  const fixed = startsOf(problem, unit, windows);
  const free = startsOf({ ...problem, orders: { jobs: new Map(), forbidden: [] } }, unit, windows);
  if (fixed.length > 0 || free.length === 0) return null;
  const lockedAtSlot = lockedSlot(problem, unit);
  const nearest = free.toSorted((a, b) => distanceSlots(a, lockedAtSlot) - distanceSlots(b, lockedAtSlot))[0];
  if (nearest === undefined) return null;
  const at = (slot: number): string =>
    shipTime(slotEpochMs(preparation.grid, slot), preparation.passage.settings.shipTimeOffsetMin);
  const { window, slot } = nearest;
  const isBest = slot === window.bestStartSlot;
  const chance = isBest ? `, ${ofHundred(window.probability)}` : '';
  const name = preparation.passage.boat.handlings.find(({ id }) => id === window.handlingId)?.name ?? window.handlingId;
  const start = `${at(slot)} under "${name}"${chance}`;
  return {
    reason: 'orders',
    startUtc: formatUtc(slotEpochMs(preparation.grid, slot)),
    handling: window.handlingId,
    probability: isBest ? window.probability : null,
    bindingLimit: isBest ? bindingLimit(window.binding ?? undefined) : null,
    text:
      lockedAtSlot === null
        ? `What is fixed about it leaves none of the starts its limits allow; the first of them: ${start}.`
        : `Its start is locked to ${at(lockedAtSlot)}, and with all that is fixed about it its limits allow no start then; nearest ${start}, ${gapText(slot - lockedAtSlot, preparation.grid.slotMin)}.`,
    wouldHelp:
      lockedAtSlot === null ? 'Other bounds, or fewer forbidden hours.' : 'Move the lock there, or take it off.',
  };
}

/** The locked start where a window holds it, else the best of the first window; null: it has no window. */
export function startSought({ job, problem, windows }: Sought): Start | null {
  const unit = problem.units.find((candidate) => candidate.job.id === job.id);
  const [first] = windows.windows;
  if (unit === undefined || first === undefined) return null;
  const slot = lockedSlot(problem, unit);
  const holding = windowsOf(unit, windows).find(
    ({ firstStartSlot, lastStartSlot }) => slot !== null && slot >= firstStartSlot && slot <= lastStartSlot,
  );
  return holding === undefined || slot === null
    ? { window: first, slot: first.bestStartSlot }
    : { window: holding, slot };
}

const windowsOf = (unit: Unit, { windows }: JobWindows): readonly BlockWindow[] =>
  windows.filter(({ blockIndex }) => blockIndex === unit.block.index);

/** Every start of the unit's windows that the orders of the problem allow. */
function startsOf(problem: PlanningProblem, unit: Unit, windows: JobWindows): readonly Start[] {
  const rules = new Map<string, AllowedSpan>();
  return windowsOf(unit, windows).flatMap((window) => {
    const isAllowed = rules.get(window.handlingId) ?? allowedSpan(problem, unit, window.handlingId);
    rules.set(window.handlingId, isAllowed);
    const slots = Math.ceil(window.plannedMin / problem.grid.slotMin);
    return Array.from({ length: window.lastStartSlot - window.firstStartSlot + 1 }, (_, k) => window.firstStartSlot + k)
      .filter((slot) => isAllowed(slot, slot + slots))
      .map((slot) => ({ window, slot }));
  });
}

const distanceSlots = ({ slot }: Start, lockedAtSlot: number | null): number =>
  lockedAtSlot === null ? slot : Math.abs(slot - lockedAtSlot);

function gapText(slots: number, slotMin: number): string {
  if (slots === 0) return 'at that hour but otherwise than fixed';
  const minutes = Math.abs(slots) * slotMin;
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  const amount = [...(hours > 0 ? [`${hours} h`] : []), ...(rest > 0 ? [`${rest} min`] : [])].join(' ');
  return `${amount} ${slots > 0 ? 'later' : 'earlier'}`;
}
