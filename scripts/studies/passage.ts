/** Passages for studies: one invented boat, jobs of several kinds with drawn minutes and limits. */
import { parsePassage, type Passage } from '../../lib/passage/index.ts';
import { formatUtc, MS_PER_H } from '../../lib/time/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import type { Uniform } from './error-paths.ts';
import { drawJobs } from './jobs.ts';
import { BASE_EPOCH_MS, START_POSITION } from './weather.ts';

export interface PassageKind {
  readonly jobCount: { readonly least: number; readonly most: number };
  readonly horizonH: number;
  readonly slotMin: number;
  readonly wantedProbability: number;
}

/** Hours after the base time at which planning begins. */
export const START_H = 6;

const at = (hourH: number): string => formatUtc(BASE_EPOCH_MS + hourH * MS_PER_H);

/** A passage as its file would have it, read as any file is. */
export function drawPassage(seed: number, kind: PassageKind): Passage {
  const uniform: Uniform = uniformDraws(seed);
  const file = {
    slatch: 1,
    name: `study ${seed}`,
    clock: { fixedUtc: at(START_H) },
    start: { timeUtc: at(START_H), ...START_POSITION, sailState: 'full-main' },
    track: [START_POSITION, { lat: START_POSITION.lat, lon: START_POSITION.lon + 30 }],
    boat: { instrumentHeightM: 18, speedTables: { 'full-main': speedRows() } },
    watchkeeper: { sleeps: [1, 2, 3].map((dayNumber) => night(dayNumber)), wantedSleepHPer24H: 6 },
    jobs: drawJobs(uniform, kind.jobCount),
    settings: {
      slotMin: kind.slotMin,
      horizonH: kind.horizonH,
      seed: seed % 2_147_483_647,
      wantedProbability: kind.wantedProbability,
    },
  };
  const read = parsePassage(JSON.stringify(file), 'study passage');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

/** Seven hours that end three hours before the start, and those of the days before. */
const night = (dayNumber: number): { startUtc: string; endUtc: string } => ({
  startUtc: at(START_H - 10 - 24 * (dayNumber - 1)),
  endUtc: at(START_H - 3 - 24 * (dayNumber - 1)),
});

function speedRows(): { twaDeg: number; twsKn: number; boatSpeedKn: number }[] {
  return [40, 90, 140, 180].flatMap((twaDeg) =>
    [3, 8, 14, 25].map((twsKn, k) => ({ twaDeg, twsKn, boatSpeedKn: [2, 4.5, 6, 6.5][k] ?? 6 })),
  );
}
