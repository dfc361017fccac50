type Raw = Readonly<Record<string, unknown>>;

/** Paths at which two texts of a passage differ, one key deep into its objects: `jobs`, `settings.wantedProbability`. */
export function editedPaths(older: string, newer: string): readonly string[] {
  return differing(objectOf(older), objectOf(newer)).flatMap(([key, before, after]) => {
    if (!isRecord(before) || !isRecord(after)) return [key];
    return differing(before, after).map(([inside]) => `${key}.${inside}`);
  });
}

function differing(before: Raw, after: Raw): (readonly [key: string, before: unknown, after: unknown])[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return keys
    .filter((key) => JSON.stringify(before[key]) !== JSON.stringify(after[key]))
    .map((key) => [key, before[key], after[key]] as const);
}

const isRecord = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value);

function objectOf(text: string): Raw {
  const value: unknown = JSON.parse(text);
  return isRecord(value) ? value : {};
}
