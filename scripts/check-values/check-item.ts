/** One value to check: what goes in, what must come out, how far off it may be. */
export interface CheckItem {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, unknown>>;
  /** One figure for all, by key of `expected`, or by unit (`deg`, `kn`, `nm`, `m`, `minutes`…); null: exact. */
  readonly tolerance: number | null | Readonly<Record<string, number>>;
}

/** What the library answers on one topic, under the keys the items expect. */
export interface Topic {
  readonly topic: string;
  compute(item: CheckItem): Readonly<Record<string, unknown>>;
}

/** True for a plain object. */
export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The item, or null when its shape is not one. */
export function itemOrNull(value: unknown): CheckItem | null {
  if (!isRecord(value)) return null;
  const { id, topic, inputs, expected, tolerance = null } = value;
  if (typeof id !== 'string' || typeof topic !== 'string' || !isRecord(inputs) || !isRecord(expected)) return null;
  if (tolerance !== null && typeof tolerance !== 'number' && !isNumbers(tolerance)) return null;
  return { id, topic, inputs, expected, tolerance };
}

const isNumbers = (value: unknown): value is Readonly<Record<string, number>> =>
  isRecord(value) && Object.values(value).every((one) => typeof one === 'number');
