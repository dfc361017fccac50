import type { CheckItem, Topic } from './check-item.ts';

/** Rounding of binary floating point, so that a tolerance of 0 means equal as written. */
const ROUNDING_RATIO = 1e-12;

const ISO_INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d/;

/** Unit by the end of a key: `distanceNm` is in nm. */
const UNIT_OF_KEY: readonly (readonly [RegExp, string])[] = [
  [/(Deg|^deg|^lat\d?|^lon\d?|Lat|Lon|^azimuth|^azi\d?|Azi|^zenith\w*)$/, 'deg'],
  [/(Kn|^kn)$/, 'kn'],
  [/(Nm|^nm)$/, 'nm'],
  [/(Km|^km)$/, 'km'],
  [/(Min|^min)$/, 'min'],
  [/(M|^m|^hs|^h)$/, 'm'],
  [/(Ms|^ms)$/, 'ms'],
  [/(H|^h)$/, 'h'],
];

/** What differs between an item and the library's answer: one line for each key, none when all is well. */
export function differences(item: CheckItem, topic: Topic): readonly string[] {
  let actual: Readonly<Record<string, unknown>>;
  try {
    actual = topic.compute(item);
  } catch (error) {
    return [error instanceof Error ? error.message : String(error)];
  }
  return Object.entries(item.expected).flatMap(([key, expected]) => {
    if (!(key in actual)) return [`${key}: the topic ${topic.topic} does not answer it`];
    return differenceOf(item, key, { expected, actual: actual[key] });
  });
}

function differenceOf(item: CheckItem, key: string, pair: { expected: unknown; actual: unknown }): readonly string[] {
  const { expected, actual } = pair;
  const said = `${key}: expected ${JSON.stringify(expected)}, got ${JSON.stringify(actual)}`;
  if (typeof expected === 'number' && typeof actual === 'number') {
    const allowed = toleranceOf(item, key);
    if (allowed === null) return [`${key}: the item gives no tolerance for it`];
    const off = distance(key, { expected, actual });
    const slack = ROUNDING_RATIO * Math.max(1, Math.abs(expected));
    return off <= allowed + slack ? [] : [`${said}, off by ${off}, allowed ${allowed}`];
  }
  if (typeof expected === 'string' && typeof actual === 'string' && ISO_INSTANT.test(expected)) {
    return instantDifference(item, { key, said, offMin: Math.abs(Date.parse(actual) - Date.parse(expected)) / 60_000 });
  }
  if (Array.isArray(expected) && Array.isArray(actual) && expected.length === actual.length) {
    return expected.flatMap((one, index) =>
      differenceOf(item, key, { expected: one, actual: (actual as unknown[])[index] }),
    );
  }
  return JSON.stringify(expected) === JSON.stringify(actual) ? [] : [said];
}

function instantDifference(item: CheckItem, of: { key: string; said: string; offMin: number }): readonly string[] {
  const { tolerance } = item;
  const allowedMin = toleranceIn(tolerance, ['minutes', 'min'], 1) ?? toleranceIn(tolerance, ['seconds', 's'], 1 / 60);
  if (allowedMin === null) return [`${of.key}: the item gives no tolerance in minutes`];
  return of.offMin <= allowedMin + 1e-9 ? [] : [`${of.said}, off by ${of.offMin} min, allowed ${allowedMin}`];
}

function toleranceIn(tolerance: CheckItem['tolerance'], names: readonly string[], scale: number): number | null {
  if (tolerance === null) return 0;
  if (typeof tolerance === 'number') return tolerance * scale;
  const name = names.find((known) => tolerance[known] !== undefined);
  return name === undefined ? null : (tolerance[name] ?? 0) * scale;
}

/** Tolerance of a key: its own, that of its unit, in minutes of arc for a position, or the only one there is. */
function toleranceOf(item: CheckItem, key: string): number | null {
  const { tolerance } = item;
  if (tolerance === null) return 0;
  if (typeof tolerance === 'number') return tolerance;
  const minutes = tolerance[`${key}Min`];
  const unit = unitOf(key);
  const values = Object.values(tolerance);
  const single = values.length === 1 ? values[0] : undefined;
  const ofMinutes = minutes === undefined ? undefined : minutes / 60;
  return (
    tolerance[key] ??
    tolerance[`${key}Deg`] ??
    ofMinutes ??
    (unit === null ? undefined : tolerance[unit]) ??
    single ??
    null
  );
}

const unitOf = (key: string): string | null => UNIT_OF_KEY.find(([pattern]) => pattern.test(key))?.[1] ?? null;

/** Distance between two figures; between two directions the shorter way round. */
function distance(key: string, of: { expected: number; actual: number }): number {
  const off = Math.abs(of.actual - of.expected);
  return unitOf(key) === 'deg' && off <= 360 ? Math.min(off, 360 - off) : off;
}
