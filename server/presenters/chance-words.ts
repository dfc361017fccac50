import { of100 } from './amount-texts.ts';

/**
 * A chance in a word, on the calibrated scale of the climate assessments.
 *
 * @see Mastrandrea et al., Guidance Note for Lead Authors of the IPCC Fifth Assessment Report on Consistent Treatment of
 *   Uncertainties, 2010, table 1 (from memory)
 */
export function chanceWord(probability: number): string {
  // Of the figure that stands beside it: two equal figures never bear two words.
  const shown = of100(probability);
  if (shown >= 99) return 'virtually certain';
  if (shown >= 90) return 'very likely';
  if (shown >= 66) return 'likely';
  if (shown > 33) return 'about as likely as not';
  if (shown > 10) return 'unlikely';
  return shown > 1 ? 'very unlikely' : 'exceptionally unlikely';
}

/** Room in usual forecast errors (standard deviations), in words; our own steps. */
export function roomWord(marginSd: number): string {
  const figure = `${(Math.floor(marginSd * 10) / 10).toFixed(1).replace('-', '−')} σ`;
  if (marginSd < 0) return `${figure}: beyond the limit`;
  if (marginSd < 1) return `${figure}: thin, less than one usual forecast error`;
  return marginSd < 2
    ? `${figure}: between one and two usual forecast errors`
    : `${figure}: more than two usual forecast errors`;
}
