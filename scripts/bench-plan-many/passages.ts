/** Many short passages in the weather of the demo, drawn from a seed and written as files. */
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { formatUtc, MS_PER_H } from '../../lib/time/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { drawJobs } from '../studies/jobs.ts';
import { between } from '../studies/weather-pattern.ts';

type Uniform = () => number;

const SAMPLES = resolve(import.meta.dirname, '../../sample-forecasts');
const FORECASTS = ['demo-control.grib2', 'demo-members.grib2'] as const;
/** Base time of the demo's forecast. */
const BASE_EPOCH_MS = Date.UTC(2026, 4, 27, 12);
/** Hours after it at which a passage begins. */
const START_H = { least: 0, most: 96 };
/** Sea far from land, with room to the edge of the forecast for a day's sail. */
const AREA = { south: -40, north: -28, west: -178, east: -158 };
const DAY_LENGTH_NM = 150;
const NM_PER_DEG = 60;

/** The passages: names from `passage-001` on, each file with a track, jobs, settings and a seed of its own. */
export function writePassages(folder: string, passageCount: number, seed: number): void {
  mkdirSync(folder, { recursive: true });
  for (const name of FORECASTS) copyFileSync(join(SAMPLES, name), join(folder, name));
  const boat = boatOfDemo();
  for (let number = 1; number <= passageCount; number++) {
    const name = `passage-${String(number).padStart(3, '0')}`;
    const passage = drawPassage(uniformDraws(seed * 100_003 + number), { name, boat, number });
    writeFileSync(join(folder, `${name}.json`), `${JSON.stringify(passage, null, 2)}\n`);
  }
}

function boatOfDemo(): unknown {
  const demo: unknown = JSON.parse(readFileSync(join(SAMPLES, 'demo-passage.json'), 'utf8'));
  if (typeof demo !== 'object' || demo === null || !('boat' in demo)) throw new Error('the demo has no boat');
  return demo.boat;
}

function drawPassage(uniform: Uniform, of: { name: string; boat: unknown; number: number }) {
  const startH = Math.floor(between(uniform, START_H.least, START_H.most));
  const at = (hourH: number): string => formatUtc(BASE_EPOCH_MS + hourH * MS_PER_H);
  const track = drawTrack(uniform);
  return {
    slatch: 1,
    name: `Drawn ${of.name}`,
    clock: { fixedUtc: at(startH) },
    start: { timeUtc: at(startH), ...track[0], sailState: 'full-main' },
    track,
    boat: of.boat,
    watchkeeper: {
      sleeps: [0, 1, 2].map((daysBack) => ({
        startUtc: at(startH - 10 - 24 * daysBack),
        endUtc: at(startH - 3 - 24 * daysBack),
      })),
    },
    jobs: drawJobs(uniform, { least: 1, most: 3 }).map((job) => ({ ...job, limits: drawLimits(uniform) })),
    // With the control alone errors are drawn; with members they are the scenarios.
    forecasts: uniform() < 0.5 ? FORECASTS.slice(0, 1) : FORECASTS,
    settings: { slotMin: 30, horizonH: Math.floor(between(uniform, 12, 25)), seed: of.number },
  };
}

/** Some that this weather keeps all day, some that it never does. */
function drawLimits(uniform: Uniform) {
  return { deckWindKn: levels(between(uniform, 12, 34)), seaHeightM: levels(between(uniform, 2, 6)) };
}

const levels = (noGo: number) => ({ ideal: 0.6 * noGo, caution: 0.8 * noGo, noGo });

/** Two or three waypoints, about a day apart. */
function drawTrack(uniform: Uniform): { lat: number; lon: number }[] {
  const start = { lat: between(uniform, AREA.south, AREA.north), lon: between(uniform, AREA.west, AREA.east) };
  const track = [rounded(start)];
  const legCount = uniform() < 0.5 ? 1 : 2;
  let courseRad = between(uniform, 0, 2 * Math.PI);
  let place = start;
  for (let leg = 0; leg < legCount; leg++) {
    const lengthDeg = DAY_LENGTH_NM / NM_PER_DEG;
    const lat = place.lat + lengthDeg * Math.cos(courseRad);
    const lon = place.lon + (lengthDeg * Math.sin(courseRad)) / Math.cos((place.lat * Math.PI) / 180);
    place = { lat, lon };
    track.push(rounded(place));
    courseRad += between(uniform, -0.6, 0.6);
  }
  return track;
}

const rounded = ({ lat, lon }: { lat: number; lon: number }) => ({
  lat: Math.round(lat * 100) / 100,
  lon: Math.round((lon < -180 ? lon + 360 : lon) * 100) / 100,
});
