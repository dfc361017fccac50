/** A global ensemble as a file: some weathers packed once, and set to every member and hour. */
import { spawnSync } from 'node:child_process';
import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type GribMessageSpec, writeGrib2Message } from '../../lib/grib/index.ts';
import { COLUMN_COUNT, type GlobalWeather, globalWeather, ROW_COUNT } from './global-fields.ts';

export const PACKINGS = ['simple', 'complex', 'ccsds'] as const;
export type Packing = (typeof PACKINGS)[number];

/** Base time of the demo's forecast, so that its passages sail in it. */
const BASE_EPOCH_MS = Date.UTC(2026, 4, 27, 12);
const STEP_H = 3;
/** Weathers that members and hours take in turn. */
const WEATHER_COUNT = 6;

type Quantity = 'u' | 'v' | 'gust' | 'seaHeight';
const QUANTITY_NAMES: readonly Quantity[] = ['u', 'v', 'gust', 'seaHeight'];

/** Steps of 1/64 m/s and 1/256 m: twelve bits for what there is. */
const KINDS: Readonly<Record<Quantity, Pick<GribMessageSpec, 'parameter' | 'level' | 'binaryScaleFactor'>>> = {
  u: wind(2),
  v: wind(3),
  gust: wind(22),
  seaHeight: {
    parameter: { discipline: 10, category: 0, number: 3 },
    level: { first: { typeCode: 1, value: null }, second: null },
    binaryScaleFactor: -8,
  },
};

function wind(number: number): (typeof KINDS)[Quantity] {
  return {
    parameter: { discipline: 0, category: 2, number },
    level: { first: { typeCode: 103, value: 10 }, second: null },
    binaryScaleFactor: -6,
  };
}

/** Messages of one packing, by quantity: one of each weather. */
export type BaseMessages = Readonly<Record<Quantity, readonly Uint8Array[]>>;

export const globalWeathers = (): readonly GlobalWeather[] =>
  Array.from({ length: WEATHER_COUNT }, (_, i) => globalWeather(i + 1));

/** Packs the weathers; CCSDS by ecCodes' `grib_set`, null where that is missing. */
export function baseMessages(
  packing: Packing,
  weathers: readonly GlobalWeather[],
  folder: string,
): BaseMessages | null {
  const of = (quantity: Quantity): (Uint8Array | null)[] =>
    weathers.map((weather) => {
      const message = writeGrib2Message(specOf(quantity, weather[quantity], packing));
      return packing === 'ccsds' ? inCcsds(message, folder) : message;
    });
  const [u, v, gust, seaHeight] = QUANTITY_NAMES.map(of).map(allOrNull);
  if (!u || !v || !gust || !seaHeight) return null;
  return { u, v, gust, seaHeight };
}

const allOrNull = (messages: readonly (Uint8Array | null)[]): readonly Uint8Array[] | null => {
  const made = messages.filter((message) => message !== null);
  return made.length === messages.length ? made : null;
};

function specOf(quantity: Quantity, values: Float64Array, packing: Packing): GribMessageSpec {
  return {
    ...KINDS[quantity],
    referenceEpochMs: BASE_EPOCH_MS,
    validity: { kind: 'instant', validEpochMs: BASE_EPOCH_MS + STEP_H * 3_600_000 },
    ensemble: { typeCode: 3, perturbationNumber: 1, memberCount: 50 },
    grid: {
      ni: COLUMN_COUNT,
      nj: ROW_COUNT,
      first: { lat: 90, lon: 0 },
      iIncrementDeg: 0.25,
      jIncrementDeg: 0.25,
      scanningMode: 0,
    },
    values,
    decimalScaleFactor: 0,
    packing: packing === 'complex' ? 'complex' : 'simple',
  };
}

/** Of ecCodes. */
const SET = 'grib_set';

function inCcsds(message: Uint8Array, folder: string): Uint8Array | null {
  const [from, to] = [join(folder, 'simple.grib2'), join(folder, 'ccsds.grib2')];
  writeFileSync(from, message);
  const run = spawnSync(SET, ['-r', '-s', 'packingType=grid_ccsds', from, to]);
  return run.status === 0 ? readFileSync(to) : null;
}

/** What a global file holds. */
export interface GlobalSize {
  /** With the control run. */
  readonly memberCount: number;
  readonly lengthH: number;
}

export const fieldCountOf = ({ memberCount, lengthH }: GlobalSize): number =>
  memberCount * (lengthH / STEP_H + 1) * QUANTITY_NAMES.length;

/** Writes the file hour by hour, in each hour member by member. */
export function writeGlobal(path: string, base: BaseMessages, { memberCount, lengthH }: GlobalSize): void {
  writeFileSync(path, '');
  for (let hourH = 0; hourH <= lengthH; hourH += STEP_H)
    for (let member = 0; member < memberCount; member++) {
      const weather = (hourH / STEP_H + member) % WEATHER_COUNT;
      const messages = QUANTITY_NAMES.map((quantity) => setTo(base[quantity][weather], { hourH, member }));
      appendFileSync(path, Buffer.concat(messages));
    }
}

/** Octets of Section 4 under template 4.1 (WMO-No. 306, FM 92): 19 to 22 forecast time, 35 type of member, 36 its number. */
const LEAD_INDEX = 18;
const MEMBER_TYPE_INDEX = 34;
/** Code table 4.6: unperturbed high-resolution control forecast, positively perturbed forecast. */
const CONTROL = 0;
const PERTURBED = 3;
/** Octet 21 of Section 1, type of data (code table 1.4): control, perturbed forecast. */
const DATA_TYPE_INDEX = 20;

function setTo(message: Uint8Array | undefined, { hourH, member }: { hourH: number; member: number }): Uint8Array {
  if (message === undefined) throw new Error('every weather was packed');
  const octets = Buffer.from(message);
  let startIndex = 16;
  for (let section = octets[startIndex + 4]; section !== 4; section = octets[startIndex + 4]) {
    if (section === 1) octets[startIndex + DATA_TYPE_INDEX] = member === 0 ? 3 : 4;
    startIndex += octets.readUInt32BE(startIndex);
  }
  octets.writeUInt32BE(hourH, startIndex + LEAD_INDEX);
  octets[startIndex + MEMBER_TYPE_INDEX] = member === 0 ? CONTROL : PERTURBED;
  octets[startIndex + MEMBER_TYPE_INDEX + 1] = member;
  return octets;
}
