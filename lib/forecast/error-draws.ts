import { sigmaDirectionDeg, sigmaSeaHeightM, sigmaTimeH, sigmaWindKn } from '../weather/index.ts';
import {
  driftingErrorH,
  driftNodeH,
  earlyBadWeatherSd,
  lastingErrorRatio,
  residualDirectionErrorSdDeg,
  residualTimingErrorSdH,
  windSeaErrorRatio,
} from './error-figures.ts';
import { stratifiedNormals } from './random.ts';

/** How large errors are by lead [h from the base time]; leads below 0 count as 0. */
export interface ErrorSizes {
  readonly windSdKn: (leadH: number) => number;
  readonly seaSdM: (sea: { readonly seaHeightM: number; readonly leadH: number }) => number;
  readonly timingSdH: (leadH: number) => number;
  readonly directionSdDeg: (leadH: number) => number;
  /** Mean advance of rising wind, in standard deviations of the timing error. */
  readonly earlySd: number;
}

/** One forecast turned into many: everything grows with lead. */
export const singleForecastErrors: ErrorSizes = {
  windSdKn: sigmaWindKn,
  seaSdM: sigmaSeaHeightM,
  timingSdH: sigmaTimeH,
  directionSdDeg: sigmaDirectionDeg,
  earlySd: earlyBadWeatherSd,
};

/** What an ensemble's spread does not show: the part that is there at lead 0. */
export const residualErrors: ErrorSizes = {
  windSdKn: () => sigmaWindKn(0),
  seaSdM: ({ seaHeightM }) => sigmaSeaHeightM({ seaHeightM, leadH: 0 }),
  timingSdH: () => residualTimingErrorSdH,
  directionSdDeg: () => residualDirectionErrorSdDeg,
  earlySd: 0,
};

/** Standard normal draws of every scenario. */
export interface ErrorDraws {
  /** Scenario-major, one value per node of the drifting part; unit variance at every node. */
  readonly wind: Float64Array;
  readonly sea: Float64Array;
  readonly nodeCount: number;
  readonly timing: Float64Array;
  readonly direction: Float64Array;
}

export interface DrawKey {
  readonly seed: number;
  readonly purpose: string;
  readonly scenarioCount: number;
  /** Longest lead asked for. */
  readonly mostLeadH: number;
}

/** Draws all errors of a scenario set: stratified over scenarios, sea correlated with wind. */
export function drawErrors(key: DrawKey): ErrorDraws {
  const nodeCount = Math.ceil(Math.max(0, key.mostLeadH) / driftNodeH) + 2;
  const wind = levelDraws(key, 'wind level', nodeCount);
  const own = levelDraws(key, 'sea level', nodeCount);
  const ownRatio = Math.sqrt(1 - windSeaErrorRatio ** 2);
  return {
    wind,
    sea: wind.map((z, i) => windSeaErrorRatio * z + ownRatio * (own[i] ?? 0)),
    nodeCount,
    timing: normals(key, 'timing'),
    direction: normals(key, 'direction'),
  };
}

const normals = ({ seed, purpose, scenarioCount }: DrawKey, variable: string): Float64Array =>
  stratifiedNormals(scenarioCount, { seed, purpose, variable });

/** A lasting part and a drifting one (Ornstein-Uhlenbeck: correlation e^(-Δt/24 h)), at every node, together of unit variance. */
function levelDraws(key: DrawKey, variable: string, nodeCount: number): Float64Array {
  const lasting = normals(key, `${variable}, lasting`);
  const driftRatio = Math.sqrt(1 - lastingErrorRatio ** 2);
  const kept = nodeCorrelationRatio;
  const level = new Float64Array(key.scenarioCount * nodeCount);
  let drift = normals(key, `${variable}, node 0`);
  for (let node = 0; node < nodeCount; node++) {
    const fresh = normals(key, `${variable}, node ${node}`);
    if (node > 0) drift = drift.map((x, w) => kept * x + Math.sqrt(1 - kept * kept) * (fresh[w] ?? 0));
    for (let w = 0; w < key.scenarioCount; w++) {
      level[w * nodeCount + node] = lastingErrorRatio * (lasting[w] ?? 0) + driftRatio * (drift[w] ?? 0);
    }
  }
  return level;
}

const nodeCorrelationRatio = Math.exp(-driftNodeH / driftingErrorH);
/** Correlation of the whole level between neighbouring nodes. */
const levelCorrelationRatio = lastingErrorRatio ** 2 + (1 - lastingErrorRatio ** 2) * nodeCorrelationRatio;

/** Where leads lie between nodes: weights that keep unit variance between them. */
export interface NodeWeights {
  readonly nodeIndex: Int32Array;
  readonly earlier: Float64Array;
  readonly later: Float64Array;
}

/** Node weights for leads [h]; below 0 the first node, beyond the last node the last. */
export function nodeWeights(leadH: Float64Array, nodeCount: number): NodeWeights {
  const weights = {
    nodeIndex: new Int32Array(leadH.length),
    earlier: new Float64Array(leadH.length),
    later: new Float64Array(leadH.length),
  };
  for (const [i, lead] of leadH.entries()) {
    const nodes = Math.min(Math.max(lead / driftNodeH, 0), nodeCount - 1);
    const index = Math.min(Math.floor(nodes), nodeCount - 2);
    const x = nodes - index;
    const variance = (1 - x) ** 2 + x * x + 2 * x * (1 - x) * levelCorrelationRatio;
    weights.nodeIndex[i] = index;
    weights.earlier[i] = (1 - x) / Math.sqrt(variance);
    weights.later[i] = x / Math.sqrt(variance);
  }
  return weights;
}
