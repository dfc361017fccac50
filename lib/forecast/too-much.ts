/** Files that are small and unfold to more than any machine on board holds. */
import type { GribField, FramePart } from '../grib/index.ts';
import type { Problem } from '../result/index.ts';
import { sizeOctetsOf } from './forecast-files.ts';
import type { ForecastOutline } from './outline-forecast.ts';

/** Points decoded, and values kept, of files of any size, and besides for each octet. Ours. */
const FREE_POINTS = 40_000_000;
const POINTS_PER_OCTET = 256;
const FREE_KEPT = 8_000_000;
const KEPT_PER_OCTET = 16;

/**
 * `forecast.too-much`: whether the fields wanted declare more points than files of this size can mean. A field that is the
 * same everywhere takes 200 octets whatever its grid, so ten thousand of them fit into 2 MB and would fill the memory of
 * any machine. In files of models a point takes an eighth of an octet or more, on average over all fields.
 */
export function tooMuch({ files, wanted }: Pick<ForecastOutline, 'files' | 'wanted'>): Problem | null {
  const fileOctets = files.reduce((sum, file) => sum + sizeOctetsOf(file), 0);
  const allPoints = wanted.reduce((sum, { field }) => sum + field.pointCount, 0);
  const keptCount = wanted.reduce((sum, { field, part }) => sum + keptOf(field, part), 0);
  const mostPoints = FREE_POINTS + POINTS_PER_OCTET * fileOctets;
  const mostKept = FREE_KEPT + KEPT_PER_OCTET * fileOctets;
  if (allPoints <= mostPoints && keptCount <= mostKept) return null;
  const isKept = allPoints <= mostPoints;
  return {
    code: 'forecast.too-much',
    where: files.map(({ name }) => name).join(', '),
    what: isKept
      ? `${wanted.length} fields declare ${keptCount} values where they are wanted, in ${fileOctets} octets.`
      : `${wanted.length} fields declare ${allPoints} points in ${fileOctets} octets.`,
    expected: `at most ${isKept ? mostKept : mostPoints} for files of this size`,
    remedy: 'Ask for a coarser grid, a smaller area or fewer hours; if the file should be small, it is damaged.',
  };
}

const keptOf = ({ pointCount }: GribField, part: FramePart | null): number =>
  part === null ? pointCount : part.columnCount * part.rowCount;
