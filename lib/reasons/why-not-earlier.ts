import type { Finding } from './finding.ts';
import { rankOf } from './rule-order.ts';

/** Starts next to each other that the same rule refuses, or that none does. Slots, both ends included. */
export interface StartStretch {
  readonly firstStartSlot: number;
  readonly lastStartSlot: number;
  /** What decides, at the last start of the stretch; null: nothing stands against these starts. */
  readonly finding: Finding | null;
}

export interface EarlierStarts {
  /** The earliest start thinkable. */
  readonly fromSlot: number;
  readonly plannedSlot: number;
  /** What stands against a start, under every handling the job may be worked under; an empty list: nothing does. */
  readonly against: (startSlot: number) => readonly (readonly Finding[])[];
  /** So many stretches are told, the latest ones; the scan ends with them. Default 3. */
  readonly mostCount?: number;
}

const USUAL_COUNT = 3;

/**
 * Why a job does not start earlier: the starts before the planned one in stretches, the latest first, each with the
 * finding that decides there.
 *
 * A start is refused when it is refused under every handling; the handling that comes nearest (a softer rule, or the same
 * in fewer scenarios) speaks for it.
 *
 * @returns no stretch: it starts at the earliest slot thinkable
 */
export function whyNotEarlier(of: EarlierStarts): StartStretch[] {
  const stretches: StartStretch[] = [];
  for (let slot = of.plannedSlot - 1; slot >= of.fromSlot; slot--) {
    const finding = decisive(of.against(slot));
    const last = stretches.at(-1);
    if (last !== undefined && isSame(last.finding, finding)) {
      stretches[stretches.length - 1] = { ...last, firstStartSlot: slot };
      continue;
    }
    if (stretches.length >= (of.mostCount ?? USUAL_COUNT)) break;
    stretches.push({ firstStartSlot: slot, lastStartSlot: slot, finding });
  }
  return stretches;
}

/** The finding that decides against a start; null: one of the handlings serves. No handling at all decides nothing. */
function decisive(byHandling: readonly (readonly Finding[])[]): Finding | null {
  let nearest: Finding | null = null;
  for (const findings of byHandling) {
    const [first] = findings.toSorted((a, b) => rankOf(a.rule) - rankOf(b.rule) || shareOf(b) - shareOf(a));
    if (first === undefined) return null;
    if (nearest === null || isNearer(first, nearest)) nearest = first;
  }
  return nearest;
}

/** What is broken whatever the weather is broken in all scenarios. */
const shareOf = (finding: Finding): number => finding.scenarioShare ?? 1;

function isNearer(a: Finding, b: Finding): boolean {
  const by = rankOf(a.rule) - rankOf(b.rule);
  return by === 0 ? shareOf(a) < shareOf(b) : by > 0;
}

function isSame(a: Finding | null, b: Finding | null): boolean {
  if (a === null || b === null) return a === b;
  return a.rule === b.rule && a.names.join(' ') === b.names.join(' ');
}
