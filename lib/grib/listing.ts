/** A field's headers in words, for lists of what a file holds. */
import { formatUtc } from '../time/index.ts';
import { gridName, productName } from './code-tables/template-names.ts';
import type { FixedSurface, GribField, Parameter } from './field.ts';
import {
  EDITION_1_LOCAL_NAMES,
  EDITION_1_NAMES,
  EDITION_2_LOCAL_NAMES,
  EDITION_2_NAMES,
  type ParameterName,
} from './parameter-names.table.ts';

type Named = Pick<GribField, 'parameter' | 'centre'>;

/** WMO codes: `0/2/22` (discipline/category/number) or `2.100` (table version.number, edition 1). */
export function formatParameterCode(parameter: Parameter): string {
  return parameter.edition === 2
    ? `${parameter.discipline}/${parameter.category}/${parameter.number}`
    : `${parameter.tableVersion}.${parameter.number}`;
}

/** Name of a field's parameter, or `unknown parameter 0/2/199 of centre 7`. */
export function formatParameter(field: Named): string {
  return lookUp(field)?.name ?? `unknown parameter ${formatParameterCode(field.parameter)} of centre ${field.centre}`;
}

/** Unit of a field's values as the tables write it (`m s-1`), or null when the parameter is not in our table. */
export function unitOfParameter(field: Named): string | null {
  return lookUp(field)?.unit ?? null;
}

function lookUp({ parameter, centre }: Named): ParameterName | undefined {
  const code = formatParameterCode(parameter);
  if (parameter.edition === 2) return EDITION_2_NAMES[code] ?? EDITION_2_LOCAL_NAMES[`${centre}/${code}`];
  const isInternational = parameter.tableVersion <= 3 && parameter.number < 128;
  if (isInternational) return EDITION_1_NAMES[String(parameter.number)];
  return EDITION_1_LOCAL_NAMES[`${centre}/${parameter.tableVersion}/${parameter.number}`];
}

/** Surface types worth a word: code table 4.5 (edition 2) and 3 (edition 1). */
const SURFACES: Readonly<Record<string, string>> = {
  '2/1': 'surface',
  '2/10': 'whole atmosphere',
  '2/100': 'Pa',
  '2/101': 'mean sea level',
  '2/102': 'm above mean sea level',
  '2/103': 'm above ground',
  '2/106': 'm below land surface',
  '2/108': 'Pa above ground',
  '2/160': 'm below sea level',
  '2/241': 'ordered sequence',
  '1/1': 'surface',
  '1/100': 'hPa',
  '1/102': 'mean sea level',
  '1/103': 'm above mean sea level',
  '1/105': 'm above ground',
  '1/109': 'hybrid level',
  '1/112': 'cm below land surface',
  '1/160': 'm below sea level',
  '1/200': 'whole atmosphere',
};
/** Surfaces that stand at one place, so that a value with them says nothing. */
const PLACES = ['surface', 'mean sea level', 'whole atmosphere'];

/** `10 m above ground`, `surface`, `surface type 241, 1`, or a layer as `18000 Pa above ground to 0 Pa above ground`. */
export function formatLevel(field: Pick<GribField, 'level' | 'edition'>): string {
  const { first, second } = field.level;
  const parts = [first, second].filter((surface) => surface !== null);
  return parts.length === 0 ? 'no level' : parts.map((surface) => formatSurface(field.edition, surface)).join(' to ');
}

function formatSurface(edition: 1 | 2, surface: FixedSurface): string {
  const word = SURFACES[`${edition}/${surface.typeCode}`] ?? `of surface type ${surface.typeCode}`;
  if (PLACES.includes(word) || surface.value === null) return word;
  return `${surface.value} ${word}`;
}

/** `2026-05-27T18:00Z`, or `maximum 2026-05-27T15:00Z to 2026-05-27T18:00Z`. */
export function formatValidity(field: Pick<GribField, 'validity'>): string {
  const { validity } = field;
  if (validity.kind === 'unknown') return 'valid time not understood';
  if (validity.kind === 'instant') return formatUtc(validity.validEpochMs);
  return `${validity.statistic} ${formatUtc(validity.startEpochMs)} to ${formatUtc(validity.endEpochMs)}`;
}

/** `control`, `member 7`, `unweighted mean of all members`, or empty for a single forecast. */
export function formatMember(field: Pick<GribField, 'ensemble' | 'derived'>): string {
  if (field.derived !== null) return field.derived.name;
  if (field.ensemble === null) return '';
  return field.ensemble.kind === 'control' ? 'control' : `member ${field.ensemble.perturbationNumber}`;
}

/** `latitude/longitude 1440 × 721, 0.25° × 0.25°`, or the name of a grid that is not read. */
export function formatGrid(field: Pick<GribField, 'grid' | 'edition'>): string {
  const { grid } = field;
  if (grid.kind === 'unsupported') return grid.name;
  const step = (angleDeg: number): string => `${Number(angleDeg.toFixed(6))}°`;
  const name = gridName(field.edition, 0);
  return `${name} ${grid.ni} × ${grid.nj}, ${step(grid.iIncrementDeg)} × ${step(grid.jIncrementDeg)}`;
}

/** `simple, 12 bit`, `complex with spatial differencing, order 2, 9 bit, bitmap`. */
export function formatPacking(field: Pick<GribField, 'packing' | 'hasBitmap'>): string {
  const { description, bitsPerValue } = field.packing;
  return `${description}, ${bitsPerValue} bit${field.hasBitmap ? ', bitmap' : ''}`;
}

/** `4.8 statistically processed over an interval`; empty in edition 1. */
export function formatProductTemplate(field: Pick<GribField, 'productTemplate'>): string {
  return field.productTemplate === null ? '' : `4.${field.productTemplate} ${productName(field.productTemplate)}`;
}
