/** Most numbers of a list. */
const MOST_COUNT = 2000;

/**
 * Whole numbers as they are asked for: `0-120/3,126,132-240/6` is 0, 3 … 120, 126, 132, 138 … 240. Sorted, each once.
 *
 * @returns null when the text is none, or is more than 2000 numbers
 */
export function parseNumberList(text: string): readonly number[] | null {
  const found = new Set<number>();
  for (const part of text.split(',')) {
    const [, from, to, every = '1'] = /^\s*(\d{1,4})(?:-(\d{1,4})(?:\/(\d{1,4}))?)?\s*$/.exec(part) ?? [];
    if (from === undefined) return null;
    const last = Number(to ?? from);
    const stride = Number(every);
    if (last < Number(from) || stride < 1) return null;
    for (let number = Number(from); number <= last; number += stride) found.add(number);
    if (found.size > MOST_COUNT) return null;
  }
  return [...found].toSorted((a, b) => a - b);
}
