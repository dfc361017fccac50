import { describe, expect, it } from 'vitest';
import { spreadText } from '../../../lib/brief/export/job-words.ts';
import { plusMinus } from '../../../server/presenters/amount-texts.ts';

/** Our own rule, no source: sheet, text and page say one error of one plan. */
describe('spreadText', () => {
  it.each([
    [0.0244, ' ± 3'],
    [0.02, ' ± 2'],
    [0.001, ' ± 1'],
  ])('a standard error of %d: %s, as on the page', (probabilitySd, text) => {
    expect(spreadText(probabilitySd)).toBe(text);
    expect(` ${plusMinus(probabilitySd)}`).toBe(text);
  });

  it('none or unknown: nothing is said', () => {
    expect([spreadText(0), spreadText(null), spreadText()]).toEqual(['', '', '']);
  });
});
