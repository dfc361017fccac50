import { MS_PER_H, type UtcInterval } from '../time/index.ts';
import { kssFromAlertness, kssP90FromAlertness } from './sleepiness.ts';
import { asleepS, asleepSAsPublished, awakeS, circadianC, inertiaW, ultradianU } from './three-process.ts';
import { THREE_PROCESS } from './three-process.table.ts';

/** The model's state at one instant. */
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
  readonly kssPoints: number;
  readonly kssP90Points: number;
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
  /** Default: S 7.96. */
  readonly start?: StartValue;
  /** `as-published` lets S jump where sleep begins above 12.2: for comparison with other programs only. */
  readonly sleepFormula?: 'continuous' | 'as-published';
}

/** S at a change of state. */
interface Anchor {
  readonly epochMs: number;
  readonly asleep: boolean;
  readonly s: number;
}

/**
 * Runs the three-process model through recorded and planned sleeps; awake in between and after the last.
 *
 * @param sleeps in order, not overlapping; the record begins when the first one begins
 * @returns one state per wanted instant, null where it lies before the record
 */
export function simulateAlertness(
  sleeps: readonly UtcInterval[],
  options: SimulationOptions,
): readonly (AlertnessAt | null)[] {
  const anchors = anchorsOf(sleeps, options);
  return options.atEpochMs.map((epochMs) => {
    const anchor = anchors.findLast((candidate) => candidate.epochMs <= epochMs);
    return anchor === undefined ? null : stateAt(anchor, epochMs, options);
  });
}

function anchorsOf(sleeps: readonly UtcInterval[], options: SimulationOptions): readonly Anchor[] {
  const [first] = sleeps;
  if (first === undefined) return [];
  const anchors: Anchor[] = [];
  let s = startS(options, first.startEpochMs);
  let awakeSinceEpochMs = first.startEpochMs;
  for (const sleep of sleeps) {
    s = awakeS({ s, elapsedH: (sleep.startEpochMs - awakeSinceEpochMs) / MS_PER_H });
    anchors.push({ epochMs: sleep.startEpochMs, asleep: true, s });
    s = recoveredS(s, (sleep.endEpochMs - sleep.startEpochMs) / MS_PER_H, options);
    anchors.push({ epochMs: sleep.endEpochMs, asleep: false, s });
    awakeSinceEpochMs = sleep.endEpochMs;
  }
  return anchors;
}

function startS(options: SimulationOptions, onsetEpochMs: number): number {
  const start = options.start ?? { kind: 's', s: THREE_PROCESS.startS.value };
  if (start.kind === 's') return start.s;
  const todH = options.bodyClock(onsetEpochMs);
  return start.alertnessPoints - circadianC(todH) - ultradianU(todH);
}

function recoveredS(s: number, inBunkH: number, options: SimulationOptions): number {
  const asleep = { s, elapsedH: inBunkH * options.sleepEfficiencyRatio };
  return options.sleepFormula === 'as-published' ? asleepSAsPublished(asleep) : asleepS(asleep);
}

function stateAt(anchor: Anchor, epochMs: number, options: SimulationOptions): AlertnessAt {
  const inStateH = (epochMs - anchor.epochMs) / MS_PER_H;
  const s = anchor.asleep ? recoveredS(anchor.s, inStateH, options) : awakeS({ s: anchor.s, elapsedH: inStateH });
  const todH = options.bodyClock(epochMs);
  const [c, u] = [circadianC(todH), ultradianU(todH)];
  const alertnessPoints = s + c + u;
  return {
    epochMs,
    asleep: anchor.asleep,
    inStateH,
    todH,
    s,
    c,
    u,
    w: anchor.asleep ? 0 : inertiaW(inStateH),
    alertnessPoints,
    kssPoints: kssFromAlertness(alertnessPoints),
    kssP90Points: kssP90FromAlertness(alertnessPoints),
  };
}
