/** The one table at the end. */
import type { ComparedCase } from './compare.ts';
import { figure } from './compare.ts';

const PART_WIDTH = 10;
const NAME_WIDTH = 50;
const cell = (text: string): string => text.padStart(11);

export const benchHeading = (): string =>
  'part'.padEnd(PART_WIDTH) +
  'case'.padEnd(NAME_WIDTH) +
  ['ours', 'reference', 'ratio', 'spread', 'kept', 'change', 'verdict'].map(cell).join('');

const amount = (value: number, unit: string): string =>
  `${value >= 1000 ? value.toFixed(0) : value.toPrecision(3)} ${unit === 'octets' ? 'B' : unit}`;
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

export function benchRow({ part, measured, kept, changeShare, verdict }: ComparedCase): string {
  const { name, unit, ours, reference, costRatio, spreadShare } = measured;
  const change = changeShare === null ? '–' : `${changeShare > 0 ? '+' : ''}${percent(changeShare)}`;
  return (
    part.padEnd(PART_WIDTH) +
    name.padEnd(NAME_WIDTH) +
    [
      amount(ours, unit),
      amount(reference, unit),
      figure(costRatio),
      `± ${percent(spreadShare / 2)}`,
      kept === null ? '–' : figure(kept.costRatio),
      change,
      verdict,
    ]
      .map(cell)
      .join('')
  );
}
