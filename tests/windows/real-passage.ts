/** Two passages through real lulls: wind of NOAA's GFS of November 2016, no waves in the file. */
import { readFileSync } from 'node:fs';
import type { Forecast } from '../../lib/forecast/index.ts';
import { buildForecast } from '../../lib/forecast/index.ts';
import type { Job } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { littleJob, littlePassage, littleStep, onlyNoGo, withBoatSpeed } from '../planner/little-world.ts';
import { GRIB_PATH } from './by-hand/grid-values.ts';

export const REAL_BASE_EPOCH_MS = Date.UTC(2016, 10, 20);
const START_H = 3;

export interface RealVoyage {
  readonly box: 'atlantic' | 'pacific';
  readonly from: { readonly lat: number; readonly lon: number };
  readonly boatKn: number;
}

/** One slow boat in mid-Atlantic; one at six knots in the North Pacific that crosses the date line. */
export const REAL_VOYAGES: readonly RealVoyage[] = [
  { box: 'atlantic', from: { lat: 34.3, lon: -40.4 }, boatKn: 1 },
  { box: 'pacific', from: { lat: 44.2, lon: 175.2 }, boatKn: 6 },
];

/** Work of fixed length with one wind limit and a sea limit the file cannot answer. */
export const REAL_WORKS = [
  { id: 'short', minutes: 40, noGoKn: 7 },
  { id: 'middling', minutes: 90, noGoKn: 9 },
  { id: 'long', minutes: 200, noGoKn: 12 },
] as const;

export function realForecast(): Forecast {
  const built = buildForecast([{ name: 'gfs.grib2', bytes: new Uint8Array(readFileSync(GRIB_PATH)) }]);
  if (!built.ok) throw new Error(JSON.stringify(built.problems));
  return built.value;
}

export function realPassage(voyage: RealVoyage): Passage {
  const jobs = REAL_WORKS.map(({ id, minutes, noGoKn }): Job => {
    const step = littleStep(id, minutes, {
      deckWindKn: onlyNoGo(noGoKn),
      seaHeightM: onlyNoGo(1.5),
      byEye: ['No squall lines to windward.'],
    });
    return littleJob(id, [step], { handlings: ['hold-course', 'run-off'] });
  });
  const passage = withBoatSpeed(littlePassage(jobs, {}, REAL_BASE_EPOCH_MS), voyage.boatKn);
  const startEpochMs = REAL_BASE_EPOCH_MS + START_H * 3_600_000;
  const eastLon = voyage.from.lon + 20;
  return {
    ...passage,
    fixedNowEpochMs: startEpochMs,
    watchkeeper: {
      ...passage.watchkeeper,
      sleeps: passage.watchkeeper.sleeps.filter(({ endEpochMs }) => endEpochMs <= startEpochMs),
    },
    start: { epochMs: startEpochMs, position: voyage.from, sailStateId: 'full-main' },
    track: {
      waypoints: [
        { ...voyage.from, name: null, leg: 'rhumb' },
        { lat: voyage.from.lat, lon: eastLon > 180 ? eastLon - 360 : eastLon, name: null, leg: 'rhumb' },
      ],
    },
  };
}
