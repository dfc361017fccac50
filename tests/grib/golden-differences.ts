/** Differences between a field of ours and the reference's, one sentence each; an empty list means agreement. */
import { type GribField, gridPositions } from '../../lib/grib/index.ts';
import type { GoldenField, Sample } from './golden-files.ts';

type Header = GoldenField['header'];

/** Values agree to the last places of a double: the reference multiplies by 10^-D, we divide by 10^D. */
const EQUAL_RELATIVE = 1e-12;
/** Positions agree to the last figures of the reference's own interpolation between corners. */
const EQUAL_DEG = 1e-5;
/** Corners are coded to a microdegree; the reference prints them to 12 figures. */
const EQUAL_CORNER_DEG = 1e-8;

/** What the headers say: both sides in the same shape, for one comparison. */
export function headerOf(field: GribField, header: Header): { ours: object; theirs: object } {
  const { parameter, grid, level } = field;
  const isGridRead = grid.kind === 'regular-latlon';
  return {
    ours: {
      edition: field.edition,
      centre: field.centre,
      parameter,
      referenceEpochMs: field.referenceEpochMs,
      size: isGridRead ? [grid.ni, grid.nj] : 'not read',
      levelTypeCode: field.validity.kind === 'unknown' ? 'not read' : level.first?.typeCode,
    },
    theirs: {
      edition: header['edition'],
      centre: header['centre'],
      parameter: field.edition === 2 ? parameterEdition2(header) : parameterEdition1(header),
      referenceEpochMs: epochMsOf(header['dataDate'], header['dataTime']),
      size: isGridRead ? [header['Ni'], header['Nj']] : 'not read',
      levelTypeCode: field.validity.kind === 'unknown' ? 'not read' : levelType(field, header),
    },
  };
}

const levelType = (field: GribField, header: Header): number | null | undefined =>
  field.edition === 2 ? header['typeOfFirstFixedSurface'] : header['indicatorOfTypeOfLevel'];

const parameterEdition2 = (header: Header): object => ({
  edition: 2,
  discipline: header['discipline'],
  category: header['parameterCategory'],
  number: header['parameterNumber'],
});

const parameterEdition1 = (header: Header): object => ({
  edition: 1,
  centre: header['centre'],
  tableVersion: header['table2Version'],
  number: header['indicatorOfParameter'],
});

/** The reference writes dates as 20260527 and times as 1230. */
function epochMsOf(dateNumber: number | null | undefined, timeNumber: number | null | undefined): number {
  const date = String(dateNumber).padStart(8, '0');
  const time = String(timeNumber).padStart(4, '0');
  const day = `${date.slice(0, 4)}-${date.slice(4, 6)}-${date.slice(6)}`;
  return Date.parse(`${day}T${time.slice(0, 2)}:${time.slice(2)}:00Z`);
}

/** Valid time, statistic and member, in the same shape. Where the reference has no steps (units of years) only the end counts. */
export function meaningOf(field: GribField, header: Header): { ours: object; theirs: object } {
  const { validity, ensemble } = field;
  const hasSteps = header['startStep'] !== undefined && header['startStep'] !== null;
  const isInterval = validity.kind === 'interval';
  const stepEpochMs = (key: string): number => field.referenceEpochMs + (header[key] ?? NaN) * 1000;
  const endEpochMs = validity.kind === 'instant' ? validity.validEpochMs : isInterval ? validity.endEpochMs : null;
  const hasStatisticCode = isInterval && field.edition === 2;
  const hasMember = ensemble !== null && field.edition === 2;
  return {
    ours: {
      endEpochMs,
      startEpochMs: isInterval && hasSteps ? validity.startEpochMs : null,
      statisticCode: hasStatisticCode ? validity.statisticCode : null,
      member: hasMember ? [ensemble.perturbationNumber, ensemble.memberCount] : null,
    },
    theirs: {
      endEpochMs: hasSteps ? stepEpochMs('endStep') : epochMsOf(header['validityDate'], header['validityTime']),
      startEpochMs: isInterval && hasSteps ? stepEpochMs('startStep') : null,
      statisticCode: hasStatisticCode ? header['typeOfStatisticalProcessing'] : null,
      member: hasMember ? [header['perturbationNumber'], header['numberOfForecastsInEnsemble']] : null,
    },
  };
}

/** Counts, extremes, mean and samples. */
export function valueDifferences(values: Float64Array, theirs: NonNullable<GoldenField['values']>): string[] {
  const present = values.filter((value) => !Number.isNaN(value));
  const size = Math.max(Math.abs(theirs.least ?? 0), Math.abs(theirs.greatest ?? 0));
  const extreme = (pick: (a: number, b: number) => number): number | null =>
    present.length === 0 ? null : present.reduce((a, b) => pick(a, b));
  const mean = present.length === 0 ? null : present.reduce((a, b) => a + b, 0) / present.length;
  return [
    ...difference('point count', values.length, theirs.pointCount),
    ...difference('missing', values.length - present.length, theirs.missingCount),
    ...difference('least', extreme(Math.min), theirs.least),
    ...difference('greatest', extreme(Math.max), theirs.greatest),
    // The sum cancels, so its error is measured against the size of the values.
    ...difference('mean', mean, theirs.mean, size * EQUAL_RELATIVE),
    ...theirs.samples.flatMap(([index, , , value]) =>
      difference(`point ${index}`, nullIfMissing(values[index]), value),
    ),
  ];
}

const nullIfMissing = (value: number | undefined): number | null =>
  value === undefined || Number.isNaN(value) ? null : value;

function difference(what: string, ours: number | null, theirs: number | null, tolerance?: number): string[] {
  const said = `${what}: ours ${ours}, reference ${theirs}`;
  if (ours === null || theirs === null) return ours === theirs ? [] : [said];
  const allowed = tolerance ?? Math.max(Math.abs(ours), Math.abs(theirs)) * EQUAL_RELATIVE;
  return Math.abs(ours - theirs) <= allowed ? [] : [said];
}

/** Places of the sampled points. */
export function positionDifferences(field: GribField, samples: readonly Sample[]): string[] {
  if (field.grid.kind === 'unsupported') return [];
  const { lats, lons } = gridPositions(field.grid);
  return samples.flatMap(([index, lat, lon]) => [
    ...angleDifference(`latitude of point ${index}`, { ours: lats[index], theirs: lat }, EQUAL_DEG),
    ...angleDifference(`longitude of point ${index}`, { ours: lons[index], theirs: lon }, EQUAL_DEG),
  ]);
}

/** First and last point against the corners that the reference prints. */
export function cornerDifferences(field: GribField, header: Header): string[] {
  if (field.grid.kind !== 'regular-latlon') return [];
  const { lats, lons } = gridPositions(field.grid);
  const corners = {
    latitudeOfFirst: lats[0],
    longitudeOfFirst: lons[0],
    latitudeOfLast: lats.at(-1),
    longitudeOfLast: lons.at(-1),
  };
  return Object.entries(corners).flatMap(([corner, ours]) =>
    angleDifference(corner, { ours, theirs: header[`${corner}GridPointInDegrees`] }, EQUAL_CORNER_DEG),
  );
}

/** Modulo a turn. */
function angleDifference(
  what: string,
  angles: { ours: number | undefined; theirs: number | null | undefined },
  toleranceDeg: number,
): string[] {
  const { ours = NaN, theirs } = angles;
  const turnDeg = (((ours - (theirs ?? NaN) + 180) % 360) + 360) % 360;
  return Math.abs(turnDeg - 180) <= toleranceDeg ? [] : [`${what}: ours ${ours}, reference ${theirs}`];
}
