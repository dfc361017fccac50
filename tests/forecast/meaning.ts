/** Fields of both editions by number, surface and time, and what they mean to Slatch. */
import { expect, it } from 'vitest';
import { matchField, type MatchedField } from '../../lib/forecast/index.ts';
import { type GribField, type GribMessageSpec, scanGrib } from '../../lib/grib/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { edition1Message, edition1Product, replaced } from '../grib/edition-1-message.ts';
import { REFERENCE_EPOCH_MS, smallMessage } from '../grib/sample-message.ts';

export const NCEP = 7;
export const TOKYO = 34;
export const DWD = 78;
export const TOULOUSE = 85;
export const ECMWF = 98;

export const firstField = (bytes: Uint8Array): GribField => {
  const [field] = scanGrib(bytes, 'sample').fields;
  if (field === undefined) throw new Error('no field');
  return field;
};
export const match = (bytes: Uint8Array): MatchedField | null => matchField(firstField(bytes));
/** Quantity and kind in one line, or `nothing`. */
export function meaningOf(bytes: Uint8Array): string {
  const found = match(bytes);
  return found === null ? 'nothing' : `${found.row.quantity}: ${found.row.variant}, ${found.row.reading}`;
}
/** Hours after the reference time for which a field holds. */
export function hoursOf(bytes: Uint8Array): [number, number] | null {
  const found = match(bytes);
  return found && ([found.startEpochMs, found.endEpochMs].map(hoursAfter) as [number, number]);
}
const hoursAfter = (epochMs: number): number => (epochMs - REFERENCE_EPOCH_MS) / MS_PER_H;
const hoursOn = (hours: number): number => REFERENCE_EPOCH_MS + hours * MS_PER_H;

export type Surface = readonly [typeCode: number, value?: number];

/** A field of edition 2: `10/0/3` of a centre on a surface, 6 hours ahead. */
export function edition2(
  code: string,
  on: { centre?: number; surface: Surface; second?: Surface },
  more: Partial<GribMessageSpec> = {},
): Uint8Array {
  const [discipline = 0, category = 0, number = 0] = code.split('/').map(Number);
  const surfaceOf = ([typeCode, value]: Surface) => ({ typeCode, value: value ?? null });
  return smallMessage({
    parameter: { discipline, category, number },
    centre: on.centre ?? NCEP,
    level: { first: surfaceOf(on.surface), second: on.second === undefined ? null : surfaceOf(on.second) },
    ...more,
  });
}

export const over = (
  fromH: number,
  toH: number,
  statistic: 'maximum' | 'accumulation' | 'average' | 'minimum',
): Pick<GribMessageSpec, 'validity'> => ({
  validity: { kind: 'interval', startEpochMs: hoursOn(fromH), endEpochMs: hoursOn(toH), statistic },
});

/** A field of edition 1: `98 128/228` on a surface; P1, P2 and the time range indicator, in hours. */
export function edition1(
  code: string,
  surface: Surface = [1],
  time: readonly [number, number, number] = [6, 0, 0],
): Uint8Array {
  const [, centre = 0, table = 0, number = 0] = (/^(\d+) (\d+)\/(\d+)$/.exec(code) ?? []).map(Number);
  const [typeCode, value = 0] = surface;
  const level = [typeCode, value >> 8, value & 255];
  const changes: [number, readonly number[]][] = [
    [4, [table, centre]],
    [9, [number, ...level]],
    [18, [1, ...time]],
  ];
  return edition1Message({
    product: changes.reduce<readonly number[]>(
      (product, [octet, octets]) => replaced([...product], octet, octets),
      edition1Product,
    ),
  });
}

export type Row = [circumstance: string, bytes: Uint8Array, meaning: string];

export function expectMeanings(rows: readonly Row[]): void {
  it.each(rows)('%s', (_, bytes, meaning) => {
    expect(meaningOf(bytes)).toBe(meaning);
  });
}
