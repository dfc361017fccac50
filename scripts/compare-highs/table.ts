/** The table of the comparison. */
import type { Compared } from './compare-case.ts';

const TITLE_WIDTH = 42;

interface Levels {
  readonly priorityWeight: number;
  readonly jointWeight: number;
  readonly costPoints: number;
}

const levelsText = (worth: Levels | null): string =>
  worth === null ? '–' : `${worth.priorityWeight}/${worth.jointWeight}/${worth.costPoints}`;

const seconds = (ms: number): string => `${(ms / 1000).toFixed(2)} s`;

export const formatHeading = (): string =>
  'instance'.padEnd(TITLE_WIDTH) +
  ['HiGHS', 'status', 'time', 'ours', 'proven', 'time', 'ratio'].map((text) => text.padStart(14)).join('') +
  '  verdict';

export function formatRow({ title, highs, ours, verdict, ratio }: Compared): string {
  const cells = [
    levelsText(highs.worth),
    highs.status.slice(0, 13),
    seconds(highs.elapsedMs),
    levelsText(ours.worth),
    ours.isProven ? 'yes' : 'no',
    seconds(ours.elapsedMs),
    ratio.toFixed(1),
  ];
  return title.padEnd(TITLE_WIDTH) + cells.map((text) => text.padStart(14)).join('') + `  ${verdict}`;
}

/** Mean of ratios, which multiply. */
const geometricMean = (values: readonly number[]): number =>
  Math.exp(values.reduce((sum, value) => sum + Math.log(value), 0) / values.length);

export function formatTotals(rows: readonly Compared[]): string {
  if (rows.length === 0) return 'nothing compared';
  const ratios = rows.map(({ ratio }) => ratio);
  const optimal = rows.filter(({ highs }) => highs.isOptimal).length;
  const least = Math.min(...ratios).toFixed(1);
  return `${rows.length} compared, ${optimal} optimal by HiGHS; time of HiGHS by ours: least ${least}, geometric mean ${geometricMean(ratios).toFixed(1)}`;
}
