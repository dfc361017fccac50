/**
 * How far members stray from the control, by lead time from the base time.
 *
 * Slatch's forecast room dresses every member with the error that even a fresh analysis has. The members written here
 * therefore carry only what comes on top of that with lead, so that both together are the default error model.
 */
import { sigmaSeaHeightM, sigmaTimeH, sigmaWindKn } from '../../lib/weather/index.ts';

const growthSd = (totalSd: number, atAnalysisSd: number): number =>
  Math.sqrt(Math.max(0, totalSd ** 2 - atAnalysisSd ** 2));

/** Wind speed. */
export const windGrowthSdKn = (leadH: number): number => growthSd(sigmaWindKn(leadH), sigmaWindKn(0));

/** Arrival of a change of weather. */
export const timingGrowthSdH = (leadH: number): number => growthSd(sigmaTimeH(leadH), sigmaTimeH(0));

/** Sea height where `seaHeightM` is forecast. */
export const seaGrowthSdM = (sea: { readonly seaHeightM: number; readonly leadH: number }): number =>
  growthSd(sigmaSeaHeightM(sea), sigmaSeaHeightM({ ...sea, leadH: 0 }));

/** 12° at the analysis, 4° a day more: the demo's own, tuned together with its jobs. */
const DIRECTION_AT_ANALYSIS_SD_DEG = 12;
const DIRECTION_SD_DEG_PER_DAY = 4;

/** Wind direction. */
export const directionGrowthSdDeg = (leadH: number): number =>
  growthSd(DIRECTION_AT_ANALYSIS_SD_DEG + (DIRECTION_SD_DEG_PER_DAY * leadH) / 24, DIRECTION_AT_ANALYSIS_SD_DEG);
