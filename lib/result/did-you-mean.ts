/** The name nearest to `wanted` by edit distance, or null when none is near (more than a third of it differs). */
export function didYouMean(wanted: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let bestDistanceCount = Math.max(2, Math.ceil(wanted.length / 3)) + 1;
  for (const name of known) {
    // So many characters must come or go at least.
    if (Math.abs(wanted.length - name.length) >= bestDistanceCount) continue;
    const distanceCount = editDistanceCount(wanted.toLowerCase(), name.toLowerCase());
    if (distanceCount < bestDistanceCount) [best, bestDistanceCount] = [name, distanceCount];
  }
  return best;
}

/** Levenshtein distance: insertions, deletions and substitutions. */
function editDistanceCount(from: string, to: string): number {
  let previous = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const current = [i];
    for (let j = 1; j <= to.length; j++) {
      const substitution = (previous[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      current.push(Math.min((previous[j] ?? 0) + 1, (current[j - 1] ?? 0) + 1, substitution));
    }
    previous = current;
  }
  return previous[to.length] ?? 0;
}
