import { csvText, withoutFormula } from '../../csv/index.ts';
import { LOCKER_COLUMNS } from './csv-columns.ts';
import type { Locker } from './locker.ts';

/**
 * A locker as a table: `item,kind,amount,unit,keep,place,length_mm,diameter_mm,ready_utc`, commas, decimal points, CRLF.
 *
 * A text that begins like a formula gets an apostrophe before it, which `readLockerCsv` takes off again. Instants are
 * written to the second.
 */
export const lockerCsv = (locker: Locker): string =>
  csvText([
    LOCKER_COLUMNS.map(({ name }) => name),
    ...locker.items.map((line) =>
      LOCKER_COLUMNS.map((column) => {
        const text = column.write(line);
        return column.holds === 'text' ? withoutFormula(text) : text;
      }),
    ),
  ]);
