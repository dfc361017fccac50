/** Texts that lie: samples damaged in the ways of their format, always the same for a seed and an index. */
import { type Chance, chanceOf } from './chance.ts';

export interface Sample {
  readonly name: string;
  readonly text: string;
}

/** What a damage may take from elsewhere. */
export interface Damaging extends Chance {
  /** Another sample of the format, or the same again. */
  readonly anySample: () => Sample;
}

/** Takes octets, gives the damaged ones. */
export type Damage = (octets: Buffer, chance: Damaging) => Buffer;

/** A damage with its name for people; the more often one comes the greater its weight. */
export interface WeighedDamage {
  readonly name: string;
  readonly weight: number;
  readonly damage: Damage;
}

export interface Mutant {
  readonly octets: Buffer;
  /** What was done to which sample. */
  readonly story: string;
  /** Index of the sample it was made of. */
  readonly sampleIndex: number;
}

/** A damage of text. */
export const ofText =
  (change: (text: string, chance: Damaging) => string): Damage =>
  (octets, chance) =>
    Buffer.from(change(octets.toString('utf8'), chance), 'utf8');

/** Damages of all formats come once in so many. */
const PLAIN_ONE_IN = 4;

export function mutantOf(
  of: {
    readonly samples: readonly Sample[];
    readonly own: readonly WeighedDamage[];
    readonly plain: readonly WeighedDamage[];
  },
  at: { readonly seed: number; readonly index: number },
): Mutant {
  const chance = chanceOf(at);
  const sampleIndex = chance.below(of.samples.length);
  const sample = of.samples[sampleIndex];
  if (sample === undefined) throw new Error('a format has samples');
  const damaging: Damaging = { ...chance, anySample: () => chance.pick(of.samples) };
  const damages = Array.from({ length: chance.oneIn(3) ? 2 : 1 }, () =>
    weighed(chance.oneIn(PLAIN_ONE_IN) || of.own.length === 0 ? of.plain : of.own, chance),
  );
  let octets: Buffer = Buffer.from(sample.text, 'utf8');
  for (const { damage } of damages) octets = damage(octets, damaging);
  return { octets, story: `${sample.name}: ${damages.map(({ name }) => name).join(', ')}`, sampleIndex };
}

function weighed(list: readonly WeighedDamage[], chance: Chance): WeighedDamage {
  let ticket = chance.below(list.reduce((sum, { weight }) => sum + weight, 0));
  for (const one of list) {
    ticket -= one.weight;
    if (ticket < 0) return one;
  }
  throw new Error('a draw above all weights');
}
