/** Things with the same key together, in the order in which each key first comes. */
export function grouped<T>(things: readonly T[], keyOf: (thing: T) => string): ReadonlyMap<string, readonly T[]> {
  const byKey = new Map<string, T[]>();
  for (const thing of things) {
    const same = byKey.get(keyOf(thing));
    if (same === undefined) byKey.set(keyOf(thing), [thing]);
    else same.push(thing);
  }
  return byKey;
}
