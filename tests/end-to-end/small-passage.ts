/** A passage of a day or two with an invented forecast, in a folder of its own: quick to plan, easy to spoil. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { WrittenGrid } from '../../lib/grib/index.ts';
import { mpsFromKn } from '../../lib/units/index.ts';
import { atH, type Field, message } from '../forecast/sample-fields.ts';

export interface ForecastShape {
  /** Hours from 2026-05-27 00:00 UTC to the base time. */
  readonly baseH?: number;
  readonly hoursH?: number;
  readonly windKn?: (stepH: number) => number;
  readonly seaM?: (stepH: number) => number;
  /** Last hour of the sea; default that of the wind. */
  readonly seaHoursH?: number;
  readonly grid?: WrittenGrid;
}

/** 40 to 30 S over the date line, every two degrees. */
const GRID: WrittenGrid = {
  ni: 11,
  nj: 6,
  first: { lat: -40, lon: 170 },
  iIncrementDeg: 2,
  jIncrementDeg: 2,
  scanningMode: 64,
};

/** A forecast of light wind from the south over a low sea, every three hours. */
export function forecastOctets(shape: ForecastShape = {}): Uint8Array {
  const { baseH = 0, hoursH = 36, windKn = () => 8, seaM = () => 0.9, seaHoursH = hoursH, grid = GRID } = shape;
  const fields: Field[] = [];
  for (let stepH = 0; stepH <= hoursH; stepH += 3) {
    const common = { stepsH: [stepH] as const, baseH, grid };
    fields.push({ ...common, kind: 'u', value: 0 }, { ...common, kind: 'v', value: mpsFromKn(windKn(stepH)) });
    if (stepH <= seaHoursH) fields.push({ ...common, kind: 'seaHeight', value: seaM(stepH) });
  }
  return Buffer.concat(fields.map(message));
}

const utcAtH = (hoursH: number): string => new Date(atH(hoursH)).toISOString().replace(':00.000Z', 'Z');

/** A job of one step on deck for half an hour. */
export const deckJob = (id: string, more: object = {}): object => ({
  id,
  name: `Job ${id}`,
  handlings: ['run-off'],
  steps: [
    {
      id: 'work',
      name: 'Work',
      place: 'deck',
      work: { leastMin: 20, likelyMin: 30, mostMin: 45 },
      limits: {
        deckWindKn: { ideal: 8, caution: 12, noGo: 16 },
        seaHeightM: { ideal: 1.2, caution: 1.6, noGo: 2.2 },
        daylight: 'not-needed',
      },
    },
  ],
  ...more,
});

/** The passage file as an object, three hours after the base time; `forecast.grib2` lies beside it. */
const passageFile = () => ({
  slatch: 1,
  name: 'Short trip (invented)',
  clock: { fixedUtc: utcAtH(3) } as unknown,
  start: { timeUtc: utcAtH(3), lat: -35.5, lon: 176.5 } as object,
  track: [
    { lat: -35.5, lon: 176.5 },
    { lat: -34.5, lon: -176 },
  ] as unknown[],
  boat: {
    speedTables: {
      'full-main': [52, 90, 150].flatMap((twaDeg) => [
        { twaDeg, twsKn: 6, boatSpeedKn: 4 },
        { twaDeg, twsKn: 20, boatSpeedKn: 7 },
      ]),
    },
  } as object,
  watchkeeper: {
    sleeps: [
      { startUtc: utcAtH(-62), endUtc: utcAtH(-55) },
      { startUtc: utcAtH(-38), endUtc: utcAtH(-31) },
      { startUtc: utcAtH(-14), endUtc: utcAtH(-7) },
    ],
  } as object | undefined,
  jobs: [deckJob('first'), deckJob('second', { after: ['first'] })] as unknown[],
  locker: [] as unknown[],
  forecasts: ['forecast.grib2'] as unknown[],
  settings: { horizonH: 24, errorModel: 'none' } as object,
});

export type PassageFile = ReturnType<typeof passageFile>;

const folders: string[] = [];

/** Takes away every folder made. */
export function removeFolders(): void {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
}

/** Writes files into a folder of their own; its path. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-passage-'));
  folders.push(folder);
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  return folder;
}

export interface Spoiled {
  /** The passage as text, or what differs from the sample. */
  readonly passage?: string | Partial<PassageFile>;
  /** null: there is no such file. */
  readonly forecast?: string | Uint8Array | null;
}

/** A passage with its forecast beside it; the path of the passage file. */
export function writePassage({ passage = {}, forecast = forecastOctets() }: Spoiled = {}): string {
  const text = typeof passage === 'string' ? passage : JSON.stringify({ ...passageFile(), ...passage }, null, 2);
  const folder = folderWith({
    'passage.json': text,
    ...(forecast === null ? {} : { 'forecast.grib2': forecast }),
  });
  return join(folder, 'passage.json');
}

export { utcAtH };
