import { describe, expect, it } from 'vitest';
import { cFromF, fFromC, fStepFromC, ftFromM, mFromFt } from '../../lib/units/index.ts';
import display from '../golden/units/display.json' with { type: 'json' };

/** The golden figures are written to ten digits. */
const DIGITS = 9;

describe('conversions against NIST SP 811, appendix B', () => {
  it.each(display.lengths)('$lengthM m: $lengthFt ft, both ways', ({ lengthM, lengthFt }) => {
    expect(ftFromM(lengthM)).toBeCloseTo(lengthFt, DIGITS);
    expect(mFromFt(lengthFt)).toBeCloseTo(lengthM, DIGITS);
  });

  it.each(display.temperatures)('$temperatureC °C: $temperatureF °F, both ways', ({ temperatureC, temperatureF }) => {
    expect(fFromC(temperatureC)).toBeCloseTo(temperatureF, DIGITS);
    expect(cFromF(temperatureF)).toBeCloseTo(temperatureC, DIGITS);
  });

  it.each(display.differences)('a difference of $differenceC °C: $differenceF °F', ({ differenceC, differenceF }) => {
    expect(fStepFromC(differenceC)).toBeCloseTo(differenceF, DIGITS);
  });
});
