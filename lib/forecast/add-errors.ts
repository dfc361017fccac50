import { wrap360Deg } from '../units/index.ts';
import type { ErrorDraws, ErrorSizes, NodeWeights } from './error-draws.ts';
import { gustRatioFromKn, leastDrawnSeaHeightM, leastDrawnWindKn, leastGustExcessKn } from './error-figures.ts';
import type { ErrorsAlong } from './scenario-times.ts';
import type { WeatherAlong } from './weather-along.ts';

/** Arrays of a WeatherAlong that differ between scenarios. */
export type ScenarioArrays = Pick<WeatherAlong, 'windKn' | 'windFromDegTrue' | 'gustKn' | 'seaHeightM'>;

/** Errors of one scenario along a course. */
export interface ScenarioErrors {
  readonly draws: ErrorDraws;
  readonly sizes: ErrorSizes;
  readonly along: ErrorsAlong;
  readonly scenarioIndex: number;
}

/** Adds level and direction errors to one scenario, in place, and takes the gust along. */
export function addErrors(of: ScenarioErrors, out: ScenarioArrays): void {
  addWindErrors(of, out);
  addSeaErrors(of, out);
}

function addWindErrors({ draws, along, scenarioIndex }: ScenarioErrors, out: ScenarioArrays): void {
  const nodeStart = scenarioIndex * draws.nodeCount;
  const first = scenarioIndex * along.leadH.length;
  const turnZ = draws.direction[scenarioIndex] ?? 0;
  for (let i = 0; i < along.leadH.length; i++) {
    const at = first + i;
    const forecastKn = out.windKn[at] ?? Number.NaN;
    const errorKn = levelAt(draws.wind, along.nodes, { startIndex: nodeStart, i }) * (along.windSdKn[i] ?? 0);
    const drawnKn = Math.max(leastDrawnWindKn, forecastKn + errorKn);
    const turnDeg = turnZ * (along.directionSdDeg[i] ?? 0);
    out.windKn[at] = drawnKn;
    out.windFromDegTrue[at] = wrap360Deg((out.windFromDegTrue[at] ?? Number.NaN) + turnDeg);
    out.gustKn[at] = gustWith({ forecastKn, drawnKn, forecastGustKn: out.gustKn[at] ?? Number.NaN });
  }
}

function addSeaErrors({ draws, sizes, along, scenarioIndex }: ScenarioErrors, out: ScenarioArrays): void {
  const nodeStart = scenarioIndex * draws.nodeCount;
  const first = scenarioIndex * along.leadH.length;
  for (let i = 0; i < along.leadH.length; i++) {
    const seaHeightM = out.seaHeightM[first + i] ?? Number.NaN;
    const sdM = sizes.seaSdM({ seaHeightM, leadH: along.leadH[i] ?? 0 });
    const errorM = levelAt(draws.sea, along.nodes, { startIndex: nodeStart, i }) * sdM;
    out.seaHeightM[first + i] = Math.max(leastDrawnSeaHeightM, seaHeightM + errorM);
  }
}

/** Standard normal level of one scenario at one point, between its nodes. */
function levelAt(
  draws: Float64Array,
  nodes: NodeWeights,
  at: { readonly startIndex: number; readonly i: number },
): number {
  const node = at.startIndex + (nodes.nodeIndex[at.i] ?? 0);
  return (draws[node] ?? 0) * (nodes.earlier[at.i] ?? 0) + (draws[node + 1] ?? 0) * (nodes.later[at.i] ?? 0);
}

/** The gust that goes with a drawn mean: its excess grows with the mean, from 8 kn on in proportion. */
function gustWith(of: {
  readonly forecastKn: number;
  readonly drawnKn: number;
  readonly forecastGustKn: number;
}): number {
  const excessKn = Math.max(0, of.forecastGustKn - of.forecastKn);
  const scale = Math.max(of.drawnKn, gustRatioFromKn) / Math.max(of.forecastKn, gustRatioFromKn);
  return of.drawnKn + Math.max(leastGustExcessKn, excessKn * scale);
}
