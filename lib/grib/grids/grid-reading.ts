/** The section of a grid while it is read, and what can come of it: a placed grid, a refusal by name, a contradiction. Both editions. */
import type { Problem } from '../../result/index.ts';
import { gridName } from '../code-tables/template-names.ts';
import type { EvenGrid, GridDefinition } from '../grid.ts';
import { damaged, type MessagePlace, unsupported } from '../problems.ts';
import type { Section } from '../section.ts';
import { hasOffsetRows } from './scanning.ts';

/** Advice where a grid is not read. */
const GRID_REMEDY = 'Ask the source for this field on a regular latitude/longitude grid.';

/** A grid section of a known template. */
export interface GridReading {
  readonly place: MessagePlace;
  readonly section: Section;
  readonly edition: 1 | 2;
  /** Code table 3.1 (edition 2) or 6 (edition 1). */
  readonly templateNumber: number;
  /** Points the section declares; 0 when it does not. */
  readonly pointCount: number;
}

/** A code the standard allows and this room does not read. */
export interface Refusal {
  readonly octet: number;
  readonly table: string;
  readonly value: number;
  readonly name: string;
  readonly expected: string;
  /** A sentence before the usual advice. */
  readonly advice?: string;
}

/** True for what is not read; none of the values a reader returns has a `table`. */
export const isRefusal = (read: object): read is Refusal => 'table' in read;

/** `grib.grid-unsupported`: the grid with its name, and why it is refused. `name` replaces that of the template. */
export function refuse(reading: GridReading, refusal: Refusal, name?: string): GridDefinition {
  const { place, section, edition, templateNumber, pointCount } = reading;
  const { advice, ...refused } = refusal;
  const remedy = advice === undefined ? GRID_REMEDY : `${advice} ${GRID_REMEDY}`;
  const support = unsupported(place, { code: 'grib.grid-unsupported', section, ...refused, remedy });
  const ownName = name ?? `${gridName(edition, templateNumber)}, ${refusal.name}`;
  return { grid: { kind: 'unsupported', templateNumber, name: ownName }, pointCount, support };
}

/** `grib.grid-inconsistent`: octets of the grid contradict one another. */
export const inconsistent = ({ place, section }: GridReading, octet: number, what: string): Problem =>
  damaged(place, {
    code: 'grib.grid-inconsistent',
    section,
    octet,
    what,
    expected: 'columns, rows, corners and scanning mode that agree',
  });

/** A grid of even rows, or the sentence that says what contradicts; the points must be as many as declared. */
export function settled(reading: GridReading, octet: number, grid: EvenGrid | string): GridDefinition | Problem {
  if (typeof grid === 'string') return inconsistent(reading, octet, grid);
  if (grid.ni * grid.nj !== reading.pointCount) {
    const what = `${grid.ni} × ${grid.nj} points are not the ${reading.pointCount} declared.`;
    return inconsistent(reading, octet, what);
  }
  return { grid, pointCount: reading.pointCount, support: null };
}

/** Bits 5 to 8 of the scanning mode, edition 2; null when they are zero. */
export function offsetRows(scanningMode: number, octet: number): Refusal | null {
  if (!hasOffsetRows(scanningMode)) return null;
  return {
    octet,
    table: 'GRIB2 flag table 3.4 (scanning mode)',
    value: scanningMode,
    name: 'rows or columns shifted by half a step',
    expected: 'bits 5 to 8 zero',
  };
}

/** Components along the grid: bit 5 of flag table 3.3 (edition 2) and of code table 7 (edition 1). */
export const hasGridVectors = (coded: number): boolean => (coded & 0x08) !== 0;

/** Flag table 3.5, bit 1: the south pole is on the projection plane. */
export const isSouthPoleFlag = (coded: number): boolean => (coded & 0x80) !== 0;

/** Flag table 3.5, bit 2; null when the projection has one centre. */
export function bipolar(coded: number, octet: number): Refusal | null {
  if ((coded & 0x40) === 0) return null;
  return {
    octet,
    table: 'Flag table 3.5 (projection centre)',
    value: coded,
    name: 'bipolar projection',
    expected: 'one projection centre',
  };
}
