/** GRIB files to forecasts on several threads. */
export type { DecodeProgress } from './decode-tasks.ts';
export { loadForecast, type LoadOptions } from './load-forecast.ts';
export { openForecast } from './open-forecast.ts';
export { readShared } from './shared-bytes.ts';
export { fileProblem, readWholeFile } from './whole-file.ts';
