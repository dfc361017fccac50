import type { GribField } from '../grib/index.ts';
import { failed, ok, type Problem, type Result } from '../result/index.ts';
import type { Forecast } from './forecast.ts';
import type { ForecastFile } from './forecast-files.ts';
import type { Series } from './frame.ts';
import type { ValuesOf } from './load-frames.ts';
import { CONTROL_ID } from './match-field.ts';
import { meanSeries } from './mean-series.ts';
import {
  decodeWanted,
  type ForecastOutline,
  outlineForecast,
  type OutlineOptions,
  type WantedField,
} from './outline-forecast.ts';
import { tooMuch } from './too-much.ts';
import { QUANTITIES, type QuantityId } from './quantity.ts';
import { readQuantities, type ReadQuantity } from './read-quantities.ts';

/**
 * Builds one forecast of several GRIB files.
 *
 * For each quantity the newest run is used, and of several fields for the same hour the finest grid that covers the
 * box. A damaged or unsupported message is reported in `problems` and skipped.
 *
 * @param options.around area that will be asked for; values further than two grid steps outside are not kept
 * @returns the forecast, or every problem found when the files hold nothing Slatch can use
 */
export function buildForecast(files: readonly ForecastFile[], options: OutlineOptions = {}): Result<Forecast> {
  const outline = outlineForecast(files, options);
  const refusal = tooMuch(outline);
  if (refusal !== null) return failed(refusal);
  const mostPoints = outline.wanted.reduce((most, { field }) => Math.max(most, field.pointCount), 0);
  const scratch = new Float64Array(mostPoints);
  const wantedOf = new Map(outline.wanted.map((wanted) => [wanted.field, wanted]));
  return completeForecast(outline, (field) => decodeWanted(known(wantedOf, field), scratch));
}

/**
 * The forecast of an outline whose fields are decoded, here or elsewhere.
 *
 * @param valuesOf values, or the problem, of each field of `outline.wanted`; it is asked once for each, and the values
 *   become the forecast's own
 */
export function completeForecast(outline: ForecastOutline, valuesOf: ValuesOf): Result<Forecast> {
  const read = readQuantities(outline, valuesOf);
  const problems = fewOf([...outline.problems, ...read.flatMap((quantity) => quantity.problems)], outline);
  const held = read.filter((quantity) => quantity.coverage !== null);
  if (held.length === 0) return failed(nothingUsable(outline.files), ...problems);
  return ok(assemble(held, problems, outline.notes));
}

/** More problems are counted only. */
const MOST_PROBLEMS = 400;

function fewOf(problems: readonly Problem[], { files }: ForecastOutline): readonly Problem[] {
  const left = problems.length - MOST_PROBLEMS;
  if (left <= 0) return problems;
  const more: Problem = {
    code: 'forecast.many-more',
    where: files.map(({ name }) => name).join(', '),
    what: `There are ${left} more problems in these files, which are not listed.`,
    expected: 'files without damage',
    remedy: 'Fetch the files again; what can be read of them is used.',
  };
  return [...problems.slice(0, MOST_PROBLEMS), more];
}

function known(wantedOf: ReadonlyMap<GribField, WantedField>, field: GribField): WantedField {
  const wanted = wantedOf.get(field);
  if (wanted === undefined) throw new Error(`field ${field.fieldNumber} is not in the outline`);
  return wanted;
}

function assemble(read: readonly ReadQuantity[], problems: readonly Problem[], notes: readonly string[]): Forecast {
  const coverage = read.flatMap((quantity) => quantity.coverage ?? []);
  const wind = coverage.filter(({ quantity }) => quantity === 'wind');
  const telling = wind.length > 0 ? wind : coverage;
  const windMembers = read.find(({ quantity }) => quantity === 'wind')?.members ?? new Map<string, Series>();
  const held = read.map(({ quantity }) => quantity);
  return {
    baseEpochMs: Math.max(...telling.map(({ baseEpochMs }) => baseEpochMs)),
    firstEpochMs: Math.min(...telling.map(({ firstEpochMs }) => firstEpochMs)),
    endEpochMs: Math.max(...telling.map(({ endEpochMs }) => endEpochMs)),
    memberIds: [...windMembers.keys()].filter((id) => id !== CONTROL_ID).toSorted(),
    hasControl: windMembers.has(CONTROL_ID),
    held,
    missing: QUANTITIES.map(({ id }) => id).filter((id) => !held.includes(id)),
    coverage,
    notes: [...notes, ...read.flatMap((quantity) => quantity.notes)],
    problems,
    series: new Map(read.map(({ quantity, members }) => [quantity, members])),
    reference: referenceSeries(read),
  };
}

function referenceSeries(read: readonly ReadQuantity[]): ReadonlyMap<QuantityId, Series> {
  const reference = new Map<QuantityId, Series>();
  for (const { quantity, members } of read) {
    const series = members.get(CONTROL_ID) ?? meanSeries([...members.values()]);
    if (series !== null) reference.set(quantity, series);
  }
  return reference;
}

function nothingUsable(files: readonly ForecastFile[]): Problem {
  return {
    code: 'forecast.nothing-usable',
    where: files.length === 0 ? 'forecast' : files.map(({ name }) => name).join(', '),
    what: files.length === 0 ? 'There is no forecast file.' : 'None of the files holds a quantity Slatch can use.',
    expected: 'GRIB with wind at 10 m, and where possible gust, significant wave height and pressure',
    remedy: 'Ask for a forecast on a latitude/longitude grid with these quantities.',
  };
}
