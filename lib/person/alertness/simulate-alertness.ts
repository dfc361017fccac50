import { MS_PER_H, type UtcInterval } from '../../time/index.ts';
import { afterAsleep, afterAwake, type Homeostasis, type SleepFormula } from './homeostasis.ts';
import { kssFromAlertness, kssP90FromAlertness, kssWithInertia } from './sleepiness.ts';
import { circadianC, inertiaW, ultradianU } from './three-process.ts';
import { THREE_PROCESS } from './three-process.table.ts';
import { lapsesOf, UNIFIED_START, type UnifiedState } from './unified-performance.ts';

/** The state of both models at one instant; nothing is clamped. */
export interface AlertnessAt {
  readonly epochMs: number;
  readonly asleep: boolean;
  /** Time asleep or awake so far. At the instant of falling asleep: asleep 0 h; at waking: awake 0 h. */
  readonly inStateH: number;
  readonly todH: number;
  readonly s: number;
  readonly c: number;
  readonly u: number;
  /** Zero while asleep. */
  readonly w: number;
  /** S + C + U, without W. */
  readonly alertnessPoints: number;
  /** Mean rating and that of nine in ten, on the model 5c line: without W. */
  readonly kssPoints: number;
  readonly kssP90Points: number;
  /** Mean rating on the line of the FIPS package: with W. */
  readonly kssFipsPoints: number;
  readonly unified: UnifiedState;
  /** Of the unified model, S + κ·C. */
  readonly lapses: number;
}

/** S where the record begins: a value of S, or the S that makes S + C + U a given value there. */
export type StartValue =
  | { readonly kind: 's'; readonly s: number }
  | { readonly kind: 'alertness'; readonly alertnessPoints: number };

export interface SimulationOptions {
  /** Instants wanted, in any order. */
  readonly atEpochMs: readonly number[];
  /** Body-clock hour at an instant. */
  readonly bodyClock: (epochMs: number) => number;
  /** Share of the time in the bunk that is sleep: an hour there recovers that share of an hour. */
  readonly sleepEfficiencyRatio: number;
  /** Default: S 7.96. The unified model always begins without pressure or debt. */
  readonly start?: StartValue;
  /** Default: continuous. */
  readonly sleepFormula?: SleepFormula;
}

/** Both models at a change of state. */
interface Anchor extends Homeostasis {
  readonly epochMs: number;
  readonly asleep: boolean;
}

/**
 * Runs the three-process model and the unified model through recorded and planned sleeps; awake in between and after the
 * last.
 *
 * @param sleeps in order, not overlapping; the record begins when the first one begins
 * @returns one state per wanted instant, null where it lies before the record
 */
export function simulateAlertness(
  sleeps: readonly UtcInterval[],
  options: SimulationOptions,
): readonly (AlertnessAt | null)[] {
  const anchors = anchorsOf(sleeps, options);
  let at = 0;
  return options.atEpochMs.map((epochMs) => {
    // Instants mostly ascend: the anchor is the one of the instant before, or the next.
    if ((anchors[at]?.epochMs ?? 0) > epochMs) at = 0;
    while (at + 1 < anchors.length && (anchors[at + 1]?.epochMs ?? 0) <= epochMs) at++;
    const anchor = anchors[at];
    return anchor === undefined || anchor.epochMs > epochMs ? null : stateAt(anchor, epochMs, options);
  });
}

/** Every falling asleep and waking of a record, in order. */
function anchorsOf(sleeps: readonly UtcInterval[], options: SimulationOptions): readonly Anchor[] {
  const [first] = sleeps;
  if (first === undefined) return [];
  const anchors: Anchor[] = [];
  let state: Homeostasis = { s: startS(options, first.startEpochMs), unified: UNIFIED_START };
  let awakeSinceEpochMs = first.startEpochMs;
  for (const { startEpochMs, endEpochMs } of sleeps) {
    state = afterAwake(state, (startEpochMs - awakeSinceEpochMs) / MS_PER_H);
    anchors.push({ epochMs: startEpochMs, asleep: true, ...state });
    state = recovered(state, (endEpochMs - startEpochMs) / MS_PER_H, options);
    anchors.push({ epochMs: endEpochMs, asleep: false, ...state });
    awakeSinceEpochMs = endEpochMs;
  }
  return anchors;
}

function startS(options: SimulationOptions, onsetEpochMs: number): number {
  const start = options.start ?? { kind: 's', s: THREE_PROCESS.startS.value };
  if (start.kind === 's') return start.s;
  const todH = options.bodyClock(onsetEpochMs);
  return start.alertnessPoints - circadianC(todH) - ultradianU(todH);
}

const recovered = (state: Homeostasis, inBunkH: number, options: SimulationOptions): Homeostasis =>
  afterAsleep(state, inBunkH * options.sleepEfficiencyRatio, options.sleepFormula);

function stateAt(anchor: Anchor, epochMs: number, options: SimulationOptions): AlertnessAt {
  const inStateH = (epochMs - anchor.epochMs) / MS_PER_H;
  const { s, unified } = anchor.asleep ? recovered(anchor, inStateH, options) : afterAwake(anchor, inStateH);
  const todH = options.bodyClock(epochMs);
  const [c, u, w] = [circadianC(todH), ultradianU(todH), anchor.asleep ? 0 : inertiaW(inStateH)];
  const alertnessPoints = s + c + u;
  return {
    epochMs,
    asleep: anchor.asleep,
    inStateH,
    todH,
    s,
    c,
    u,
    w,
    alertnessPoints,
    kssPoints: kssFromAlertness(alertnessPoints),
    kssP90Points: kssP90FromAlertness(alertnessPoints),
    kssFipsPoints: kssWithInertia({ alertnessPoints, w }),
    unified,
    lapses: lapsesOf(unified, todH),
  };
}
