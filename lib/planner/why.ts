import type { StartStretch } from '../reasons/index.ts';
import { whyNotEarlierText } from '../reasons/index.ts';
import type { Preparation } from './prepare.ts';
import type { Unit } from './problem.ts';
import type { ReportedEntry } from './report.ts';
import { rounded } from './rounded.ts';
import { slotWording } from './slot-wording.ts';
import type { Solution } from './solve.ts';
import { placedInOrder } from './state.ts';
import { overAt } from './wait-table.ts';
import { amountText, limitWords } from './words.ts';

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
  return `It stands ${own.toFixed(0)} kn over the deck and gets ${deckKn.toFixed(0)} kn; "${weaker.other.job.name}" stands only ${(weaker.noGoKn ?? 0).toFixed(0)} kn. Done now, the lighter hours are left for that.`;
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

/** What stands against an earlier start, the latest reasons first. */
export function whyNotEarlier(of: Explained, stretches: readonly StartStretch[]): string {
  const { preparation, entry } = of;
  if (entry.placed.startSlot <= preparation.fromSlot + 1) return 'It starts at once.';
  return waitedFor(of) ?? whyNotEarlierText(stretches, slotWording(preparation));
}

function waitedFor({ preparation, solution, unit, entry }: Explained): string | null {
  for (const { unit: index, waitSlots } of unit.predecessors) {
    const before = preparation.units[index];
    const finished = solution.state.finishedSlot[index] ?? -1;
    const overSlot = overAt(waitSlots, Math.max(0, finished));
    if (before === undefined || entry.placed.startSlot > overSlot + 1) continue;
    const waitH = ((overSlot - finished) * preparation.grid.slotMin) / 60;
    const waits = waitH === 0 ? 'is finished' : `has had its ${rounded(waitH, 1)} h`;
    return `It starts as soon as "${before.job.name}" ${waits}.`;
  }
  return null;
}
