import { itemKey, type Locker, type LockerItem } from './locker.ts';

/** A line that one locker has and another has not, or has otherwise. */
export interface LockerChange {
  readonly item: string;
  readonly lengthMm: number | null;
  readonly diameterMm: number | null;
  readonly change: 'added' | 'taken-out' | 'changed';
  readonly before: LockerItem | null;
  readonly after: LockerItem | null;
}

/** What differs from one locker to another, in the order of the new one, then what is gone; the order of lines is nothing. */
export function lockerChanges(before: Locker, after: Locker): LockerChange[] {
  const old = new Map(before.items.map((line) => [lineKey(line), line]));
  const now = new Set(after.items.map(lineKey));
  return [
    ...after.items.flatMap((line) => changeOf(old.get(lineKey(line)) ?? null, line)),
    ...before.items.filter((line) => !now.has(lineKey(line))).flatMap((line) => changeOf(line, null)),
  ];
}

const lineKey = ({ item, lengthMm, diameterMm }: LockerItem): string =>
  JSON.stringify([itemKey(item), lengthMm, diameterMm]);

function changeOf(before: LockerItem | null, after: LockerItem | null): LockerChange[] {
  const line = after ?? before;
  if (line === null || (before !== null && after !== null && isSameLine(before, after))) return [];
  const change = before === null ? 'added' : after === null ? 'taken-out' : 'changed';
  return [{ item: line.item, lengthMm: line.lengthMm, diameterMm: line.diameterMm, change, before, after }];
}

const FIELDS = ['item', 'kind', 'unit', 'onBoardAmount', 'keepAmount', 'place', 'readyEpochMs'] as const;

const isSameLine = (one: LockerItem, other: LockerItem): boolean =>
  FIELDS.every((field) => one[field] === other[field]);
