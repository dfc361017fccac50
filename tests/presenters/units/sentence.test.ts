import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitsIn, sentenceIn } from '../../../server/presenters/units/sentence.ts';
import { PLAIN_UNITS, type ShownUnits } from '../../../server/presenters/units/shown-units.ts';
import { BEAUFORT, EVERY_UNITS, FEET, SI } from './every-unit.ts';

const METRIC_WIND_FEET: ShownUnits = { wind: 'm/s', height: 'ft', temperature: '°F' };

describe('sentences in other units', () => {
  it.each<[string, ShownUnits, string, string]>([
    [
      'wind of limits, of what is expected, and by how much it is over',
      SI,
      'wind over the deck above 13.0 kn in 46 of 100 (14.2 kn expected, 1.2 kn over)',
      'wind over the deck above 6.6 m/s in 46 of 100 (7.3 m/s expected, 0.7 m/s over)',
    ],
    [
      'what stands over the deck is no excess',
      SI,
      'It stands 28 kn over the deck and gets 19 kn; "Bolt" stands only 16 kn.',
      'It stands 14.4 m/s over the deck and gets 9.8 m/s; "Bolt" stands only 8.2 m/s.',
    ],
    [
      'Beaufort beside the knots, in square brackets inside round ones',
      BEAUFORT,
      'at most 28 kn (expected 19 kn), gusts 33 kn. Stop at 35 kn.',
      'at most 28 kn (Bft 7) (expected 19 kn [Bft 5]), gusts 33 kn (Bft 7). Stop at 35 kn (Bft 8).',
    ],
    ['a difference has no force', BEAUFORT, 'short by 3.0 kn, 1.2 kn to spare', 'short by 3.0 kn, 1.2 kn to spare'],
    [
      'the height of the instrument is none of the sea',
      METRIC_WIND_FEET,
      'Wind at the instrument (21 m)',
      'Wind at the instrument (21 m)',
    ],
    [
      'sea in ft: start and stop rounded down',
      FEET,
      'Sea at most 1.6 m, no breaking crests; stop at 2.0 m.',
      'Sea at most 5.2 ft, no breaking crests; stop at 6.5 ft.',
    ],
    ['lengths of twine stay in m', FEET, 'twine: 5.0 m short (20.0 m needed)', 'twine: 5.0 m short (20.0 m needed)'],
    [
      'temperatures, and a difference of two of them',
      FEET,
      'air temperature below 8.0 °C (6.2 °C expected, 1.8 °C under)',
      'air temperature below 46.4 °F (43.2 °F expected, 3.3 °F under)',
    ],
    ['below zero', FEET, 'air from −2 °C', 'air from 29 °F'],
    ['far below zero', FEET, 'air −30 °C', 'air −22 °F'],
    ['boat speed stays in kn', SI, 'heading 085° true at 4.8 kn', 'heading 085° true at 4.8 kn'],
    ['names in quotation marks stay', SI, '"Run at 20 kn" and “Ease at 5 kn”', '"Run at 20 kn" and “Ease at 5 kn”'],
    ['a span', SI, 'wind of 10 to 20 kn', 'wind of 5.1 to 10.3 m/s'],
  ])('%s', (_, units, text, wanted) => {
    expect(sentenceIn(text, units)).toBe(wanted);
  });

  it('limits of a step: ideal, caution and no-go, each on the strict side', () => {
    expect(limitsIn('sea 1 / 1.5 / 2 m', FEET)).toBe('sea 3.2 / 4.9 / 6.5 ft');
    expect(limitsIn('wind over the deck 12 / 18 / 24 kn', BEAUFORT)).toBe(
      'wind over the deck 12 / 18 / 24 kn (Bft 4 to 6)',
    );
  });

  it('any wind expected and allowed: what is inside its limit never reads as outside', () => {
    const knots = fc.integer({ min: 0, max: 600 }).map((tenths) => (tenths / 10).toFixed(1));
    fc.assert(
      fc.property(knots, knots, (one, other) => {
        const [expected, allowed] = [one, other].toSorted((a, b) => Number(a) - Number(b));
        const said = sentenceIn(`${expected} kn expected at the worst moment, ${allowed} kn allowed`, SI);
        const [shownExpected = 0, shownAllowed = 0] = [...said.matchAll(/[\d.]+(?= m\/s)/g)].map(([text]) =>
          Number(text),
        );
        expect(shownExpected).toBeLessThanOrEqual(shownAllowed);
      }),
      { seed: 600 },
    );
  });

  it('kn, m and °C: every text stays as it is', () => {
    fc.assert(
      fc.property(fc.string(), (text) => sentenceIn(text, PLAIN_UNITS) === text),
      { seed: 18 },
    );
  });

  it('twice is as once, in every unit', () => {
    const said = 'Sea above 2.0 m (1.2 m expected), wind above 13.0 kn (14.2 kn expected, 1.2 kn over), air from 5 °C.';
    for (const units of EVERY_UNITS) expect(sentenceIn(sentenceIn(said, units), units)).toBe(sentenceIn(said, units));
  });
});
