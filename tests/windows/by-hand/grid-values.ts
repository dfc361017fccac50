/** Grid values as ecCodes prints them. Uses nothing of lib. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

export const GRIB_PATH = new URL('../../golden/windows/gfs_wind10m_20161120_48h.grib2', import.meta.url).pathname;
const VALUES_URL = new URL('../../golden/windows/gfs-lulls.json', import.meta.url);

/** A box of the grid; whole degrees, longitudes 0..360. */
export interface Box {
  readonly name: string;
  readonly southLat: number;
  readonly northLat: number;
  readonly westLon: number;
  readonly eastLon: number;
}

export const BOXES: readonly Box[] = [
  { name: 'atlantic', southLat: 32, northLat: 37, westLon: 317, eastLon: 323 },
  { name: 'pacific', southLat: 42, northLat: 46, westLon: 174, eastLon: 186 },
];

/** m/s by box, then `step/component`: rows from south to north, in each from west to east. */
export interface GridValues {
  readonly stepsH: readonly number[];
  readonly boxes: Readonly<Record<string, Readonly<Record<string, readonly (readonly number[])[]>>>>;
}

/** What the committed file holds. */
export const committedValues = (): GridValues => {
  const { stepsH, boxes } = JSON.parse(readFileSync(VALUES_URL, 'utf8')) as GridValues;
  return { stepsH, boxes };
};

/** The whole globe is printed: most lines need no more than this look. */
const isNearBox = (lat: number): boolean => BOXES.some(({ southLat, northLat }) => lat >= southLat && lat <= northLat);

/** The same, read from the GRIB file by ecCodes now. */
export function valuesByEcCodes(gribGetData: string): GridValues {
  const args = ['-p', 'stepRange,shortName', '-F', '%.6f', GRIB_PATH];
  const text = execFileSync(gribGetData, args, { encoding: 'utf8', maxBuffer: 200_000_000 });
  const printed = new Map<string, number>();
  const stepsH = new Set<number>();
  for (const line of text.split('\n')) {
    if (!isNearBox(Number.parseFloat(line))) continue;
    const parts = line.replaceAll(',', ' ').trim().split(/\s+/);
    const [lat, lon, value, step, name] = parts;
    if (parts.length !== 5 || Number.isNaN(Number(lat))) continue;
    stepsH.add(Number(step));
    printed.set(`${step}/${name} ${Number(lat)} ${(Number(lon) + 360) % 360}`, Number(value));
  }
  const steps = [...stepsH].toSorted((a, b) => a - b);
  return { stepsH: steps, boxes: Object.fromEntries(BOXES.map((box) => [box.name, cut(printed, steps, box)])) };
}

function cut(printed: ReadonlyMap<string, number>, stepsH: readonly number[], box: Box): Record<string, number[][]> {
  const rows: Record<string, number[][]> = {};
  for (const step of stepsH) {
    for (const name of ['10u', '10v']) rows[`${step}/${name}`] = cutOne(printed, `${step}/${name}`, box);
  }
  return rows;
}

function cutOne(printed: ReadonlyMap<string, number>, key: string, box: Box): number[][] {
  const rows: number[][] = [];
  for (let lat = box.southLat; lat <= box.northLat; lat++) {
    const row: number[] = [];
    for (let lon = box.westLon; lon <= box.eastLon; lon++) {
      const value = printed.get(`${key} ${lat} ${lon}`);
      if (value === undefined) throw new Error(`ecCodes prints no ${key} at ${lat} ${lon}`);
      row.push(value);
    }
    rows.push(row);
  }
  return rows;
}
