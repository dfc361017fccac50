import { isRecord, type CheckItem } from './check-item.ts';

type Inputs = Readonly<Record<string, unknown>>;

/** A number among the inputs; throws with the item's key when it is missing: the item cannot be checked. */
export function numberIn(inputs: Inputs, key: string): number {
  const value = inputs[key];
  if (typeof value !== 'number') throw new Error(`inputs.${key} is ${JSON.stringify(value)}, a number was expected`);
  return value;
}

export function textIn(inputs: Inputs, key: string): string {
  const value = inputs[key];
  if (typeof value !== 'string') throw new Error(`inputs.${key} is ${JSON.stringify(value)}, a text was expected`);
  return value;
}

export function listIn(inputs: Inputs, key: string): readonly unknown[] {
  const value = inputs[key];
  if (!Array.isArray(value)) throw new Error(`inputs.${key} is ${JSON.stringify(value)}, a list was expected`);
  return value as unknown[];
}

/** An object with `lat` and `lon` under a key, or, without a key, the inputs themselves. */
export function positionIn(inputs: Inputs, key?: string): { lat: number; lon: number } {
  const value = key === undefined ? inputs : inputs[key];
  if (!isRecord(value)) throw new Error(`inputs.${key} is no position`);
  return { lat: numberIn(value, 'lat'), lon: numberIn(value, 'lon') };
}

export const fromTo = ({
  inputs,
}: CheckItem): { from: { lat: number; lon: number }; to: { lat: number; lon: number } } => ({
  from: positionIn(inputs, 'from'),
  to: positionIn(inputs, 'to'),
});

/** Instant [epoch ms] of a text; throws for one that is none. */
export function instantIn(inputs: Inputs, key: string): number {
  const text = textIn(inputs, key);
  const epochMs = Date.parse(/[Zz]|[+-]\d\d:\d\d$/.test(text) || text.length === 10 ? text : `${text}Z`);
  if (Number.isNaN(epochMs)) throw new Error(`inputs.${key} is "${text}", an instant was expected`);
  return epochMs;
}
