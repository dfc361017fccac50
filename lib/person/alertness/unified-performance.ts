/**
 * The unified model of performance: sleep pressure S, accumulated debt L, circadian C; lapses = S + κ·C.
 *
 * It stands beside the three-process model, which goes flat after about four days of short sleep; this one goes on
 * climbing for weeks. Its lapses are never turned into a sleepiness rating, nor the other way.
 *
 * @see sources.RAMAKRISHNAN_2016
 */
import { UNIFIED_HARMONICS, UNIFIED_PERFORMANCE } from './unified-performance.table.ts';

const UPPER = UNIFIED_PERFORMANCE.upperAsymptote.value;
const AWAKE_H = UNIFIED_PERFORMANCE.awakeTimeConstant.value;
const ASLEEP_H = UNIFIED_PERFORMANCE.asleepTimeConstant.value;
const DEBT_H = UNIFIED_PERFORMANCE.debtTimeConstant.value;
const PHASE_H = UNIFIED_PERFORMANCE.phase.value;
/** Share of debt that goes over into S asleep: L's time constant over the difference of both. */
const DEBT_SHARE = DEBT_H / (DEBT_H - ASLEEP_H);

/** S and L [lapses]; both are below zero in someone well rested. */
export interface UnifiedState {
  readonly s: number;
  readonly debtLapses: number;
}

/** Where a record of sleeps begins: no pressure and no debt. */
export const UNIFIED_START: UnifiedState = {
  s: UNIFIED_PERFORMANCE.startS.value,
  debtLapses: UNIFIED_PERFORMANCE.startDebt.value,
};

/** After some hours awake: both rise toward 24.12. */
export function awakeUnified({ s, debtLapses }: UnifiedState, elapsedH: number): UnifiedState {
  const debtLeft = Math.exp(-elapsedH / DEBT_H);
  return {
    s: UPPER - (UPPER - s) * Math.exp(-elapsedH / AWAKE_H),
    debtLapses: debtLapses * debtLeft + UPPER * (1 - debtLeft),
  };
}

/** After some hours of sleep: S falls within hours toward the debt, the debt within days toward −2 · 24.12. */
export function asleepUnified({ s, debtLapses }: UnifiedState, elapsedH: number): UnifiedState {
  const left = Math.exp(-elapsedH / ASLEEP_H);
  const debtLeft = Math.exp(-elapsedH / DEBT_H);
  return {
    s: s * left - 2 * UPPER * (1 - left) + (debtLapses + 2 * UPPER) * DEBT_SHARE * (debtLeft - left),
    debtLapses: debtLapses * debtLeft - 2 * UPPER * (1 - debtLeft),
  };
}

/** C at a body-clock hour, about −1 … 1; largest, that is worst, at 01:58. */
export function unifiedC(todH: number): number {
  const phaseRad = (Math.PI / 12) * (todH + PHASE_H);
  let sum = 0;
  for (let k = 0; k < UNIFIED_HARMONICS.length; k++) sum += (UNIFIED_HARMONICS[k] ?? 0) * Math.sin((k + 1) * phaseRad);
  return sum;
}

/** κ·C: what the hour of the body clock adds to S [lapses]. */
export const lapsesRhythm = (todH: number): number => UNIFIED_PERFORMANCE.circadianAmplitude.value * unifiedC(todH);

/** Lapses expected in a ten-minute reaction test, S + κ·C; below zero for someone well rested, shown as none. */
export const lapsesOf = (state: UnifiedState, todH: number): number => state.s + lapsesRhythm(todH);

/** Sleep inertia W of this model some hours after waking (1.14 at waking); no part of the lapses. */
export const unifiedW = (awakeH: number): number =>
  UNIFIED_PERFORMANCE.inertiaAtWaking.value * Math.exp(UNIFIED_PERFORMANCE.inertiaRate.value * awakeH);
