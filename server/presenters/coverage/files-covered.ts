import {
  CONTROL_ID,
  type ForecastFile,
  type MatchedField,
  matchField,
  quantityOf,
  scanFile,
} from '../../../lib/forecast/index.ts';
import type { FileCovered } from './coverage-model.ts';

/** What each file holds that Slatch reads, run by run, from its headers alone; nothing of a digest, which is no GRIB. */
export function filesCovered(files: readonly ForecastFile[]): FileCovered[] {
  return files.flatMap((file) => {
    const { name } = file;
    const matched = scanFile(file).fields.flatMap((field) => matchField(field) ?? []);
    const bases = [...new Set(matched.map(({ baseEpochMs }) => baseEpochMs))].toSorted((a, b) => a - b);
    return bases.map((baseEpochMs) =>
      fileCovered(
        name,
        baseEpochMs,
        matched.filter((field) => field.baseEpochMs === baseEpochMs),
      ),
    );
  });
}

function fileCovered(reference: string, baseEpochMs: number, fields: readonly MatchedField[]): FileCovered {
  const ends = new Set<number>();
  const members = new Set<string>();
  let firstEpochMs = Infinity;
  for (const { startEpochMs, endEpochMs, memberId } of fields) {
    ends.add(endEpochMs);
    members.add(memberId);
    firstEpochMs = Math.min(firstEpochMs, startEpochMs);
  }
  const stepEndsEpochMs = [...ends].toSorted((a, b) => a - b);
  const hasControl = members.has(CONTROL_ID);
  return {
    reference,
    baseEpochMs,
    firstEpochMs,
    endEpochMs: stepEndsEpochMs.at(-1) ?? baseEpochMs,
    stepEndsEpochMs,
    quantities: [...new Set(fields.map(({ row }) => quantityOf(row.quantity).name))],
    memberCount: members.size - (hasControl ? 1 : 0),
    hasControl,
  };
}
