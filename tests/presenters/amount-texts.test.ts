import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aboutText, amountText, of100, plusMinus, roomText } from '../../server/presenters/amount-texts.ts';

describe('roomText', () => {
  it.each([
    ['4.19 kn of room: the tenth below', 4.19, 'kn', '4.1 kn'],
    ['exact tenths stay, in spite of binary fractions', 0.7, 'm', '0.7 m'],
    ['whole kn without a decimal', 3.04, 'kn', '3 kn'],
    ['beyond the limit: further beyond, never nearer', -0.42, 'm', '-0.5 m'],
    ['a ratio has no unit to show', 0.0129, 'ratio', '0.012'],
    ['minutes are whole', 38.9, 'min', '38 min'],
  ])('%s', (_, room, unit, text) => {
    expect(roomText(room, unit)).toBe(text);
  });

  it('any room: never says more than there is', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 60, noNaN: true }), (roomKn) => {
        expect(Number.parseFloat(roomText(roomKn, 'kn'))).toBeLessThanOrEqual(roomKn + 1e-6);
      }),
      { seed: 7 },
    );
  });
});

describe('of100', () => {
  it.each([
    ['certain', 1, 100],
    ['nearly certain is not certain', 0.9999, 99],
    ['nearly never is not never', 0.0001, 1],
    ['never', 0, 0],
    ['between', 0.754, 75],
  ])('%s', (_, probability, shown) => {
    expect(of100(probability)).toBe(shown);
  });
});

describe('plusMinus', () => {
  it.each([
    ['3.4 points: rounded away from false sharpness', 0.034, '± 4'],
    ['exactly 4 points stay 4', 0.04, '± 4'],
    ['a tiny error is still 1', 0.0001, '± 1'],
    ['none known: nothing said', null, ''],
    ['probabilities of 0 and 1 taken at their word: nothing said', 0, ''],
  ])('%s', (_, sd, text) => {
    expect(plusMinus(sd)).toBe(text);
  });
});

describe('other amounts', () => {
  it('zero is not minus zero', () => {
    expect(amountText(-0.01, 'kn')).toBe('0 kn');
  });

  it('miles: a decimal below ten only', () => {
    expect([aboutText(6.24, 'nm'), aboutText(38.4, 'nm')]).toEqual(['6.2 nm', '38 nm']);
  });
});
