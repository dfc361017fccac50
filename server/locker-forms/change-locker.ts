import { fillSettings, lockerLineFile, type PassageFile, toLockerFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { readShape } from '../../lib/shape/index.ts';
import type { Locker } from '../../lib/stock/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { ITEM_FIELDS } from './locker-fields.ts';
import { shipTimeOf, utcOfShipTime } from '../presenters/ship-time.ts';

type Texts = ReadonlyMap<string, string>;
type Lines = NonNullable<PassageFile['locker']>;

/** A line as its form shows it: its instant on the ship's clock. */
export function shownItem(line: Lines[number] | undefined, shipTimeOffsetMin: number): unknown {
  if (line?.readyUtc === undefined) return line;
  return { ...line, readyUtc: shipTimeOf(line.readyUtc, shipTimeOffsetMin) };
}

/** The passage with a line of the locker as its form says; an index behind the last adds one. */
export function withItem(file: PassageFile, index: number, texts: Texts): Result<PassageFile> {
  const lines: Lines = [...(file.locker ?? [])];
  const before = lines[index];
  const offsetMin = fillSettings(file.settings ?? {}, file.start).shipTimeOffsetMin;
  const shown = shownItem(before, offsetMin);
  const { readyUtc, ...entry } = entryOf(ITEM_FIELDS, shown, texts);
  const ready = typeof readyUtc !== 'string' ? {} : { readyUtc: readyOf(readyUtc, before?.readyUtc, offsetMin) };
  const read = readShape(lockerLineFile, { ...entry, ...ready }, { where: 'passage', path: ['locker', index] });
  if (!read.ok) return read;
  lines[Math.min(index, lines.length)] = read.value;
  return ok({ ...file, locker: lines });
}

/** Not touched it stays as it was written, to the second. */
const readyOf = (text: string, before: string | undefined, offsetMin: number): string =>
  before !== undefined && shipTimeOf(before, offsetMin) === text ? before : utcOfShipTime(text, offsetMin);

export function withoutItem(file: PassageFile, index: number): Result<PassageFile> {
  const lines = file.locker ?? [];
  if (lines[index] === undefined) return failed(goneEntry(`locker[${index}]`, 'line of the locker'));
  return ok({ ...file, locker: lines.filter((_, k) => k !== index) });
}

/** The passage with another locker; lines that are in both stay as they are written. */
export function withLocker(file: PassageFile, before: Locker, after: Locker): PassageFile {
  const lines = after.items.flatMap((item) => {
    const kept = file.locker?.[before.items.indexOf(item)];
    return kept === undefined ? toLockerFile({ items: [item] }) : [kept];
  });
  return { ...file, locker: lines };
}

export const goneEntry = (where: string, what: string): Problem => ({
  code: 'passage.entry-gone',
  where,
  what: `This ${what} is not in the passage any more.`,
  expected: `a ${what} that is there`,
  remedy: 'Look at the list.',
});
