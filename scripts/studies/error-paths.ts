import { normalDraw } from '../sample-forecasts/random.ts';

/** Nodes of every path: one an hour from the base time on. */
export const NODE_H = 1;

/** Part of a level error that lasts through the forecast; the rest drifts and forgets itself in nine hours. */
const LASTING_RATIO = 0.6;
const MEMORY_H = 9;

/** What one weather differs in from the undisturbed pattern, hour by hour from the base time on. */
export interface WeatherErrors {
  readonly windKn: Float64Array;
  /** Ahead of its hour: positive comes early. */
  readonly earlyH: Float64Array;
  readonly turnDeg: number;
  readonly seaRatio: number;
}

/** Standard deviations of the errors of one kind, by lead [h]. */
interface ErrorSizes {
  readonly windSdKn: (leadH: number) => number;
  readonly earlySdH: (leadH: number) => number;
  readonly turnSdDeg: number;
  readonly seaSdRatio: number;
}

/** Between the members of an ensemble: grows with lead. */
const MEMBER_SIZES: ErrorSizes = {
  windSdKn: (leadH) => 0.5 + 0.05 * leadH,
  earlySdH: (leadH) => 0.04 * leadH,
  turnSdDeg: 10,
  seaSdRatio: 0.06,
};

/** What each member is dressed with besides: the part that is there from the first hour. */
const DRESSING_SIZES: ErrorSizes = {
  windSdKn: () => 1.2,
  earlySdH: () => 0.7,
  turnSdDeg: 8,
  seaSdRatio: 0.06,
};

export type Uniform = () => number;

export const drawMember = (uniform: Uniform, nodeCount: number): WeatherErrors =>
  drawErrors(uniform, nodeCount, MEMBER_SIZES);

/** A member with errors of its own laid over it. */
export const dressed = (member: WeatherErrors, uniform: Uniform): WeatherErrors =>
  summed(member, drawErrors(uniform, member.windKn.length, DRESSING_SIZES));

function drawErrors(uniform: Uniform, nodeCount: number, sizes: ErrorSizes): WeatherErrors {
  const level = unitPath(uniform, nodeCount);
  const early = normalDraw(uniform);
  return {
    windKn: level.map((value, node) => value * sizes.windSdKn(node * NODE_H)),
    earlyH: Float64Array.from({ length: nodeCount }, (_, node) => early * sizes.earlySdH(node * NODE_H)),
    turnDeg: normalDraw(uniform) * sizes.turnSdDeg,
    seaRatio: Math.exp(normalDraw(uniform) * sizes.seaSdRatio),
  };
}

/** A lasting part and a first-order autoregressive one, together of unit variance at every node. */
function unitPath(uniform: Uniform, nodeCount: number): Float64Array {
  const keptRatio = Math.exp(-NODE_H / MEMORY_H);
  const lasting = normalDraw(uniform) * LASTING_RATIO;
  let drift = normalDraw(uniform);
  return Float64Array.from({ length: nodeCount }, () => {
    const value = lasting + Math.sqrt(1 - LASTING_RATIO ** 2) * drift;
    drift = keptRatio * drift + Math.sqrt(1 - keptRatio ** 2) * normalDraw(uniform);
    return value;
  });
}

const summed = (a: WeatherErrors, b: WeatherErrors): WeatherErrors => ({
  windKn: a.windKn.map((value, node) => value + (b.windKn[node] ?? 0)),
  earlyH: a.earlyH.map((value, node) => value + (b.earlyH[node] ?? 0)),
  turnDeg: a.turnDeg + b.turnDeg,
  seaRatio: a.seaRatio * b.seaRatio,
});

/** The undisturbed pattern. */
export const noErrors = (nodeCount: number): WeatherErrors => ({
  windKn: new Float64Array(nodeCount),
  earlyH: new Float64Array(nodeCount),
  turnDeg: 0,
  seaRatio: 1,
});
