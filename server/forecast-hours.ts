import { z } from 'zod';
import { scanGrib } from '../lib/grib/index.ts';
import { failed, ok, type Result } from '../lib/result/index.ts';
import { holdsDigest } from './stores/digest-files.ts';

/** The hours a forecast speaks of [epoch ms]: first and last instant of its fields. */
export interface ForecastHours {
  readonly firstEpochMs: number;
  readonly endEpochMs: number;
}

const summarySchema = z.object({ hours: z.object({ firstEpochMs: z.number(), endEpochMs: z.number() }).nullable() });

/** Hours as the store keeps them beside a file. */
export const hoursSummary = (hours: ForecastHours | null): string => JSON.stringify({ hours });

/** Hours kept beside a file; undefined: none were kept. */
export function hoursOfSummary(summaryJson: string | null): ForecastHours | null | undefined {
  const read = summarySchema.safeParse(summaryJson === null ? null : JSON.parse(summaryJson));
  return read.success ? read.data.hours : undefined;
}

/**
 * The hours of a GRIB file, from its headers alone; null: a digest in a text file, or fields without a time.
 *
 * @returns what is wrong with a file that holds neither: `grib.*`
 */
export function hoursOfFile(bytes: Uint8Array, fileName: string): Result<ForecastHours | null> {
  const { fields, problems } = scanGrib(bytes, fileName);
  if (fields.length === 0 && holdsDigest({ name: fileName, bytes })) return ok(null);
  if (fields.length === 0) {
    const [first = notAForecast(fileName), ...rest] = problems;
    return failed(first, ...rest);
  }
  return ok(
    spanOf(
      fields.flatMap(({ validity }) => {
        if (validity.kind === 'unknown') return [];
        return validity.kind === 'instant' ? [validity.validEpochMs] : [validity.startEpochMs, validity.endEpochMs];
      }),
    ),
  );
}

/** The hours of several files together; null: none of them says any. */
export const hoursTogether = (all: readonly (ForecastHours | null)[]): ForecastHours | null =>
  spanOf(all.flatMap((hours) => (hours === null ? [] : [hours.firstEpochMs, hours.endEpochMs])));

function spanOf(instantsEpochMs: readonly number[]): ForecastHours | null {
  if (instantsEpochMs.length === 0) return null;
  let [firstEpochMs, endEpochMs] = [Infinity, -Infinity];
  for (const epochMs of instantsEpochMs) {
    firstEpochMs = Math.min(firstEpochMs, epochMs);
    endEpochMs = Math.max(endEpochMs, epochMs);
  }
  return { firstEpochMs, endEpochMs };
}

const notAForecast = (fileName: string) => ({
  code: 'grib.not-grib',
  where: fileName,
  what: 'The file holds no field that could be read.',
  expected: 'a GRIB file of edition 1 or 2, or the text of a digest',
  remedy: 'Choose another file.',
});
