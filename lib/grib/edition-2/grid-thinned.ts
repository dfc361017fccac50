/** Templates 3.0 and 3.40 with a list of points per row behind them. */
import type { Problem } from '../../result/index.ts';
import type { GridCorners, GridDefinition, RowMeaning } from '../grid.ts';
import { thinnedGaussian } from '../grids/gaussian.ts';
import { type GridReading, inconsistent, offsetRows, type Refusal, refuse } from '../grids/grid-reading.ts';
import { scansAlongMeridians } from '../grids/scanning.ts';
import { thinnedLatLon, thinnedRows } from '../grids/thinned.ts';
import { tooManyPoints, tooShort } from '../problems.ts';
import { octet1, octet4, type Section } from '../section.ts';

const ALL_ONES_4 = 0xffff_ffff;
const SCANNING_OCTET = 72;
const FIRST_LIST_OCTET = 73;
/** Numbers of a list are this wide at most. */
const WIDEST_OCTETS = 4;
const GAUSSIAN = 40;

/** Rows or columns of different length. */
export const isThinned = (section: Section): boolean =>
  octet4(section, 31) === ALL_ONES_4 || octet4(section, 35) === ALL_ONES_4 || octet1(section, 11) !== 0;

/** A list that is not read. */
export const listOfPoints = (section: Section): Refusal => ({
  octet: 12,
  table: 'GRIB2 code table 3.11 (list of points per row)',
  value: octet1(section, 12),
  name: 'rows of different length',
  expected: 'as many points in every row, or a list of points per row of a latitude/longitude or Gaussian grid',
});

/** Code table 3.11. */
const MEANINGS: ReadonlyMap<number, RowMeaning> = new Map([
  [1, 'circles'],
  [2, 'extremes'],
]);

/** Reads the list, one number for each row; columns of different length and lists of latitudes are refused. */
export function readThinned(reading: GridReading, corners: GridCorners): GridDefinition | Problem {
  const { place, section, templateNumber, pointCount } = reading;
  const scanningMode = octet1(section, SCANNING_OCTET);
  const statedMeaning = MEANINGS.get(octet1(section, 12));
  const hasRows = octet4(section, 31) === ALL_ONES_4 && octet4(section, 35) !== ALL_ONES_4;
  const isRead = hasRows && octet1(section, 11) <= WIDEST_OCTETS && !scansAlongMeridians(scanningMode);
  if (statedMeaning === undefined || !isRead) return refuse(reading, listOfPoints(section));
  const offset = offsetRows(scanningMode, SCANNING_OCTET);
  if (offset !== null) return refuse(reading, offset);
  const short = tooShort(place, section, FIRST_LIST_OCTET - 1 + octet4(section, 35) * octet1(section, 11));
  if (short !== null) return short;
  const listedCounts = listOf(section);
  const thinned = thinnedRows({ ...corners, scanningMode, listedCounts, statedMeaning, pointCount });
  if (typeof thinned === 'string') return inconsistent(reading, FIRST_LIST_OCTET, thinned);
  const { rows } = thinned;
  const grid = templateNumber === GAUSSIAN ? thinnedGaussian(rows, octet4(section, 68)) : thinnedLatLon(rows);
  if (typeof grid === 'string') return inconsistent(reading, 31, grid);
  const expandedCount = rows.nj * listedCounts.reduce((most, count) => Math.max(most, count), 0);
  const tooMany = tooManyPoints(place, { section, octet: FIRST_LIST_OCTET }, expandedCount);
  return tooMany ?? { grid, pointCount, support: null };
}

/** Numbers of octet 11's width, one for each row. With a width of 0 there are none. */
function listOf(section: Section): number[] {
  const widthOctets = octet1(section, 11);
  const rowCount = widthOctets === 0 ? 0 : octet4(section, 35);
  const counts: number[] = [];
  for (let row = 0; row < rowCount; row++) {
    let count = 0;
    for (let k = 0; k < widthOctets; k++)
      count = count * 256 + octet1(section, FIRST_LIST_OCTET + row * widthOctets + k);
    counts.push(count);
  }
  return counts;
}
