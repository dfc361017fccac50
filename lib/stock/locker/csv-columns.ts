import { formatUtc } from '../../time/index.ts';
import { LOCKER_LIMITS, type LockerItem } from './locker.ts';

/** What a cell of a column holds. */
export type CellKind = 'text' | 'kind' | 'amount' | 'length' | 'instant';

/** A column of the table of a locker. */
export interface LockerColumn {
  readonly name: string;
  readonly field: keyof LockerItem;
  readonly holds: CellKind;
  /** A table without it, or a line with nothing in it, is refused. */
  readonly isRequired: boolean;
  /** Largest number it may hold. */
  readonly most: number;
  /** What its numbers count; empty: in the unit of the line, or it holds none. */
  readonly unit: 'mm' | '';
  write(line: LockerItem): string;
}

const shown = (value: number | null): string => (value === null ? '' : String(value));
const { most, longestBarMm, thickestBarMm } = LOCKER_LIMITS;

/** The columns in the order they are written; read they may stand in any. */
export const LOCKER_COLUMNS: readonly LockerColumn[] = [
  column('item', 'item', { holds: 'text', isRequired: true, write: ({ item }) => item }),
  column('kind', 'kind', { holds: 'kind', write: ({ kind }) => kind }),
  column('amount', 'onBoardAmount', {
    holds: 'amount',
    isRequired: true,
    most,
    write: ({ onBoardAmount }) => shown(onBoardAmount),
  }),
  column('unit', 'unit', { holds: 'text', isRequired: true, write: ({ unit }) => unit }),
  column('keep', 'keepAmount', { holds: 'amount', most, write: ({ keepAmount }) => shown(keepAmount) }),
  column('place', 'place', { holds: 'text', write: ({ place }) => place ?? '' }),
  column('length_mm', 'lengthMm', { holds: 'length', most: longestBarMm, write: ({ lengthMm }) => shown(lengthMm) }),
  column('diameter_mm', 'diameterMm', {
    holds: 'length',
    most: thickestBarMm,
    write: ({ diameterMm }) => shown(diameterMm),
  }),
  column('ready_utc', 'readyEpochMs', {
    holds: 'instant',
    write: ({ readyEpochMs }) => (readyEpochMs === null ? '' : formatUtc(readyEpochMs)),
  }),
];

function column(
  name: string,
  field: keyof LockerItem,
  of: Pick<LockerColumn, 'holds' | 'write'> & Partial<LockerColumn>,
): LockerColumn {
  return { name, field, isRequired: false, most: Infinity, unit: of.holds === 'length' ? 'mm' : '', ...of };
}
