import type { Problem } from '../../result/index.ts';
import { itemKey, PIECES, type LockerItem } from './locker.ts';

/** How a reader names a line and its fields, and the first word of its problems. */
export interface LockerPlaces {
  place(index: number, field: keyof LockerItem): string;
  readonly codeWord: string;
  /** How the reader writes that a line is a bar. */
  readonly barWords: string;
}

type At = (field: keyof LockerItem) => string;

/**
 * What is wrong with the lines of a locker between their fields and among each other: `bar-length`, `bar-diameter`,
 * `not-a-bar`, `bar-unit`, `bar-count`, `item-twice`, `item-units`, each after the reader's code word.
 *
 * Bars of one item may differ in length or diameter; then they are lines of their own.
 */
export function lockerProblems(items: readonly LockerItem[], places: LockerPlaces): readonly Problem[] {
  return items.flatMap((item, index) => {
    const at: At = (field) => places.place(index, field);
    const before = items.slice(0, index).filter((other) => itemKey(other.item) === itemKey(item.item));
    return [
      ...(item.kind === 'bar' ? barProblems(item, at) : notABar(item, at, places.barWords)),
      ...(before.some((other) => isSameSize(other, item)) ? [itemTwice(item, at('item'))] : []),
      ...unitsProblems(item, before, at('unit')),
    ].map((problem) => ({ ...problem, code: `${places.codeWord}.${problem.code}` }));
  });
}

const isSameSize = (one: LockerItem, other: LockerItem): boolean =>
  one.lengthMm === other.lengthMm && one.diameterMm === other.diameterMm;

function barProblems(item: LockerItem, at: At): Problem[] {
  const sizes = [
    { field: 'lengthMm', code: 'bar-length', word: 'length' },
    { field: 'diameterMm', code: 'bar-diameter', word: 'diameter' },
  ] as const;
  return [
    ...sizes
      .filter(({ field }) => item[field] === null)
      .map(({ field, code, word }) => ({
        code,
        where: at(field),
        what: `"${item.item}" is a bar without a ${word}.`,
        expected: `the ${word} of one bar in mm`,
        remedy: 'Measure one and add it; bars of another size go on a line of their own.',
      })),
    ...(item.unit === PIECES ? [] : [barUnit(item, at('unit'))]),
    ...(Number.isInteger(item.onBoardAmount) ? [] : [barCount(item, at('onBoardAmount'))]),
  ];
}

const barUnit = ({ item, unit }: LockerItem, where: string): Problem => ({
  code: 'bar-unit',
  where,
  what: `"${item}" is a bar and is counted in ${unit}.`,
  expected: PIECES,
  remedy: `Count the bars, and write "${PIECES}"; their length stands beside it.`,
});

const barCount = ({ item, onBoardAmount }: LockerItem, where: string): Problem => ({
  code: 'bar-count',
  where,
  what: `There are ${onBoardAmount} bars of "${item}".`,
  expected: 'a whole number of bars',
  remedy: 'Give an off-cut a line of its own, with its own length.',
});

function notABar(item: LockerItem, at: At, barWords: string): Problem[] {
  return (['lengthMm', 'diameterMm'] as const)
    .filter((field) => item[field] !== null)
    .map((field) => ({
      code: 'not-a-bar',
      where: at(field),
      what: `"${item.item}" is a ${item.kind} of ${item[field]} mm.`,
      expected: 'a length and a diameter on bars only',
      remedy: `Write ${barWords}, or take it out.`,
    }));
}

const itemTwice = (item: LockerItem, where: string): Problem => ({
  code: 'item-twice',
  where,
  what: `"${item.item}"${item.lengthMm === null ? '' : ` of ${item.lengthMm} mm`} is listed twice.`,
  expected: 'each item once; bars once for each length and diameter',
  remedy: 'Add the two amounts up in one line.',
});

function unitsProblems(item: LockerItem, before: readonly LockerItem[], where: string): Problem[] {
  const other = before.find(({ unit }) => unit !== item.unit);
  if (other === undefined) return [];
  return [
    {
      code: 'item-units',
      where,
      what: `"${item.item}" is counted in ${item.unit} here and in ${other.unit} above.`,
      expected: 'one unit for all lines of an item',
      remedy: `Count both in ${other.unit}, or give them different names.`,
    },
  ];
}
