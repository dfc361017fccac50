import { itemKey } from '../../lib/stock/index.ts';

/** One state of a document. */
export interface CountedVersion {
  readonly json: string;
  readonly savedAtEpochMs: number;
}

/**
 * When each item of the locker was last changed, by `itemKey`; items that stand as they were in the first version are not
 * among them.
 *
 * @param versions in the order they were saved
 */
export function itemsCountedAt(versions: readonly CountedVersion[]): ReadonlyMap<string, number> {
  const counted = new Map<string, number>();
  let before: ReadonlyMap<string, string> | null = null;
  for (const { json, savedAtEpochMs } of versions) {
    const lines = linesOf(json);
    for (const [key, text] of lines) if (before !== null && before.get(key) !== text) counted.set(key, savedAtEpochMs);
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
