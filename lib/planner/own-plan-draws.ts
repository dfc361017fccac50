import type { Finding } from '../reasons/index.ts';
import { startJudge } from '../reasons/index.ts';
import type { Course, SlotSailing } from '../voyage/index.ts';
import { conditionsAlong, sailPlan, sliceCourse } from '../voyage/index.ts';
import { LIMIT_IDS, setOfTable } from '../windows/index.ts';
import type { WalkedEntry } from './own-plan-walk.ts';
import type { Preparation } from './prepare.ts';
import { tableSettings } from './prepare.ts';
import type { ReportingWeather } from './report.ts';

/** An entry judged on the reporting draws where the boat truly is. */
export interface EntryOnDraws {
  readonly mask: Uint32Array;
  readonly probability: number;
  readonly plannedMin: number;
  readonly referenceSlots: number;
  readonly unknownLimits: readonly string[];
  readonly findings: readonly Finding[];
}

/** The voyage with true positions, every entry carried out. */
export function ownCourse(preparation: Preparation, walked: readonly WalkedEntry[]): Course {
  return sailPlan({
    boat: preparation.passage.boat,
    track: preparation.track,
    grid: preparation.grid,
    sampleReference: preparation.weather.sampleReference,
    sailingAt: (slotIndex) => sailingAt(preparation, walked, slotIndex),
  });
}

function sailingAt(preparation: Preparation, walked: readonly WalkedEntry[], slotIndex: number): SlotSailing {
  let { sailStateId } = preparation.passage.start;
  for (const entry of walked) {
    if (entry.startSlot > slotIndex || entry.unit === null) continue;
    if (slotIndex < entry.endSlot) return { handling: entry.handling, sailStateId: entry.sailStateId };
    sailStateId = (entry.finishes ? entry.unit.block.sailStateAfter : null) ?? entry.sailStateId;
  }
  return { handling: null, sailStateId };
}

/** Planned and reference minutes at the true position may exceed those on the nominal voyage: look a little further. */
const FURTHER_RATIO = 2;
const FURTHER_SLOTS = 12;

/** How an entry fares on the reporting draws; null: there is nothing to judge, or it lies outside the forecast. */
export function judgeOnDraws(
  preparation: Preparation,
  of: { course: Course; entry: WalkedEntry; reporting: ReportingWeather },
): EntryOnDraws | null {
  const { unit, handling, startSlot } = of.entry;
  if (unit === null || handling === null || startSlot < 0 || startSlot >= preparation.grid.slotCount) return null;
  const { passage, weather } = preparation;
  const settings = tableSettings(passage, { ...weather, weights: of.reporting.weights }, 1);
  const work = { ...of.entry, block: unit.block, handling };
  // A spell before the start that must be dry is looked at too.
  const beforeSlots = Math.min(startSlot, drySlots(preparation, of.entry));
  const workSlots = of.entry.endSlot - startSlot;
  const reserveMin = settings.contingencyLeastMin + of.entry.plannedMin * settings.contingencyShare;
  const slotCount =
    beforeSlots + Math.ceil((workSlots + reserveMin / preparation.grid.slotMin) * FURTHER_RATIO) + FURTHER_SLOTS;
  const conditions = conditionsAlong({
    course: sliceCourse(of.course, { fromSlot: startSlot - beforeSlots, slotCount }),
    boat: passage.boat,
    deckHeightM: passage.settings.deckHeightM,
    sampleScenarios: of.reporting.sampleScenarios,
    sampleReference: weather.sampleReference,
  });
  const search = { conditions, settings, wantedProbability: passage.settings.wantedProbability };
  const judge = startJudge(work, search);
  const table = judge.at(beforeSlots);
  const isPossible = (table.referenceSlots[beforeSlots] ?? 0) > 0;
  const unknownBits = table.unknownBits[beforeSlots] ?? 0;
  return {
    mask: setOfTable(table, beforeSlots).slice(),
    probability: judge.probabilityAt(beforeSlots),
    plannedMin: isPossible ? (table.plannedMin[beforeSlots] ?? 0) : of.entry.plannedMin,
    referenceSlots: table.referenceSlots[beforeSlots] ?? 0,
    unknownLimits: LIMIT_IDS.filter((_, bit) => ((unknownBits >>> bit) & 1) === 1),
    findings: judge.findingsAt(beforeSlots),
  };
}

function drySlots(preparation: Preparation, entry: WalkedEntry): number {
  const hours = entry.unit?.block.steps.map((step) => step.limits.dryBeforeH ?? 0) ?? [];
  return Math.ceil((Math.max(0, ...hours) * 60) / preparation.grid.slotMin - 1e-6);
}
