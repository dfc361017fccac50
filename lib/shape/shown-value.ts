/** A value of a file as it is quoted in a problem: short, however large or deep it is. */
import { shownText } from '../result/index.ts';

const MOST_CHARACTERS = 80;
/** Deeper parts and further entries are left out: they would not be shown. */
const MOST_DEPTH_COUNT = 4;
const MOST_ENTRIES_COUNT = 20;
const MOST_TEXT_CHARACTERS = 100;

/** JSON of a value as long as it is short, else its beginning. */
export function shownValue(value: unknown): string {
  const json = JSON.stringify(bounded(value, 0)) ?? 'nothing';
  const text = json.length <= MOST_CHARACTERS ? json : `${json.slice(0, MOST_CHARACTERS - 3)}...`;
  return shownText(text, text.length * 2);
}

function bounded(value: unknown, depthCount: number): unknown {
  if (typeof value === 'string') return value.slice(0, MOST_TEXT_CHARACTERS);
  if (typeof value !== 'object' || value === null) return value;
  if (depthCount === MOST_DEPTH_COUNT) return '...';
  if (Array.isArray(value)) return value.slice(0, MOST_ENTRIES_COUNT).map((entry) => bounded(entry, depthCount + 1));
  const entries: [string, unknown][] = [];
  for (const key in value) {
    if (entries.length === MOST_ENTRIES_COUNT) break;
    if (!Object.hasOwn(value, key)) continue;
    const own: unknown = Object.getOwnPropertyDescriptor(value, key)?.value;
    entries.push([key.slice(0, MOST_TEXT_CHARACTERS), bounded(own, depthCount + 1)]);
  }
  return Object.fromEntries(entries);
}
