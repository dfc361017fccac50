import { freeAmount, type Locker, type LockerChange, type LockerItem } from '../../../lib/stock/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';

const HEAD = ['item', 'kind', 'on board', 'reserve', 'to take', 'place', 'size', ''] as const;

/** The locker as a table for the eye, with what is below its reserve and what is not ready. */
export function lockerText({ items }: Locker): string {
  if (items.length === 0) return 'The locker lists nothing: nothing was counted.\n';
  const rows = [[...HEAD], ...items.map(cellsOf)];
  const widths = HEAD.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows
    .map(
      (row) =>
        `${row
          .map((cell, column) => cell.padEnd(widths[column] ?? 0))
          .join('  ')
          .trimEnd()}\n`,
    )
    .join('');
}

function cellsOf(line: LockerItem): string[] {
  const { kind, unit, onBoardAmount, keepAmount } = line;
  const isTool = kind === 'tool';
  return [
    line.item,
    kind,
    `${onBoardAmount} ${unit}`,
    keepAmount === 0 ? '' : String(keepAmount),
    isTool ? '' : String(rounded(freeAmount(line))),
    line.place ?? '',
    sizeOf(line),
    notesOf(line),
  ];
}

const sizeOf = ({ lengthMm, diameterMm }: Pick<LockerItem, 'lengthMm' | 'diameterMm'>): string =>
  lengthMm === null ? '' : `${lengthMm} mm${diameterMm === null ? '' : `, ${diameterMm} mm thick`}`;

function notesOf({ onBoardAmount, keepAmount, unit, readyEpochMs }: LockerItem): string {
  return [
    ...(onBoardAmount < keepAmount ? [`below its reserve by ${rounded(keepAmount - onBoardAmount)} ${unit}`] : []),
    ...(readyEpochMs === null ? [] : [`not before ${formatUtc(readyEpochMs)}`]),
  ].join('; ');
}

/** Sums of decimals without what binary fractions leave behind. */
const rounded = (amount: number): number => Number(amount.toPrecision(12));

/** What a table changes of the locker, a line for each. */
export function changesText(changes: readonly LockerChange[]): string {
  if (changes.length === 0) return 'The table changes nothing.\n';
  return changes.map((change) => `${changeText(change)}\n`).join('');
}

function changeText({ change, before, after, ...line }: LockerChange): string {
  const size = sizeOf(line);
  const name = `${line.item}${size === '' ? '' : ` (${size})`}`;
  if (change === 'added' && after !== null) return `+ ${name}: ${wordsOf(after)}`;
  if (change === 'taken-out' && before !== null) return `- ${name}: ${wordsOf(before)}`;
  return `~ ${name}: ${before === null ? '' : wordsOf(before)} -> ${after === null ? '' : wordsOf(after)}`;
}

const wordsOf = (line: LockerItem): string =>
  [
    `${line.onBoardAmount} ${line.unit}`,
    ...(line.keepAmount === 0 ? [] : [`reserve ${line.keepAmount}`]),
    line.kind,
    ...(line.place === null ? [] : [line.place]),
    ...(line.readyEpochMs === null ? [] : [`not before ${formatUtc(line.readyEpochMs)}`]),
  ].join(', ');
