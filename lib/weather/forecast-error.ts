import { knFromMps } from '../units/index.ts';

/**
 * Default standard deviations of a single forecast's error by lead time [h from the base time].
 *
 * Fitted by us: analysis and representativeness error 1.2 m/s (scatterometer comparisons, 1.4-1.7 m/s RMS); growth
 * 0.5 m/s a day (sources.MARJANOVIC_2025); saturation 4.5 m/s (climatology, from memory).
 */
const WIND_ANALYSIS_MPS = 1.2;
const WIND_GROWTH_MPS_PER_H = 0.5 / 24;
const WIND_MOST_MPS = 4.5;

/** Wind speed at 10 m [kn]. */
export function sigmaWindKn(leadH: number): number {
  const grownMps = Math.hypot(WIND_ANALYSIS_MPS, WIND_GROWTH_MPS_PER_H * leadH);
  return knFromMps(Math.min(WIND_MOST_MPS, grownMps));
}

/** Significant wave height [m]. Fitted to sources.WILCKEN_2012, Table 10, at 0.83-0.93 of its spread. */
export function sigmaSeaHeightM(sea: { readonly seaHeightM: number; readonly leadH: number }): number {
  return Math.hypot(0.25, sea.seaHeightM * (0.12 + 0.0017 * sea.leadH));
}

/** Arrival of a change of weather [h]. 1.5 h a day: 50 n mi a day along the track at 25-35 kn. */
export function sigmaTimeH(leadH: number): number {
  return 1 + (1.5 * leadH) / 24;
}

/** Wind direction [°]: 17 at analysis (OSCAT validation 2012, IEEE GRSL), 5 a day more (from memory). */
export function sigmaDirectionDeg(leadH: number): number {
  return 17 + (5 * leadH) / 24;
}
