import { GATES } from './gates.table.ts';
import { inertiaGateMin } from './inertia-gate.ts';
import { alertnessAtKss } from './alertness/sleepiness.ts';
import type { GateSettings } from './watchkeeper.ts';

/** What of a step decides its gate. */
export interface GatedStep {
  readonly effort: 'light' | 'moderate' | 'heavy';
  readonly place: 'below' | 'cockpit' | 'deck' | 'foredeck' | 'aloft' | 'overside';
}

/** What a person must be before a step is begun. */
export interface Gate {
  readonly leastAlertnessPoints: number;
  /** Of the unified model, for debt of many days; null: the gate does not apply. */
  readonly mostLapses: number | null;
  /** Not 02-06 on the body clock. */
  readonly noLowHours: boolean;
  readonly longestAwakeH: number | null;
  /** Times the inertia gate; 0: the gate does not apply. */
  readonly inertiaMultiplierRatio: number;
  /** 5 h of sleep in 24 h, 12 h in 48 h, not longer awake than slept in 48 h. */
  readonly priorSleepRule: boolean;
}

/** The person at one instant of a step; gates are asked at its start and at its end. */
export interface GateState {
  readonly alertnessPoints: number;
  readonly lapses: number;
  readonly todH: number;
  readonly awakeH: number;
  readonly lastSleepMin: number;
  readonly wokeTodH: number;
  readonly slept24H: number;
  readonly slept48H: number;
}

export type GateRule =
  | 'alertness'
  | 'lapses'
  | 'low-hours'
  | 'awake'
  | 'inertia'
  | 'sleep-24h'
  | 'sleep-48h'
  | 'awake-beyond-sleep';

/** One gate that does not open. */
export interface GateFinding {
  readonly rule: GateRule;
  readonly observed: number;
  readonly required: number;
  readonly unit: string;
  /** Distance to the requirement in `unit`; negative, because it is not met. */
  readonly margin: number;
}

/** Alertness below which nothing at all is planned: mean KSS 8. */
export const ANY_LEAST_ALERTNESS_POINTS = alertnessAtKss(GATES.anyKssBelow.value);

/** Gate lines nobody has edited. */
export const DEFAULT_GATES: GateSettings = {
  hardLeastAlertnessPoints: GATES.hardLeastAlertness.value,
  deckLeastAlertnessPoints: GATES.deckLeastAlertness.value,
  hardMostLapses: GATES.hardMostLapses.value,
  deckMostLapses: GATES.deckMostLapses.value,
  hardLongestAwakeH: GATES.hardLongestAwake.value,
};

/** Gate of a step: strictest for heavy, aloft and overside work, then for everything outside, then for work below. */
export function gateFor({ effort, place }: GatedStep, lines: GateSettings = DEFAULT_GATES): Gate {
  const isExposed = place === 'aloft' || place === 'overside';
  if (effort === 'heavy' || isExposed)
    return {
      leastAlertnessPoints: lines.hardLeastAlertnessPoints,
      mostLapses: lines.hardMostLapses,
      noLowHours: true,
      longestAwakeH: lines.hardLongestAwakeH,
      inertiaMultiplierRatio: place === 'aloft' ? GATES.inertiaAloftMultiplier.value : 1,
      priorSleepRule: isExposed,
    };
  return {
    leastAlertnessPoints: place === 'below' ? ANY_LEAST_ALERTNESS_POINTS : lines.deckLeastAlertnessPoints,
    mostLapses: place === 'below' ? null : lines.deckMostLapses,
    noLowHours: false,
    longestAwakeH: null,
    inertiaMultiplierRatio: 0,
    priorSleepRule: false,
  };
}

/** The strictest of several gates: a block of steps passes it only if every one of them would. */
export function strictestGate(gates: readonly Gate[]): Gate {
  const least = (of: (gate: Gate) => number | null): number | null => {
    const known = gates.flatMap((gate) => of(gate) ?? []);
    return known.length === 0 ? null : Math.min(...known);
  };
  return {
    leastAlertnessPoints: Math.max(ANY_LEAST_ALERTNESS_POINTS, ...gates.map((gate) => gate.leastAlertnessPoints)),
    mostLapses: least((gate) => gate.mostLapses),
    noLowHours: gates.some((gate) => gate.noLowHours),
    longestAwakeH: least((gate) => gate.longestAwakeH),
    inertiaMultiplierRatio: Math.max(0, ...gates.map((gate) => gate.inertiaMultiplierRatio)),
    priorSleepRule: gates.some((gate) => gate.priorSleepRule),
  };
}

/** Whether a body-clock hour lies in the low, [02, 06). */
export const isLowHour = (todH: number): boolean => todH >= GATES.lowHoursFrom.value && todH < GATES.lowHoursTo.value;

/** Every gate that fails at this instant, in a fixed order; empty when the step may be worked. */
export function gateFindings(state: GateState, gate: Gate): readonly GateFinding[] {
  const found: GateFinding[] = [];
  const atLeast = (rule: GateRule, observed: number, required: number, unit: string): void => {
    if (!(observed >= required)) found.push({ rule, observed, required, unit, margin: observed - required });
  };
  const atMost = (rule: GateRule, observed: number, required: number, unit: string): void => {
    if (!(observed <= required)) found.push({ rule, observed, required, unit, margin: required - observed });
  };
  atLeast('alertness', state.alertnessPoints, gate.leastAlertnessPoints, 'alertness points');
  if (gate.mostLapses !== null) atMost('lapses', state.lapses, gate.mostLapses, 'lapses');
  if (gate.noLowHours && isLowHour(state.todH))
    atLeast('low-hours', state.todH, GATES.lowHoursTo.value, 'h after body-clock midnight');
  if (gate.longestAwakeH !== null) atMost('awake', state.awakeH, gate.longestAwakeH, 'h');
  if (gate.inertiaMultiplierRatio > 0)
    atLeast('inertia', state.awakeH * 60, inertiaGateMin(state) * gate.inertiaMultiplierRatio, 'min awake');
  if (gate.priorSleepRule) {
    atLeast('sleep-24h', state.slept24H, GATES.priorSleep24.value, 'h');
    atLeast('sleep-48h', state.slept48H, GATES.priorSleep48.value, 'h');
    atMost('awake-beyond-sleep', state.awakeH, state.slept48H, 'h');
  }
  return found;
}

/** The prior sleep rule alone, as information where it does not gate. */
export const PRIOR_SLEEP_GATE: Gate = {
  leastAlertnessPoints: Number.NEGATIVE_INFINITY,
  mostLapses: null,
  noLowHours: false,
  longestAwakeH: null,
  inertiaMultiplierRatio: 0,
  priorSleepRule: true,
};

export const priorSleepFindings = (state: GateState): readonly GateFinding[] => gateFindings(state, PRIOR_SLEEP_GATE);
