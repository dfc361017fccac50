/** `079°`: three figures, as bearings are written. */
export const degreesText = (towardDegTrue: number): string =>
  `${String(Math.round(towardDegTrue) % 360).padStart(3, '0')}°`;

/** `1–3, 5` of numbers in rising order. */
export function numbersText(numbers: readonly number[]): string {
  const runs: number[][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && last.at(-1) === number - 1) last.push(number);
    else runs.push([number]);
  }
  return runs.map((run) => (run.length < 3 ? run.join(', ') : `${run[0]}–${run.at(-1)}`)).join(', ');
}
