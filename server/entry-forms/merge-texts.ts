import { textsOf } from './entry-texts.ts';
import type { EntryField } from './entry-field.ts';

type Texts = ReadonlyMap<string, string>;

/** A form laid over what was saved meanwhile. */
export interface MergedTexts {
  readonly texts: Texts;
  /** What is kept now where something else was entered, by the name of the input. */
  readonly keptNow: Texts;
}

/**
 * What was entered stays; what was not touched shows what is kept now.
 *
 * @param was what the form showed before anything was entered
 * @param now what it would show now
 */
export function mergedTexts(entered: Texts, was: Texts, now: Texts): MergedTexts {
  const texts = new Map(now);
  const keptNow = new Map<string, string>();
  for (const [name, before] of was) {
    const text = entered.get(name)?.trim() ?? before;
    if (text === before) continue;
    texts.set(name, text);
    const kept = now.get(name) ?? '';
    if (kept !== before && kept !== text) keptNow.set(name, kept);
  }
  return { texts, keptNow };
}

/** Texts as a hidden field carries them. */
export const carried = (texts: Texts): string => JSON.stringify(Object.fromEntries(texts));

/** Texts out of a hidden field; null: it holds none. */
export function carriedTexts(text: string): Texts | null {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return null;
    return new Map(Object.entries(value).filter((one): one is [string, string] => typeof one[1] === 'string'));
  } catch {
    return null;
  }
}

interface Sought {
  readonly fields: readonly EntryField[];
  /** What its form showed. */
  readonly was: Texts;
  /** Names of the fields it is known by; one of them must say something. */
  readonly knownBy: readonly string[];
  /** Where it stood. */
  readonly index: number;
}

/** Where an entry stands after others were added or taken out: the same one, else one of its name; null: it is gone. */
export function foundAgain(
  entries: readonly unknown[],
  { fields, was, knownBy, index: before }: Sought,
): number | null {
  const shown = entries.map((entry) => textsOf(fields, entry));
  const places = [...shown.keys()].toSorted((a, b) => Math.abs(a - before) - Math.abs(b - before));
  const isSame = (place: number, names: readonly string[]): boolean =>
    names.every((name) => (shown[place]?.get(name) ?? '') === (was.get(name) ?? ''));
  const all = fields.map(({ name }) => name);
  const same = places.find((place) => isSame(place, all));
  if (same !== undefined) return same;
  const isNamed = knownBy.some((name) => (was.get(name) ?? '') !== '');
  return isNamed ? (places.find((place) => isSame(place, knownBy)) ?? null) : null;
}
