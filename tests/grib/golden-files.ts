import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const FOLDER = 'tests/golden/grib';

/** One sampled point of the reference: file index, latitude, longitude, value (null: missing). */
export type Sample = readonly [index: number, lat: number | null, lon: number | null, value: number | null];

/** What the reference read from one field. */
export interface GoldenField {
  readonly file: string;
  readonly header: Readonly<Record<string, number | null>>;
  readonly values: {
    readonly pointCount: number;
    readonly missingCount: number;
    readonly least: number | null;
    readonly greatest: number | null;
    readonly mean: number | null;
    readonly samples: readonly Sample[];
  } | null;
}

/** A committed sample file and the feature it exercises. */
export interface GoldenFile {
  readonly file: string;
  readonly octets: number;
  readonly sha256: string;
  readonly feature: string;
  readonly fields: readonly GoldenField[];
}

export const readGoldenBytes = (file: string): Uint8Array => new Uint8Array(readFileSync(join(FOLDER, 'files', file)));

const golden = JSON.parse(readFileSync(join(FOLDER, 'fields.json'), 'utf8')) as { fields: GoldenField[] };

/** All files of MANIFEST.tsv with the reference's fields. */
export const goldenFiles: readonly GoldenFile[] = readFileSync(join(FOLDER, 'MANIFEST.tsv'), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [file = '', octets = '', sha256 = '', , , , feature = ''] = line.split('\t');
    return {
      file,
      octets: Number(octets),
      sha256,
      feature,
      fields: golden.fields.filter((field) => field.file === file),
    };
  });
