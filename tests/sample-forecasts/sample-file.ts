import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { decodeField, type GribField, scanGrib } from '../../lib/grib/index.ts';

export const sampleFolder = resolve(import.meta.dirname, '../../sample-forecasts');

export const readSample = (name: string): Uint8Array => readFileSync(join(sampleFolder, name));

/** A sample file as our reader sees it. */
export interface OpenSample {
  readonly bytes: Uint8Array;
  readonly fields: readonly GribField[];
}

const opened = new Map<string, OpenSample>();

export function openSample(name: string): OpenSample {
  const known = opened.get(name);
  if (known !== undefined) return known;
  const bytes = readSample(name);
  const { fields, problems } = scanGrib(bytes, name);
  if (problems.length > 0) throw new Error(JSON.stringify(problems));
  const sample = { bytes, fields };
  opened.set(name, sample);
  return sample;
}

/** Values in file order; NaN is missing. */
export function valuesOf({ bytes }: OpenSample, field: GribField): Float64Array {
  const values = decodeField(bytes, field);
  if (!values.ok) throw new Error(JSON.stringify(values.problems));
  return values.value;
}

/** What to look for: parameter as `discipline/category/number`, lead of its valid time, member (0: control). */
export interface Wanted {
  readonly code: string;
  readonly leadH: number;
  readonly member?: number;
}

export const codeOf = ({ parameter }: GribField): string =>
  parameter.edition === 2 ? `${parameter.discipline}/${parameter.category}/${parameter.number}` : 'edition 1';

export function leadHOf({ validity, referenceEpochMs }: GribField): number {
  if (validity.kind === 'unknown') throw new Error('a field without a time');
  const endEpochMs = validity.kind === 'instant' ? validity.validEpochMs : validity.endEpochMs;
  return (endEpochMs - referenceEpochMs) / 3_600_000;
}

const byKey = new WeakMap<OpenSample, Map<string, GribField>>();

export function findField(sample: OpenSample, wanted: Wanted): GribField {
  let fields = byKey.get(sample);
  if (fields === undefined) {
    const keyed = sample.fields.map(
      (field) => [keyOf(codeOf(field), leadHOf(field), field.ensemble?.perturbationNumber), field] as const,
    );
    fields = new Map(keyed);
    byKey.set(sample, fields);
  }
  const found = fields.get(keyOf(wanted.code, wanted.leadH, wanted.member ?? 0));
  if (found === undefined) throw new Error(`no field ${JSON.stringify(wanted)}`);
  return found;
}

const keyOf = (code: string, leadH: number, member: number | undefined): string => `${code} ${leadH} ${member}`;
