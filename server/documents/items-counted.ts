import { itemKey } from '../../lib/stock/index.ts';

/** One state of a document. */
export interface CountedVersion {
  readonly json: string;
  readonly savedAtEpochMs: number;
}

/**
 * When each item of the locker was last changed, by `itemKey`; items that stand as they were in the first version are not
 * among them. A version whose whole text was there before is a change taken back: its items count from when they were
 * counted then.
 *
 * @param versions in the order they were saved
 */
export function itemsCountedAt(versions: readonly CountedVersion[]): ReadonlyMap<string, number> {
  const countedIn = new Map<string, ReadonlyMap<string, number>>();
  let counted: ReadonlyMap<string, number> = new Map();
  let before: ReadonlyMap<string, string> | null = null;
  for (const { json, savedAtEpochMs } of versions) {
    const lines = linesOf(json);
    const lineBefore = before;
    const changed = [...lines].filter(([key, text]) => lineBefore !== null && lineBefore.get(key) !== text);
    counted =
      countedIn.get(json) ?? new Map([...counted, ...changed.map(([key]): [string, number] => [key, savedAtEpochMs])]);
    countedIn.set(json, counted);
    before = lines;
  }
  return counted;
}

/** All lines of each item, as text. */
function linesOf(json: string): ReadonlyMap<string, string> {
  const file: unknown = JSON.parse(json);
  const locker: unknown = typeof file === 'object' && file !== null && 'locker' in file ? file.locker : [];
  const lines = new Map<string, string>();
  for (const line of Array.isArray(locker) ? (locker as readonly unknown[]) : []) {
    if (typeof line !== 'object' || line === null || !('item' in line) || typeof line.item !== 'string') continue;
    const key = itemKey(line.item);
    lines.set(key, `${lines.get(key) ?? ''}${JSON.stringify(line)}`);
  }
  return lines;
}
