/** The table of the benchmark. */
import type { BenchCase } from './cases.ts';
import type { Measured } from './measure.ts';
import type { ReaderResult } from './npm-readers.ts';

/** A line of the table, and of the JSON file. */
export interface BenchRow {
  readonly title: string;
  readonly file: string;
  readonly targetRatio: number | null;
  readonly measures: BenchCase['measures'];
  readonly measured: Measured;
  readonly readers: readonly ReaderResult[];
}

const TITLE_WIDTH = 36;

const cell = (text: string): string => text.padStart(10);

export const formatHeading = (): string =>
  'case'.padEnd(TITLE_WIDTH) + ['values', 'ours', 'ecCodes', 'ratio', 'target', ''].map(cell).join('');

/** Millions of values per second, or thousands of messages, with three figures. */
function rate(perS: number | null, measures: BenchCase['measures'] = 'values'): string {
  if (perS === null) return '–';
  return measures === 'values' ? (perS / 1e6).toPrecision(3) : `${(perS / 1e3).toPrecision(3)}k`;
}

/** The row itself, then what the other readers made of it, and the memory. */
export function formatRow(row: BenchRow): string[] {
  const { measured, targetRatio } = row;
  const { speedRatio } = measured;
  const isShort = targetRatio !== null && speedRatio !== null && speedRatio < targetRatio;
  const cells = [
    String(measured.valueCount),
    rate(measured.oursPerS, row.measures),
    rate(measured.anchorPerS, row.measures),
    speedRatio === null ? '–' : speedRatio.toFixed(2),
    targetRatio === null ? '–' : targetRatio.toFixed(2),
    isShort ? 'short' : '',
  ];
  const refused =
    measured.refusedCount === 0 ? [] : [`${measured.refusedCount} of ${measured.fieldCount} fields refused`];
  return [
    row.title.padEnd(TITLE_WIDTH) + cells.map(cell).join(''),
    ...[...refused, ...(measured.note === '' ? [] : [measured.note]), ...memoryLine(measured)].map(indented),
    ...row.readers.map(readerLine).map(indented),
  ];
}

const indented = (line: string): string => `    ${line}`;

const memoryLine = ({ memoryOctets }: Measured): string[] =>
  memoryOctets === null ? [] : [`array buffers: ${memoryOctets.toFixed(1)} octets per value`];

const readerLine = ({ name, verdict, detail, perS }: ReaderResult): string =>
  `${name}: ${verdict}${perS === null ? '' : `, ${rate(perS)} Mval/s`} (${detail})`;

/** How many targets are met, by what was measured against the reference. */
export function formatTotals(rows: readonly BenchRow[]): string {
  const judged = rows.filter(({ targetRatio, measured }) => targetRatio !== null && measured.speedRatio !== null);
  const met = judged.filter(({ targetRatio, measured }) => (measured.speedRatio ?? 0) >= (targetRatio ?? 0));
  return `${met.length} of ${judged.length} targets met`;
}
