import { freeAmount, type Locker } from './locker.ts';

/** Bars of one size that may be cut. */
export interface LockerBar {
  readonly id: string;
  readonly lengthMm: number;
  readonly diameterMm: number;
  readonly count: number;
}

/** The bars of a locker above their reserve, as stock of a cut plan; ids tell item, diameter and length apart. */
export function barsOf(locker: Locker): LockerBar[] {
  return locker.items.flatMap((line) => {
    const { item, lengthMm, diameterMm } = line;
    const count = Math.floor(freeAmount(line));
    if (line.kind !== 'bar' || lengthMm === null || diameterMm === null || count === 0) return [];
    return [{ id: `${item} ${diameterMm} x ${lengthMm}`, lengthMm, diameterMm, count }];
  });
}
