/**
 * Does a work for every item, so many at once, in their order; the answers stand in the order of the items.
 *
 * @param parallelCount at least 1
 */
export async function runMany<Item, Answer>(
  items: readonly Item[],
  parallelCount: number,
  work: (item: Item) => Promise<Answer>,
): Promise<Answer[]> {
  const waiting = items.entries();
  const answers: Answer[] = [];
  const worker = async (): Promise<void> => {
    for (const [index, item] of waiting) {
      // Each worker does one after another; the workers run side by side.
      // oxlint-disable-next-line no-await-in-loop
      answers[index] = await work(item);
    }
  };
  await Promise.all(Array.from({ length: Math.min(parallelCount, items.length) }, worker));
  return answers;
}
