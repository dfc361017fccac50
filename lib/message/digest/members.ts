/** The members of an ensemble from a digest: the reference run, later or earlier, stronger or weaker. */
import { MS_PER_H } from '../../time/index.ts';
import { wrap360Deg } from '../../units/index.ts';
import { sigmaTimeH } from '../../weather/index.ts';
import { type Digest, type DigestSpread, NODE_STEPS, nodeCountOf, STEP_H } from './digest.ts';
import { gustAlong, type LaneInstant, laneInstant, type LaneWeather } from './lane-weather.ts';

/** One unit of each kind of difference, so that they can be weighed against one another. Ours. */
export const UNIT_WIND_KN = 1;
export const UNIT_TURN_DEG = 12;
export const UNIT_SEA_M = 0.15;

/** Sizes of modes: from a twentieth of a unit, each a fifth larger than the one before. */
export const modeSize = (sizeIndex: number): number => 0.02 * 1.12 ** sizeIndex;

type Timed = Pick<Digest, 'baseEpochMs' | 'firstEpochMs' | 'stepCount'>;

/** How late a member is at each step [h], from how late it is at the last. */
export function latenessH(digest: Timed, lastH: number): number[] {
  const leadH = (stepIndex: number): number =>
    (digest.firstEpochMs - digest.baseEpochMs) / MS_PER_H + stepIndex * STEP_H;
  const last = sigmaTimeH(Math.max(0, leadH(digest.stepCount - 1)));
  return Array.from(
    { length: digest.stepCount },
    (_, stepIndex) => (lastH * sigmaTimeH(Math.max(0, leadH(stepIndex)))) / last,
  );
}

/** Values at nodes brought to every step, straight between. */
function overSteps(nodes: readonly number[], stepCount: number): number[] {
  const stepOf = (nodeIndex: number): number => Math.min(nodeIndex * NODE_STEPS, stepCount - 1);
  return Array.from({ length: stepCount }, (_, stepIndex) => {
    const nodeIndex = Math.min(Math.floor(stepIndex / NODE_STEPS), Math.max(0, nodes.length - 2));
    const [from, to] = [stepOf(nodeIndex), stepOf(nodeIndex + 1)];
    const share = to > from ? (stepIndex - from) / (to - from) : 0;
    const earlier = nodes[nodeIndex] ?? 0;
    return earlier + ((nodes[nodeIndex + 1] ?? earlier) - earlier) * share;
  });
}

/** What one member adds to the reference run at its own hour, step by step. */
export interface MemberDifference {
  readonly lateH: readonly number[];
  readonly windKn: readonly number[];
  readonly turnDeg: readonly number[];
  readonly seaM: readonly number[];
}

export function memberDifference(digest: Timed, spread: DigestSpread, memberIndex: number): MemberDifference {
  const { stepCount } = digest;
  const nodeCount = nodeCountOf(stepCount);
  const sums = Array.from({ length: 3 * nodeCount }, () => 0);
  for (const mode of spread.modes) {
    const amount = modeSize(mode.sizeIndex) * (mode.scoresSd[memberIndex] ?? 0);
    for (let i = 0; i < sums.length; i++) sums[i] = (sums[i] ?? 0) + amount * (mode.values[i] ?? 0);
  }
  const part = (index: number, unit: number): number[] =>
    overSteps(
      sums.slice(index * nodeCount, (index + 1) * nodeCount).map((value) => value * unit),
      stepCount,
    );
  return {
    lateH: latenessH(digest, spread.timingH[memberIndex] ?? 0),
    windKn: part(0, UNIT_WIND_KN),
    turnDeg: part(1, UNIT_TURN_DEG),
    seaM: part(2, UNIT_SEA_M),
  };
}

/** A member at a step on a lane. */
export function memberInstant(
  weather: LaneWeather,
  difference: MemberDifference,
  at: { readonly laneIndex: number; readonly stepIndex: number },
): LaneInstant {
  const timed = laneInstant(weather, at.laneIndex, at.stepIndex - (difference.lateH[at.stepIndex] ?? 0) / STEP_H);
  const windKn = Math.max(0, timed.windKn + (difference.windKn[at.stepIndex] ?? 0));
  return {
    windKn,
    windFromDegTrue: wrap360Deg(timed.windFromDegTrue + (difference.turnDeg[at.stepIndex] ?? 0)),
    seaM: Math.max(0, timed.seaM + (difference.seaM[at.stepIndex] ?? 0)),
    gustKn: gustAlong({ gustKn: timed.gustKn, besideKn: timed.windKn, windKn }),
  };
}
