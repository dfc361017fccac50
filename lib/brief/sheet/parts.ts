import { materialsLeft, type MaterialNeed, toolsLeft } from '../../jobs/index.ts';
import { itemKey, type LockerItem } from '../../stock/index.ts';
import { grouped } from './grouped.ts';
import type { PartRow } from './sheet.ts';
import type { SheetWork } from './sheet-work.ts';

/** What the rest of the job takes from the locker, where it lies and what is left of it. */
export function partRows({ job, passage }: SheetWork): PartRow[] {
  const needs = together(materialsLeft(job, passage.orders.jobs));
  return needs.map((need) => {
    const lines = linesOf(passage.locker.items, need.item);
    const places = [...new Set(lines.flatMap(({ place }) => place ?? []))];
    const makers = passage.jobs.filter(({ makes }) => makes.some(({ item }) => itemKey(item) === itemKey(need.item)));
    return {
      takes: `${need.item}, ${amountText(need.amount, need.unit)}`,
      place: lines.length > 0 ? places.join('; ') : makers.map(({ name }) => `made by “${name}”`).join('; '),
      left: lines.length > 0 ? leftText(need, lines) : makers.length > 0 ? '' : 'not in the locker: count it',
    };
  });
}

const linesOf = (items: readonly LockerItem[], item: string): readonly LockerItem[] =>
  items.filter((line) => itemKey(line.item) === itemKey(item));

/** The same item in several steps as one need. */
function together(needs: readonly MaterialNeed[]): MaterialNeed[] {
  const byItem = grouped(needs, ({ item, unit }) => `${itemKey(item)} ${unit}`);
  return [...byItem.values()].flatMap((same) => {
    const [first] = same;
    return first === undefined ? [] : [{ ...first, amount: same.reduce((sum, { amount }) => sum + amount, 0) }];
  });
}

function leftText({ amount, unit }: MaterialNeed, lines: readonly LockerItem[]): string {
  const sum = (of: (line: LockerItem) => number): number => lines.reduce((total, line) => total + of(line), 0);
  const keep = sum(({ keepAmount }) => keepAmount);
  const left = sum(({ onBoardAmount }) => onBoardAmount) - amount;
  const kept = keep === 0 ? '' : `, never below ${amountText(keep, unit)}`;
  return left < 0 ? `${amountText(-left, unit)} short${kept}` : `${amountText(left, unit)} left${kept}`;
}

/** Tenths where it is not whole. */
function amountText(amount: number, unit: string): string {
  const rounded = Math.round(amount * 10) / 10;
  return `${rounded} ${unit === 'pieces' && rounded === 1 ? 'piece' : unit}`;
}

/** Tools by the place they lie in. */
export function toolLines({ job, passage }: SheetWork): string[] {
  const byPlace = grouped(
    toolsLeft(job, passage.orders.jobs),
    (tool) => linesOf(passage.locker.items, tool).find(({ place }) => place !== null)?.place ?? 'Tools',
  );
  return [...byPlace].map(([place, tools]) => `${place}: ${tools.join(', ')}`);
}
