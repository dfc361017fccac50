/** A field's headers in words, for lists of what a file holds. */
import { assertNever } from '../result/index.ts';
import { formatUtc } from '../time/index.ts';
import { CENTRES } from './code-tables/centres.table.ts';
import { EDITION_1_LOCAL_PARAMETERS, EDITION_1_PARAMETERS } from './code-tables/edition-1-parameters.table.ts';
import { LOCAL_PARAMETERS } from './code-tables/local-parameters.table.ts';
import { OCEAN_PARAMETERS } from './code-tables/ocean-parameters.table.ts';
import type { ParameterName } from './code-tables/parameter-table.ts';
import { intervalWords, probabilityWords, processName } from './code-tables/product-names.ts';
import {
  CATEGORIES,
  DATA_TYPES,
  DISCIPLINES,
  ENSEMBLE_TYPES,
  SPATIAL_PROCESSES,
  TIME_INCREMENTS,
} from './code-tables/products.table.ts';
import { LOCAL_SURFACES, SURFACES_EDITION_1, SURFACES_EDITION_2 } from './code-tables/surfaces.table.ts';
import { gridName, productName } from './code-tables/template-names.ts';
import { WEATHER_PARAMETERS } from './code-tables/weather-parameters.table.ts';
import type { Aspect, FixedSurface, GribField, Parameter, TimeRange, Validity } from './field.ts';

type Named = Pick<GribField, 'parameter' | 'centre'>;

/** WMO codes: `0/2/22` (discipline/category/number) or `2.100` (table version.number, edition 1). */
export function formatParameterCode(parameter: Parameter): string {
  return parameter.edition === 2
    ? `${parameter.discipline}/${parameter.category}/${parameter.number}`
    : `${parameter.tableVersion}.${parameter.number}`;
}

/** Name of a field's parameter, or `unknown parameter 0/2/199 (momentum) of centre 34 (Tokyo, …)`. */
export function formatParameter(field: Named): string {
  const known = lookUp(field)?.[0];
  if (known !== undefined) return known;
  const subject = subjectOf(field.parameter);
  const code = `${formatParameterCode(field.parameter)}${subject === null ? '' : ` (${subject})`}`;
  return `unknown parameter ${code} of centre ${formatCentre(field.centre)}`;
}

/** Category, or discipline where the category has no name here. */
function subjectOf(parameter: Parameter): string | null {
  if (parameter.edition === 1) return null;
  return CATEGORIES[`${parameter.discipline}/${parameter.category}`] ?? DISCIPLINES[parameter.discipline] ?? null;
}

/**
 * Unit of a field's values as the tables write it (`m s-1`), or null when the parameter is not in our tables.
 *
 * An accumulated rate has the unit of the rate times seconds (code table 4.10, note on accumulation): `kg m-2 s-1` becomes
 * `kg m-2`, `W m-2` becomes `J m-2`. A probability is in `%`.
 */
export function unitOfParameter(field: Named & Pick<GribField, 'validity' | 'aspect'>): string | null {
  if (field.aspect?.kind === 'probability') return '%';
  const unit = lookUp(field)?.[1] ?? null;
  return unit !== null && isAccumulated(field.validity) ? timesSeconds(unit) : unit;
}

/** Edition 2 only: the tables of edition 1 hold sums and rates under different numbers. */
const isAccumulated = (validity: Validity): boolean =>
  validity.kind === 'interval' && validity.statistic === 'accumulation' && validity.statisticCode !== null;

const timesSeconds = (unit: string): string => unit.replace(/ s-1$/, '').replace(/^W\b/, 'J');

function lookUp({ parameter, centre }: Named): ParameterName | undefined {
  const code = formatParameterCode(parameter);
  if (parameter.edition === 2)
    return WEATHER_PARAMETERS[code] ?? OCEAN_PARAMETERS[code] ?? LOCAL_PARAMETERS[`${centre}/${code}`];
  const isInternational = parameter.tableVersion <= 3 && parameter.number < 128;
  if (isInternational) return EDITION_1_PARAMETERS[String(parameter.number)];
  return EDITION_1_LOCAL_PARAMETERS[`${centre}/${parameter.tableVersion}/${parameter.number}`];
}

/** `7 (US National Weather Service, NCEP)`, or the bare number: common code table C-11. */
function formatCentre(centre: number): string {
  const name = CENTRES[centre];
  return name === undefined ? String(centre) : `${centre} (${name})`;
}

/** `10 m above ground`, `surface`, `surface type 230`, or a layer as `18000 Pa above ground to 0 Pa above ground`. */
export function formatLevel(field: Pick<GribField, 'level' | 'edition' | 'centre'>): string {
  const { first, second } = field.level;
  const parts = [first, second].filter((surface) => surface !== null);
  return parts.length === 0 ? 'no level' : parts.map((surface) => formatSurface(field, surface)).join(' to ');
}

function formatSurface({ edition, centre }: Pick<GribField, 'edition' | 'centre'>, surface: FixedSurface): string {
  const { typeCode, value } = surface;
  const names = edition === 2 ? SURFACES_EDITION_2 : SURFACES_EDITION_1;
  const unnamed = `surface type ${typeCode}`;
  const [name, afterValue] = names[typeCode] ?? LOCAL_SURFACES[`${centre}/${typeCode}`] ?? [unnamed, `of ${unnamed}`];
  return afterValue === null || value === null ? name : `${value} ${afterValue}`;
}

/** `2026-05-27T18:00Z`, or `maximum 2026-05-27T15:00Z to 2026-05-27T18:00Z`, or `maximum of average …`. */
export function formatValidity(field: Pick<GribField, 'validity'>): string {
  const { validity } = field;
  if (validity.kind === 'unknown') return 'valid time not understood';
  if (validity.kind === 'instant') return formatUtc(validity.validEpochMs);
  const { ranges } = validity;
  const statistics = ranges === undefined ? [validity.statistic] : ranges.map(rangeWords);
  return `${statistics.join(' of ')} ${formatUtc(validity.startEpochMs)} to ${formatUtc(validity.endEpochMs)}`;
}

/** The usual step, through one forecast, needs no word. */
function rangeWords({ statistic, incrementCode }: TimeRange): string {
  const increment = TIME_INCREMENTS[incrementCode];
  return incrementCode === 2 || increment === undefined ? statistic : `${statistic} (${increment})`;
}

/** `control`, `member 7`, `spread of all members`, `probability above 17.2`; empty for the values of a single forecast. */
export function formatMember(field: Pick<GribField, 'ensemble' | 'derived' | 'aspect' | 'edition'>): string {
  const aspect = field.aspect === null ? [] : [formatAspect(field.aspect)];
  const derived = field.derived === null ? [] : [field.derived.name];
  return [...aspect, ...derived, ...memberWords(field)].join(', ');
}

function memberWords({ ensemble, edition }: Pick<GribField, 'ensemble' | 'edition'>): string[] {
  if (ensemble === null) return [];
  if (ensemble.kind === 'control') return ['control'];
  const member = `member ${ensemble.perturbationNumber}`;
  // The two of a pair have the same number.
  const isNegative = edition === 2 && ensemble.typeCode === NEGATIVELY_PERTURBED;
  return isNegative ? [`${member} (${ENSEMBLE_TYPES[ensemble.typeCode] ?? ''})`] : [member];
}

/** Code table 4.6. */
const NEGATIVELY_PERTURBED = 2;

function formatAspect(aspect: Aspect): string {
  switch (aspect.kind) {
    case 'probability':
      return `probability ${probabilityWords(aspect.typeCode, aspect.limits)}`;
    case 'percentile':
      return `percentile ${aspect.percentileNumber}`;
    case 'wave-periods':
      return `only periods ${intervalWords(aspect.intervalCode, aspect.limits)} s`;
    case 'area':
      return `${aspect.statistic} over ${aspect.pointCount} points, ${SPATIAL_PROCESSES[aspect.processCode] ?? 'other process'}`;
    case 'reforecast':
      return 'reforecast';
    case 'error':
      return 'error';
    default:
      return assertNever(aspect);
  }
}

/**
 * `ensemble forecast (perturbed forecast)`: code table 4.3 and, in parentheses, 1.4; empty where there is none (edition 1,
 * product not understood).
 */
export function formatProcess(field: Pick<GribField, 'typeOfProcess' | 'dataTypeCode'>): string {
  if (field.dataTypeCode === null || field.typeOfProcess === null) return '';
  const dataType = DATA_TYPES[field.dataTypeCode];
  return `${processName(field.typeOfProcess)}${dataType === undefined ? '' : ` (${dataType})`}`;
}

/** `latitude/longitude 1440 × 721, 0.25° × 0.25°`, `Lambert conformal 93 × 65, 81.271 km × 81.271 km`, or the name of a grid that is not read. */
export function formatGrid(field: Pick<GribField, 'grid' | 'edition'>): string {
  const { grid } = field;
  switch (grid.kind) {
    case 'unsupported':
      return grid.name;
    case 'regular-latlon':
      return `${gridName(2, 0)} ${sizeOf(grid)}, ${degrees(grid.iIncrementDeg)} × ${degrees(grid.jIncrementDeg)}`;
    case 'rotated-latlon':
      return `${gridName(2, 1)} ${sizeOf(grid)}, ${degrees(grid.iIncrementDeg)} × ${degrees(grid.jIncrementDeg)}`;
    case 'gaussian':
      return `${gridName(2, 40)} ${sizeOf(grid)}, N${grid.parallelCount}, ${degrees(grid.iIncrementDeg)}`;
    case 'mercator':
      return `${gridName(2, 10)} ${sizeOf(grid)}, ${degrees(grid.iIncrementDeg)}`;
    case 'polar-stereographic':
      return `${gridName(2, 20)} ${sizeOf(grid)}, ${kilometres(grid.lengths.xM)} × ${kilometres(grid.lengths.yM)}`;
    case 'lambert':
      return `${gridName(2, 30)} ${sizeOf(grid)}, ${kilometres(grid.lengths.xM)} × ${kilometres(grid.lengths.yM)}`;
    case 'thinned-latlon':
      return `thinned ${gridName(2, 0)} ${rowsOf(grid)}, rows ${degrees(grid.jIncrementDeg)} apart`;
    case 'thinned-gaussian':
      return `thinned ${gridName(2, 40)} ${rowsOf(grid)}, N${grid.parallelCount}`;
    default:
      return assertNever(grid);
  }
}

const sizeOf = ({ ni, nj }: { readonly ni: number; readonly nj: number }): string => `${ni} × ${nj}`;
const degrees = (angleDeg: number): string => `${Number(angleDeg.toFixed(6))}°`;
const kilometres = (lengthM: number): string => `${lengthM / 1000} km`;

function rowsOf({ nj, listedCounts }: { readonly nj: number; readonly listedCounts: readonly number[] }): string {
  const [least, most] = listedCounts.reduce(
    ([low, high], count) => [Math.min(low, count), Math.max(high, count)],
    [Infinity, 0],
  );
  return `${nj} rows of ${least} to ${most} points`;
}

/** `simple, 12 bit`, `complex with spatial differencing, order 2, 9 bit, bitmap`; no width where numbers have none, or none is known. */
export function formatPacking(field: Pick<GribField, 'packing' | 'hasBitmap'>): string {
  const { method, description, bitsPerValue } = field.packing;
  const width = method === 'ieee' || method === 'other' ? '' : `, ${bitsPerValue} bit`;
  return `${description}${width}${field.hasBitmap ? ', bitmap' : ''}`;
}

/** `4.8 statistically processed over an interval`; empty in edition 1. */
export function formatProductTemplate(field: Pick<GribField, 'productTemplate'>): string {
  return field.productTemplate === null ? '' : `4.${field.productTemplate} ${productName(field.productTemplate)}`;
}
