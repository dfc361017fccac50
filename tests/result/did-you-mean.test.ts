import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { didYouMean } from '../../lib/result/index.ts';

const known = ['wantedProbability', 'slotMin', 'horizonH', 'seed', 'gustRatio'];

describe('didYouMean', () => {
  it.each([
    ['wantedProbablity', 'wantedProbability'],
    ['slotmin', 'slotMin'],
    ['sede', 'seed'],
    ['gustsRatio', 'gustRatio'],
    ['seed', 'seed'],
  ])('%s: suggests %s', (wanted, name) => {
    expect(didYouMean(wanted, known)).toBe(name);
  });

  it.each(['sailState', 'x', 'aVeryLongNameThatIsNothingLikeAnyOther'])('%s: suggests nothing', (wanted) => {
    expect(didYouMean(wanted, known)).toBeNull();
  });

  it('nothing known: suggests nothing', () => {
    expect(didYouMean('seed', [])).toBeNull();
  });

  // V. I. Levenshtein, Soviet Physics Doklady 10 (1966) 707: insertion, deletion, substitution count one each.
  // The pair kitten, sitting (distance 3) is the usual textbook example; a name of 7 letters may differ in 3.
  it('distance three of seven letters: suggested; four: not', () => {
    expect(didYouMean('sitting', ['kitten'])).toBe('kitten');
    expect(didYouMean('sitting', ['kit'])).toBeNull();
  });

  it('any name with one letter left out: is found again', () => {
    fc.assert(
      fc.property(fc.constantFrom(...known), fc.nat(), (name, at) => {
        const cutIndex = at % name.length;
        return didYouMean(name.slice(0, cutIndex) + name.slice(cutIndex + 1), known) === name;
      }),
      { seed: 7 },
    );
  });
});
