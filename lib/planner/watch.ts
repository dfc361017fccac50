/** The watchkeeper through a plan: how awake, what sleep is for, and what rest rules would say. */
import {
  ANY_LEAST_ALERTNESS_POINTS,
  DEFAULT_GATES,
  isLowHour,
  kssFromAlertness,
  kssP90FromAlertness,
  LOOKOUT_RULE_TEXT,
  PRIOR_SLEEP_GATE,
  REST_RULE_SCOPE_TEXT,
  restFigures,
  restRuleLines,
  type Watchkeeper,
} from '../person/index.ts';
import { findingText, personFindings } from '../reasons/index.ts';
import { formatUtc, MS_PER_H, slotEpochMs, utcInterval } from '../time/index.ts';
import { lookoutAt } from '../windows/index.ts';
import { gateStateAt } from './place.ts';
import type { PlannedRestRule, PlannedSleep, PlannedWatch, SleepDay, WatchGates, WatchHour } from './plan.ts';
import type { Preparation } from './prepare.ts';
import { tableSettings } from './prepare.ts';
import type { SlotSleep } from './problem.ts';
import type { Report } from './report.ts';
import { sleptSlots } from './rest.ts';
import { rounded } from './rounded.ts';
import { slotWording } from './slot-wording.ts';
import { sleepWorth } from './sleep-worth.ts';

/** @param endSlot end of the plan's last entry */
export function plannedWatch(preparation: Preparation, report: Report, endSlot: number): PlannedWatch {
  return {
    gates: watchGates(preparation.passage.watchkeeper),
    hours: watchHours(preparation, report, endSlot),
    sleeps: report.sleeps.map((sleep) => plannedSleep(preparation, report, sleep)),
    lowHours: lowHours(preparation, endSlot),
    days: sleepDays(preparation, report, endSlot),
    priorSleep: priorSleepNotes(preparation, report),
    restRules: restRules(preparation, report, endSlot),
    notes: [LOOKOUT_RULE_TEXT, REST_RULE_SCOPE_TEXT],
  };
}

/** The lines of a watchkeeper's gates. */
function watchGates({ gates = DEFAULT_GATES }: Watchkeeper): WatchGates {
  const { hardLeastAlertnessPoints, deckLeastAlertnessPoints, hardMostLapses, deckMostLapses } = gates;
  return {
    hardLeastAlertnessPoints,
    deckLeastAlertnessPoints,
    anyLeastAlertnessPoints: rounded(ANY_LEAST_ALERTNESS_POINTS, 2),
    hardMostLapses,
    deckMostLapses,
  };
}

const utcOf = ({ grid }: Preparation, slot: number): string => formatUtc(slotEpochMs(grid, slot));

function watchHours(preparation: Preparation, report: Report, endSlot: number): WatchHour[] {
  const hours: WatchHour[] = [];
  for (let slot = preparation.fromSlot; slot <= endSlot; slot++) {
    const person = report.personBySlot[slot - preparation.fromSlot];
    if (person === undefined || slotEpochMs(preparation.grid, slot) % MS_PER_H !== 0) continue;
    const { alertnessPoints, lapses } = gateStateAt(preparation, person);
    hours.push({
      timeUtc: utcOf(preparation, slot),
      bodyClockH: rounded(preparation.person.todH[slot] ?? 0, 2),
      asleep: report.sleeps.some(({ fromSlot, toSlot }) => fromSlot <= slot && slot < toSlot),
      alertness: rounded(alertnessPoints, 2),
      kss: rounded(kssFromAlertness(alertnessPoints), 2),
      kssP90: rounded(kssP90FromAlertness(alertnessPoints), 2),
      lapses: rounded(lapses, 2),
    });
  }
  return hours;
}

function plannedSleep(preparation: Preparation, report: Report, sleep: SlotSleep): PlannedSleep {
  const { grid, fromSlot } = preparation;
  const lengthMin = (sleep.toSlot - sleep.fromSlot) * grid.slotMin;
  const alertnessAt = (slot: number): number => {
    const person = report.personBySlot[slot - fromSlot];
    return person === undefined ? 0 : rounded(gateStateAt(preparation, person).alertnessPoints, 2);
  };
  const { passage, weather, lag } = preparation;
  const lookout = lookoutAt(lag.conditionsAt(0), tableSettings(passage, weather, 1), sleep.fromSlot);
  const worth = sleepWorth(preparation, report, sleep);
  return {
    startUtc: utcOf(preparation, sleep.fromSlot),
    endUtc: utcOf(preparation, sleep.toSlot),
    lengthMin,
    beyondLookoutMin: Math.max(0, Math.round(lengthMin - lookout.intervalMin)),
    lookoutIntervalMin: rounded(lookout.intervalMin, 1),
    lookoutLimitedBy: lookout.limitedBy,
    isVisibilityKnown: lookout.isVisibilityKnown,
    alertnessBefore: alertnessAt(sleep.fromSlot),
    alertnessAfter: alertnessAt(sleep.toSlot),
    forJobId: worth.jobId,
    buys: worth.text,
  };
}

function lowHours(preparation: Preparation, endSlot: number): PlannedWatch['lowHours'] {
  const spans: { startSlot: number; endSlot: number }[] = [];
  for (let slot = preparation.fromSlot; slot < endSlot; slot++) {
    if (!isLowHour(preparation.person.todH[slot] ?? 0)) continue;
    const last = spans.at(-1);
    if (last?.endSlot === slot) last.endSlot = slot + 1;
    else spans.push({ startSlot: slot, endSlot: slot + 1 });
  }
  return spans.map((span) => ({
    startUtc: utcOf(preparation, span.startSlot),
    endUtc: utcOf(preparation, span.endSlot),
  }));
}

/** Sleep in each 24 h from the beginning of the plan, and in the last 24 h of it, those before the plan counted. */
function sleepDays(preparation: Preparation, report: Report, endSlot: number): SleepDay[] {
  const { grid, fromSlot, person } = preparation;
  const slotH = grid.slotMin / 60;
  const daySlots = Math.round(24 / slotH);
  const { wantedSleepHPer24H, leastSleepHPer24H, sleepEfficiencyRatio } = person.watchkeeper;
  const sleeps = report.personBySlot[endSlot - fromSlot]?.sleeps ?? null;
  const ends = Array.from(
    { length: Math.floor((endSlot - fromSlot) / daySlots) },
    (_, k) => fromSlot + (k + 1) * daySlots,
  );
  if (endSlot > fromSlot && ends.at(-1) !== endSlot) ends.push(endSlot);
  return ends.map((to) => ({
    fromUtc: utcOf(preparation, to - daySlots),
    toUtc: utcOf(preparation, to),
    sleptH: rounded(sleptSlots(sleeps, to - daySlots, to) * slotH * sleepEfficiencyRatio, 1),
    wantedH: wantedSleepHPer24H,
    leastH: leastSleepHPer24H,
  }));
}

/** The prior sleep rule at the end of each work it does not bar; works of which the same is to be said stand together. */
function priorSleepNotes(preparation: Preparation, report: Report): PlannedWatch['priorSleep'] {
  const wording = slotWording(preparation);
  const notes = new Map<string, { jobId: string; startUtc: string; names: Set<string> }>();
  for (const { placed } of report.entries) {
    const unit = preparation.units[placed.unit];
    const person = report.personBySlot[placed.endSlot - preparation.fromSlot];
    if (unit === undefined || person === undefined || unit.gate.priorSleepRule) continue;
    const epochMs = slotEpochMs(preparation.grid, placed.endSlot);
    const state = gateStateAt(preparation, person);
    const findings = personFindings(unit.job.id, { state, gate: PRIOR_SLEEP_GATE, epochMs });
    if (findings.length === 0) continue;
    const against = findings.map((finding) => findingText(finding, wording)).join('; ');
    const note = notes.get(against) ?? {
      jobId: unit.job.id,
      startUtc: utcOf(preparation, placed.startSlot),
      names: new Set<string>(),
    };
    notes.set(against, { ...note, names: note.names.add(unit.job.name) });
  }
  return [...notes].map(([against, { names, ...note }]) => ({
    ...note,
    text: `${[...names].join(', ')}: at the end ${against}.`,
  }));
}

/** From the first sleep of the record to the end of the plan; sleep counts as rest. */
function restRules(preparation: Preparation, report: Report, endSlot: number): PlannedRestRule[] {
  const { grid, passage } = preparation;
  const nowEpochMs = slotEpochMs(grid, preparation.fromSlot);
  const slept = passage.watchkeeper.sleeps.filter(({ startEpochMs }) => startEpochMs < nowEpochMs);
  const planned = report.sleeps.map(({ fromSlot, toSlot }) =>
    utcInterval(slotEpochMs(grid, fromSlot), slotEpochMs(grid, toSlot)),
  );
  const startEpochMs = Math.min(nowEpochMs, ...slept.map((sleep) => sleep.startEpochMs));
  const endEpochMs = slotEpochMs(grid, endSlot);
  if (endEpochMs <= startEpochMs) return [];
  return restRuleLines(restFigures([...slept, ...planned], utcInterval(startEpochMs, endEpochMs))).map((line) => ({
    ruleId: line.ruleId,
    text: line.name,
    observed: line.observed === null ? null : rounded(line.observed, 1),
    required: line.required,
    unit: line.unit,
    met: line.met,
  }));
}
